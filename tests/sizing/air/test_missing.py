"""What a book or a site does not say is not decided, and is named."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.files.books import book_from, read_book, read_build
from baywright.problems import Problems
from baywright.sizing.air.curves import Curve, operating_point, side_by_side
from baywright.sizing.air.fans import flow_at, speed_for
from baywright.sizing.air.flow import flow_needed, heat_per_flow, rise_of
from baywright.sizing.air.inlet import derated
from baywright.sizing.air.intake import intake_velocity, open_area
from baywright.sizing.air.listings import listings
from baywright.sizing.air.noise import summed
from baywright.sizing.air.sheet import sheet
from baywright.sizing.case import Case
from baywright.sizing.figure import Figure
from baywright.units import Quantity
from tests.files.example import changed_example
from tests.sizing.air.figures import (
    bundled,
    case_from,
    compiled,
    figures_of,
    in_room,
    limits_of,
    value,
    with_fan,
    without,
)
from tests.sizing.cases import build_of, case_of

OTHERS = Path(__file__).parents[2] / "books_by_others"


def record_office(book: Book) -> Case:
    return case_from(compiled(book), build_of("f2", "n4"))


def assert_told(figure: Figure) -> None:
    """A number that is not there says what it depends on, or why it is not there."""
    if np.isnan(np.asarray(figure.values)).any():
        assert figure.missing or figure.outside, figure.key


@pytest.mark.parametrize(
    ("book", "build"),
    [
        ("l4", "n3"),
        ("p1", "n1"),
        ("f1", "n5-owned"),
        ("f1", "n5-wanted"),
        ("f2", "n4"),
        ("f2", "n2"),
    ],
)
def test_every_number_of_the_bundled_books_is_there_or_told(book: str, build: str) -> None:
    for figure in figures_of(case_of(book, build)).values():
        assert_told(figure)


@pytest.mark.parametrize(
    ("book", "build", "settled"),
    [
        ("t4", "big", {"parts.fast-7680.power": "21 W", "parts.net-100.power": "22 W"}),
        ("t4", "low", {"parts.fast-7680.power": "21 W", "parts.net-100.power": "22 W"}),
        ("r0", "pump", {}),
        ("r0", "safe", {}),
    ],
)
def test_every_number_of_foreign_books_is_there_or_told(
    book: str, build: str, settled: dict[str, str]
) -> None:
    machine = compiled(read_book(OTHERS / book, settled))
    case = case_from(machine, read_build(OTHERS / book / "builds" / f"{build}.yaml"))
    for figure in figures_of(case).values():
        assert_told(figure)
    assert all(table.rows for table in listings(case))


def test_of_the_one_fan_of_the_pump_house_none_may_fail() -> None:
    machine = compiled(read_book(OTHERS / "r0"))
    case = case_from(machine, read_build(OTHERS / "r0/builds/pump.yaml"))
    limit = limits_of(case)["heat_failed"]
    assert np.ravel(limit.bound)[0] == 0
    assert limit.room[0] == -limit.figure.value
    assert math.isnan(value(case, "speed_failed"))


def test_a_book_without_noise_names_it() -> None:
    case = record_office(without(bundled("f2"), "noise_idle", "noise_full"))
    figures = figures_of(case)
    assert figures["noise_idle"].missing == ("air.noise_idle",)
    assert figures["noise_full"].missing == ("air.noise_full",)
    assert math.isnan(figures["noise_room"].value)


def test_without_noise_of_the_machine_that_of_its_fans_adds_up() -> None:
    """Six fans of 50 dB(A): 50 + 10 log10 6 = 57.8 dB(A)."""
    book = with_fan(without(bundled("f2"), "noise_full"), noise=sound("50 dB(A)"))
    figure = figures_of(record_office(book))["noise_full"]
    assert figure.value == pytest.approx(50 + 10 * math.log10(6))
    assert figure.equation is not None


def sound(text: str) -> Fact[Quantity]:
    """Read a level as a book would have it."""
    noisy = bundled("f2").air.model_validate(
        {
            "rise": "15 K",
            "inlet_limits": [],
            "derating": {"above": "900 m", "by": "1 K", "per": "300 m"},
            "noise_full": text,
        }
    )
    assert noisy.noise_full is not None
    return noisy.noise_full


def test_a_book_without_curves_names_them_and_takes_the_opening() -> None:
    case = in_room(record_office(with_fan(bundled("f2"), curve=[])), grille_blocked="25 %")
    figures = figures_of(case)
    assert figures["operating_flow"].missing == ("parts.fan.curve",)
    assert math.isnan(figures["operating_flow"].value)
    assert figures["flow_blocked"].value == pytest.approx(0.75 * 192)
    assert "in proportion to the opening" in figures["flow_blocked"].condition


def test_a_book_without_an_air_path_names_it() -> None:
    figures = figures_of(record_office(without(bundled("f2"), "resistance")))
    assert figures["operating_failed"].missing == ("air.resistance",)


def test_a_book_without_a_grille_or_a_time_without_cover_names_them() -> None:
    figures = figures_of(record_office(without(bundled("f2"), "grille", "cover_off")))
    assert figures["intake_velocity"].missing == ("air.grille",)
    assert figures["cover_off"].missing == ("air.cover_off",)


def test_a_fan_whose_draw_nobody_stated_has_none_at_less_speed() -> None:
    figures = figures_of(record_office(with_fan(bundled("f2"), power=None)))
    assert math.isnan(figures["fan_power"].value)
    assert figures["fan_power"].missing == ("parts.fan.power",)


def test_a_book_without_fans_decides_nothing_of_them() -> None:
    book = bundled("f2")
    places = {name: place for name, place in book.places.items() if name != "F"}
    build = build_of("f2", "n4")
    fitted = {name: part for name, part in build.places.items() if name != "F"}
    machine = compiled(book.model_copy(update={"places": places}))
    case = case_from(machine, build.model_copy(update={"places": fitted}))
    figures = figures_of(case)
    for key in ("flow", "speed", "carried", "rise", "operating_flow", "flow_blocked"):
        assert math.isnan(figures[key].value), key
        assert figures[key].missing == ("places: no fans",), key
    assert np.isnan(limits_of(case)["heat"].room).all()


def test_too_high_for_the_atmosphere_there_is_no_number() -> None:
    case = case_of("f2", "n4", altitude=12_000.0)
    figures = figures_of(case)
    assert math.isnan(figures["carried"].value)
    assert "11,000 m" in figures["carried"].outside
    assert np.isnan(limits_of(case)["heat"].room).all()


def test_nothing_is_open_behind_a_blocked_intake() -> None:
    figures = figures_of(in_room(case_of("f2", "n4"), grille_blocked="100 %"))
    assert figures["flow_blocked"].value == 0
    assert math.isnan(figures["intake_velocity"].value)


def test_cautions_stand_before_the_numbers() -> None:
    assert sheet(case_of("f2", "n4")).cautions == ("redundancy", "no-airflow", "estimate")


@pytest.mark.parametrize("points", ["no flow", "no pressure", "order"])
def test_a_curve_that_cannot_be_is_refused_with_its_book(points: str) -> None:
    written = {
        "no flow": "[{flow: 1 CFM, pressure: 50 Pa}, {flow: 18 CFM, pressure: 0 Pa}]",
        "no pressure": "[{flow: 0 CFM, pressure: 50 Pa}, {flow: 18 CFM, pressure: 5 Pa}]",
        "order": "[{flow: 0 CFM, pressure: 50 Pa}, {flow: 0 CFM, pressure: 0 Pa}]",
    }[points]
    files = changed_example(
        "t1/parts.yaml", "flow: 18 CFM, power: 6 W", f"flow: 18 CFM, power: 6 W, curve: {written}"
    )
    with pytest.raises(Problems, match="fan curve") as found:
        book_from(files)
    assert [problem.kind for problem in found.value.problems] == ["out-of-order"]


def test_an_expression_of_an_air_path_is_checked_with_its_book() -> None:
    path = "rise: 15 K\n  resistance: [{flow: 54 CFM, pressure: 30 Pa, when: count(}]"
    with pytest.raises(Problems):
        book_from(changed_example("t1/book.yaml", "rise: 15 K", path))


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="not negative"):
        flow_needed(-1.0, 15.0)
    with pytest.raises(ValueError, match="outside the layer"):
        heat_per_flow(20_000.0)
    with pytest.raises(ValueError, match="more than none"):
        derated(30.0, 900.0, 1.0, 0.0, 2000.0)
    with pytest.raises(ValueError, match="between 0 and 1"):
        open_area(0.05, 0.6, 1.1)
    with pytest.raises(ValueError, match="without a source"):
        summed()
    with pytest.raises(ValueError, match="not negative"):
        flow_at(100.0, -0.1)


@pytest.mark.parametrize(
    ("flows", "pressures", "words"),
    [
        ((0.0,), (0.0,), "two points"),
        ((1.0, 2.0), (5.0, 0.0), "no flow to no pressure"),
        ((0.0, 2.0), (5.0, 1.0), "no flow to no pressure"),
        ((0.0, 2.0, 3.0), (5.0, 5.0, 0.0), "pressure falls"),
    ],
)
def test_a_curve_that_cannot_be_is_refused(
    flows: tuple[float, ...], pressures: tuple[float, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        Curve(flows, pressures)


def test_no_fan_has_no_curve() -> None:
    with pytest.raises(ValueError, match="without a fan"):
        side_by_side([])


def test_nothing_moves_where_there_is_nothing_to_divide_by() -> None:
    assert math.isnan(rise_of(100.0, 0.0))
    assert math.isnan(speed_for(1.0, 0.0))
    assert math.isnan(intake_velocity(1.0, 0.0))
    assert math.isnan(flow_at(100.0, 1.1))
    assert math.isnan(operating_point(Curve((0.0, 1.0), (1.0, 0.0)), math.nan).flow)
    assert operating_point(Curve((0.0, 1.0), (1.0, 0.0)), 0.0).flow == 1.0

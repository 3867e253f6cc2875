"""What holds for any build: many at once, facts that are missing, books by others."""

from __future__ import annotations

import time
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.facts.book import Book
from baywright.laws.frame import Frame
from baywright.sizing.case import Case
from baywright.sizing.rack.masses import by_place, weighed
from baywright.sizing.rack.sheet import listings, sheet
from tests.sizing.builds import EVERY, alone, case_by_others
from tests.sizing.cases import case_of
from tests.sizing.rack.figures import at, figures_of, limits_of, mixed, value

HOST = case_of("f2", "n2")

seeds = st.integers(0, 10**6)


def without(case: Case, **chassis: object) -> Case:
    """Return a case whose book says something else, or nothing, of the chassis."""
    book: Book = case.book.model_copy(
        update={"chassis": case.book.chassis.model_copy(update=chassis)}
    )
    frame: Frame = replace(case.frame, book=book)
    return replace(case, frame=frame)


@given(seeds)
@settings(max_examples=10)
def test_many_builds_at_once_are_each_as_by_themselves(seed: int) -> None:
    case = mixed(HOST, 5, seed)
    together = figures_of(case)
    for position in range(5):
        for key, figure in figures_of(alone(case, position)).items():
            values = np.broadcast_to(together[key].values, (5,))
            assert values[position] == pytest.approx(figure.value, nan_ok=True), key


@given(seeds)
@settings(max_examples=25)
def test_a_machine_weighs_what_its_chassis_and_places_weigh(seed: int) -> None:
    case = mixed(HOST, 20, seed)
    assert np.allclose(weighed(case).total, 15.0 + sum(by_place(case).values()))


@given(seeds)
@settings(max_examples=25)
def test_the_centre_stays_inside_the_machine(seed: int) -> None:
    centre = np.asarray(weighed(mixed(HOST, 50, seed)).centre)
    assert np.all((centre > 0) & (centre < 0.76))


@given(seeds)
@settings(max_examples=10)
def test_as_many_machines_as_are_said_to_fit_do_and_one_more_does_not(seed: int) -> None:
    """By mass, the only resource stated."""
    case = mixed(at("f2", "n2", feeds={}, room=None, rack={"mass_most": "400 kg"}), 20, seed)
    count, mass = figures_of(case)["machines"].values, weighed(case).total
    assert np.all(np.multiply(count, mass) <= 400 + 1e-6)
    assert np.all(np.multiply(np.add(count, 1), mass) > 400)


def test_more_load_never_lets_more_machines_in() -> None:
    extra = np.linspace(0.0, 3000.0, 301)
    swept = HOST.amid(HOST.around.changed("extra", extra))
    fits = np.asarray(figures_of(swept)["machines"].values)
    known = fits[np.isfinite(fits)]
    assert known.size > 100
    assert np.all(np.diff(known) <= 0)


def test_a_sweep_gives_a_number_for_each_step() -> None:
    swept = HOST.amid(HOST.around.changed("altitude", np.array([0.0, 1000.0, 3000.0])))
    assert limits_of(swept)["room_heat"].room.shape in {(1,), (3,)}
    assert np.ravel(limits_of(swept)["tipping"].room).size == 1


@pytest.mark.parametrize(
    ("lacks", "keys"),
    [
        ("units", {"units", "machines.space"}),
        ("mass_most", {"load", "machines.mass"}),
        ("mass_empty", {"tipping", "tip_factor", "centre_height", "tilt", "machines.floor"}),
        ("setback", {"tipping", "tip_factor"}),
        ("rails", {"rails_from", "rails_to"}),
        ("depth_free", {"depth"}),
        ("width", {"tilt", "floor_load", "machines.floor"}),
        ("floor_most", {"floor_load", "machines.floor"}),
    ],
)
def test_a_fact_that_the_site_lacks_is_named(lacks: str, keys: set[str]) -> None:
    rack = HOST.site.rack
    assert rack is not None
    site = HOST.site.model_copy(update={"rack": rack.model_copy(update={lacks: None})})
    figures = figures_of(HOST.amid(replace(HOST.around, site=site)))
    naming = {key for key, figure in figures.items() if f"site.rack.{lacks}" in figure.missing}
    assert keys <= naming


def test_a_book_without_the_centre_of_its_chassis_leaves_the_centre_open() -> None:
    figures = figures_of(without(HOST, centre_depth=None))
    for key in ("centre_depth", "tipping"):
        assert np.isnan(figures[key].value)
        assert "chassis.centre_depth" in figures[key].missing


def test_slides_let_a_machine_out_by_its_depth_unless_given() -> None:
    assert value(without(HOST, slide_travel=None), "tipping") == value(HOST, "tipping")


def test_a_host_that_stands_nowhere_in_particular_still_has_its_mass() -> None:
    case = at("f2", "n2", feeds={}, room=None, rack=None, lift=None)
    figures = figures_of(case)
    assert value(case, "mass") == pytest.approx(22.368)
    assert np.isnan(figures["machines"].value)
    assert "site.rack.units" in figures["machines"].missing
    assert list(listings(case)) == []


@pytest.mark.parametrize(("book", "name"), EVERY)
def test_every_build_is_sized_as_far_as_book_and_site_say(book: str, name: str) -> None:
    case = case_by_others(book, name) if book in ("t4", "r0") else case_of(book, name)
    for build in (case, mixed(case, 30, 7)):
        for key, figure in figures_of(build).items():
            assert (
                figure.missing or figure.outside or not np.isnan(np.asarray(figure.values)).any()
            ), key
    assert all(listing.rows for listing in listings(case))


def test_a_machine_for_the_wall_goes_into_no_rack() -> None:
    case = case_by_others("r0", "pump")
    assert np.isnan(value(case, "units"))
    assert figures_of(case)["units"].missing[0] == "chassis.rails_from"


def test_a_thousand_builds_take_milliseconds() -> None:
    """The whole of sizing has 2 s for them, rack and room a small part of it."""
    case = mixed(HOST, 1000, 1)
    sheet(case)
    start = time.process_time()
    sheet(case)
    assert time.process_time() - start < 0.1

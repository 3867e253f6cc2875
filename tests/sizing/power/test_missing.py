"""What a book or a site does not say is not decided, and it is named what it depends on."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from baywright.facts.site import Site
from baywright.files.books import read_book, read_build
from baywright.laws.builds import codes_of
from baywright.laws.conditions import Conditions
from baywright.laws.machine import Machine, compile_book
from baywright.sizing.case import Case, Surroundings
from baywright.sizing.power.listings import listings
from baywright.sizing.power.sheet import sheet
from baywright.units import parse
from tests.sizing.cases import case_of
from tests.sizing.power.figures import figures_of, limits_of

OTHERS = Path(__file__).parents[2] / "books_by_others"
SETTLED = {"t4": {"parts.fast-7680.power": "21 W", "parts.net-100.power": "22 W"}, "r0": {}}
"""Facts that the books leave open, settled so that each is compiled once."""


@cache
def machine_by_others(book: str) -> Machine:
    facts = read_book(OTHERS / book, SETTLED[book])
    heat = parse("1 W").canonical
    return compile_book(facts, Conditions(facts.book.edition.known, heat, parse("0 m")))


def case_by_others(book: str, build: str) -> Case:
    machine = machine_by_others(book)
    found = read_build(OTHERS / book / "builds" / f"{build}.yaml")
    codes = {name: np.array([code]) for name, code in codes_of(machine, found).items()}
    return Case(machine.frame, codes, Surroundings.of(found.site))


EVERY = [
    *((case_of, *pair) for pair in [("f2", "n2"), ("f2", "n4"), ("f1", "n5-wanted")]),
    *((case_of, *pair) for pair in [("f1", "n5-owned"), ("l4", "n3"), ("p1", "n1")]),
    *((case_by_others, *pair) for pair in [("t4", "big"), ("t4", "low"), ("r0", "pump")]),
    (case_by_others, "r0", "safe"),
]


@pytest.mark.parametrize(("read", "book", "build"), EVERY)
@pytest.mark.parametrize("volts", ["stated", None, 5000.0])
def test_what_is_not_decided_says_why(read: object, book: str, build: str, volts: object) -> None:
    case: Case = read(book, build)  # type: ignore[operator]
    if volts != "stated":
        case = case.amid(case.around.changed("volts", volts))  # type: ignore[arg-type]
    limits = limits_of(case)
    for key, figure in figures_of(case).items():
        bounds = limits[key].bound if key in limits else 0.0
        if np.isnan(np.add(figure.values, bounds)).any():
            assert figure.missing or figure.outside, key
        else:
            assert not figure.missing, key
    assert list(listings(case))


@pytest.mark.parametrize(("read", "book", "build"), EVERY)
def test_keys_are_those_of_power_and_each_is_there_once(
    read: object, book: str, build: str
) -> None:
    found = sheet(read(book, build))  # type: ignore[operator]
    keys = [figure.key for figure in found.figures] + [each.figure.key for each in found.limits]
    assert len(keys) == len(set(keys))
    assert all(key.startswith("power.") for key in keys)


def test_without_a_voltage_redundancy_is_not_stated() -> None:
    figures = figures_of(case_of("f2", "n4", volts=None))
    assert figures["dc.peak"].value == 1159.0
    for key in ("rating", "carried_redundant", "shed.redundant", "current.peak"):
        assert figures[key].missing == ("site.voltage",), key
    limit = limits_of(case_of("f2", "n4", volts=None))["redundancy"]
    assert np.isnan(limit.margin).all()
    assert limit.figure.missing == ("site.voltage",)


def test_a_voltage_between_the_lines_is_named() -> None:
    figure = figures_of(case_of("f2", "n4", volts=150.0))["rating"]
    assert np.isnan(figure.value)
    assert figure.missing == ("a line of the book at 150 V",)


def test_redundancy_is_stated_with_load_voltage_and_altitude() -> None:
    limit = limits_of(case_of("f2", "n4"))["redundancy"]
    assert limit.figure.condition == "at peak, 120 V, 0 m"
    assert limit.figure.inputs[0].text == "1,159 W"


def test_without_feeds_what_a_feed_carries_is_not_decided() -> None:
    figures = figures_of(case_of("f2", "n4"))
    for key in ("feed.all", "feed.left", "hosts.left", "left.feed", "inrush.feed"):
        assert figures[key].missing == ("site.feeds",), key


def test_a_feed_without_a_local_rule_is_not_decided() -> None:
    """A current with no bound is still shown; NEC and IEC differ, so no share is supposed."""
    site = Site.model_validate({"voltage": "230 V", "feeds": {"A": {"current": "32 A"}}})
    figures = figures_of(case_of("f2", "n2", site=site))
    assert figures["hosts.all"].missing == ("site.feeds.A.continuous",)
    assert figures["feed.all"].value == pytest.approx(6.312, abs=0.0005)
    assert figures["feed.all"].missing == ("site.feeds.A.continuous",)


def test_of_two_feeds_one_without_a_bound_leaves_it_open() -> None:
    feeds = {"A": {"current": "32 A", "continuous": "80 %"}, "B": {"current": "16 A"}}
    site = Site.model_validate({"voltage": "230 V", "feeds": feeds})
    limit = limits_of(case_of("f2", "n2", site=site))["feed.left"]
    assert np.isnan(limit.bound).all()
    assert limit.figure.missing == ("site.feeds.B.continuous",)


def test_of_two_feeds_the_weaker_one_counts() -> None:
    """6.265 A of 16 A × 100 % in B is nearer than 6.265 A of 25.6 A in A."""
    feeds = {
        "A": {"current": "32 A", "continuous": "80 %"},
        "B": {"current": "16 A", "continuous": "100 %"},
    }
    site = Site.model_validate({"voltage": "230 V", "feeds": feeds})
    case = case_of("f2", "n2", site=site)
    assert limits_of(case)["feed.left"].bound == pytest.approx([16.0])
    assert figures_of(case)["hosts.left"].value == 2


def test_one_feed_lost_leaves_nothing() -> None:
    feed = {"current": "32 A", "continuous": "100 %", "outlets": "5", "leakage_most": "9 mA"}
    site = Site.model_validate({"voltage": "230 V", "feeds": {"A": feed}})
    case = case_of("f2", "n2", site=site)
    assert figures_of(case)["shed.feed"].value == pytest.approx(1327 + 2 / 3)
    # Five outlets are two hosts of two cords; 9 mA would be three of 2.4 mA, 32 A five of 6.3 A.
    assert figures_of(case)["hosts.all"].value == 2
    assert limits_of(case)["leakage.bound"].room == pytest.approx([9 - 2.4])


def test_a_feed_at_another_voltage_is_not_decided() -> None:
    feed = {"current": "32 A", "continuous": "80 %", "voltage": "400 V"}
    site = Site.model_validate({"voltage": "230 V", "feeds": {"A": feed}})
    figure = figures_of(case_of("f2", "n2", site=site))["hosts.all"]
    assert figure.missing == ("site.feeds.A.voltage that agrees with that of the site",)


def test_a_load_past_all_supplies_is_outside_the_curve() -> None:
    figure = figures_of(case_of("f2", "n4", extra=3000.0))["input.peak"]
    assert np.isnan(figure.value)
    assert not figure.missing
    assert figure.outside == "The load is above the highest point of the efficiency curve."


def test_supplies_without_a_power_factor_have_watts_and_no_current() -> None:
    figures = figures_of(case_by_others("t4", "big"))
    assert figures["input.peak"].value > figures["dc.peak"].value
    assert figures["current.peak"].missing == ("parts.ps-2000.power_factor",)


def test_direct_current_has_no_power_factor() -> None:
    """P1 from 48 V: one supply of 240 W takes 156.22 / .92 = 169.81 W, and as many VA."""
    frame = case_of("p1", "n1").frame
    codes = dict(case_of("p1", "n1").codes)
    both = next(
        position
        for position, option in enumerate(frame.options("PS"))
        if option.parts == (("ps-dc", 2),)
    )
    case = Case(frame, {**codes, "PS": np.array([both])}, Surroundings(volts=48.0))
    figures = figures_of(case)
    assert figures["apparent.peak"].value == pytest.approx(169.807, abs=0.0005)
    assert figures["current.peak"].value == pytest.approx(3.538, abs=0.0005)
    # The same supplies are not made for 230 V: they carry nothing there.
    at_230 = figures_of(case.amid(Surroundings(volts=230.0)))
    assert at_230["carried"].value == 0.0

"""What holds for the power of every build: more load, more supplies, other voltages."""

from __future__ import annotations

import time
from functools import cache

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.facts.places import Supplies
from baywright.laws.power import capacity, load
from baywright.sizing.case import Case, Surroundings
from baywright.sizing.power.circuits import hosts_on_feed, supplies_on_feed
from baywright.sizing.power.draw import STATES, draw
from baywright.sizing.power.efficiency import Curve, efficiency, efficiency_estimated
from baywright.sizing.power.phases import dealt, neutral_current
from baywright.sizing.power.sharing import carried, load_of_each, spare, to_shed
from baywright.sizing.power.sheet import sheet
from tests.sizing.cases import build_of, machine_of
from tests.sizing.power.figures import figures_of, limits_of

WATTS = st.floats(0, 20_000, allow_nan=False)
COUNTS = st.integers(0, 8)
AMPS = st.floats(0, 100, allow_nan=False)


@cache
def random_case(book: str, size: int, seed: int = 1, build: str = "n2") -> Case:
    """Return builds with a random value for each choice, legal or not."""
    machine = machine_of(book)
    drawn = np.random.default_rng(seed)
    codes = {
        name: drawn.integers(0, len(fitting.options), size)
        for name, fitting in machine.frame.fittings.items()
        if not fitting.derived
    }
    return Case(machine.frame, codes, Surroundings.of(build_of(book, build).site))


def given_everything(case: Case, key: str) -> npt.NDArray[np.float64]:
    return np.broadcast_to(figures_of(case)[key].values, case.size)


@pytest.mark.parametrize(("book", "build"), [("f2", "n2"), ("l4", "n3"), ("p1", "n1")])
def test_random_builds_draw_what_the_laws_say(book: str, build: str) -> None:
    case = random_case(book, 200, build=build)
    assert draw(case, "peak") == pytest.approx(case.total(load(case.frame)), abs=1e-8)


def test_a_busier_state_never_draws_less() -> None:
    case = random_case("f2", 300)
    idle, typical, peak = (draw(case, state) for state in STATES)
    assert np.all(idle <= typical)
    assert np.all(typical <= peak)


@given(extra=st.floats(0, 5000, allow_nan=False))
@settings(deadline=None, max_examples=25)
def test_more_load_never_takes_in_less_nor_leaves_more(extra: float) -> None:
    case = random_case("f2", 50)
    more = case.amid(case.around.changed("extra", extra))
    for state in STATES:
        before, after = (given_everything(c, f"dc.{state}") for c in (case, more))
        assert np.allclose(after, before + (extra if state == "peak" else 0.0))
    for key, limit in limits_of(more).items():
        room = np.broadcast_to(limits_of(case)[key].room, 50) - np.broadcast_to(limit.room, 50)
        assert np.all(room[np.isfinite(room)] >= -1e-6), key


def test_power_taken_in_is_never_less_than_what_is_delivered() -> None:
    case = random_case("f2", 500)
    for state in STATES:
        lost = given_everything(case, f"loss.{state}")
        assert np.nanmin(lost) >= 0
        watts, apparent = (
            given_everything(case, f"{key}.{state}") for key in ("input", "apparent")
        )
        decided = ~np.isnan(watts)
        assert np.all(apparent[decided] >= watts[decided])


@pytest.mark.parametrize(("volts", "line"), [(120.0, "low"), (230.0, "high")])
@pytest.mark.parametrize("redundant", [False, True])
def test_supplies_carry_what_the_laws_say(volts: float, line: str, redundant: bool) -> None:
    """Every mixture of supplies that the frame has, also those that are not legal."""
    frame = machine_of("f2").frame
    size = len(frame.options("PS"))
    codes = {name: np.zeros(size, int) for name, f in frame.fittings.items() if not f.derived}
    case = Case(frame, {**codes, "PS": np.arange(size)}, Surroundings(volts=volts))
    place = frame.book.places_of(Supplies)["PS"]
    expected = [
        float(capacity(frame.book, place, option, line, redundant=redundant))
        for option in frame.options("PS")
    ]
    key = "carried_redundant" if redundant else "carried"
    assert given_everything(case, key).tolist() == expected


@given(drawn=WATTS, rating=st.floats(1, 5000), supplies=COUNTS)
def test_a_supply_more_never_makes_redundancy_worse(
    drawn: float, rating: float, supplies: int
) -> None:
    fewer, more = (spare(drawn, rating, float(count)) for count in (supplies, supplies + 1))
    assert more >= fewer
    assert to_shed(drawn, carried(rating, supplies + 1.0)) <= to_shed(
        drawn, carried(rating, float(supplies))
    )


@given(drawn=WATTS, rating=st.floats(1, 5000), supplies=st.integers(1, 8))
def test_spare_supplies_may_be_lost_and_one_more_may_not(
    drawn: float, rating: float, supplies: int
) -> None:
    lost = int(spare(drawn, rating, float(supplies)))
    if lost:
        assert drawn <= rating * (supplies - lost) * (1 + 1e-6) + 1e-6
    if supplies - lost > 1:
        assert drawn > rating * (supplies - lost - 1) * (1 - 1e-6) - 1e-6


@given(
    values=st.lists(st.floats(0.5, 1.0), min_size=4, max_size=4),
    share=st.floats(0.0, 1.5),
)
def test_efficiency_lies_between_its_neighbours_and_is_never_extended(
    values: list[float], share: float
) -> None:
    curve = Curve((0.1, 0.2, 0.5, 1.0), tuple(values))
    found = float(efficiency(share, curve))
    assert np.isnan(found) == (share < 0.1 or share > 1 + 1e-9)
    if not np.isnan(found):
        assert min(values) - 1e-12 <= found <= max(values) + 1e-12
        assert efficiency_estimated(share, curve) == found
    if share < 0.1:
        assert efficiency_estimated(share, curve) == values[0]


@given(a=AMPS, b=AMPS, c=AMPS)
def test_the_neutral_carries_no_more_than_the_largest_line(a: float, b: float, c: float) -> None:
    neutral = float(neutral_current(a, b, c))
    assert 0 <= neutral <= max(a, b, c) * (1 + 1e-12)
    assert neutral == pytest.approx(float(neutral_current(c, a, b)), abs=1e-9)


@given(hosts=st.integers(0, 1000))
def test_hosts_dealt_out_are_all_there_and_even(hosts: int) -> None:
    lines = [float(count) for count in dealt(float(hosts))]
    assert sum(lines) == hosts
    assert max(lines) - min(lines) <= 1


@given(supplies=COUNTS, feeds=st.integers(1, 4))
def test_supplies_dealt_out_are_all_there_and_even(supplies: int, feeds: int) -> None:
    on = [float(supplies_on_feed(float(supplies), feeds, each)) for each in range(feeds)]
    assert sum(on) == supplies
    assert max(on) - min(on) <= 1


@given(usable=st.floats(1, 100), each=st.floats(0.1, 100))
def test_hosts_fit_and_one_more_does_not(usable: float, each: float) -> None:
    hosts = float(hosts_on_feed(usable, each))
    assert hosts * each <= usable * (1 + 1e-6)
    assert (hosts + 1) * each > usable * (1 - 1e-6)


def test_impossible_numbers_are_refused() -> None:
    with pytest.raises(ValueError, match="fewer than no supplies"):
        load_of_each(100.0, -1.0)
    with pytest.raises(ValueError, match="fewer than no hosts"):
        dealt(-1.0)
    with pytest.raises(ValueError, match="no position 2"):
        supplies_on_feed(2.0, 2, 2)
    for loads, values in (((), ()), ((0.2, 0.1), (0.9, 0.9)), ((0.1,), (1.2,))):
        with pytest.raises(ValueError, match="curve"):
            Curve(loads, values)


def test_hosts_after_a_loss_are_never_more_than_before() -> None:
    case = random_case("f2", 500)
    before, after = (given_everything(case, f"hosts.{key}") for key in ("all", "left"))
    both = ~(np.isnan(before) | np.isnan(after))
    assert both.any()
    assert np.all(after[both] <= before[both])


def test_a_thousand_builds_are_sized_in_a_fraction_of_a_second() -> None:
    """About 10 ms here; ten times that is allowed for a busy machine."""
    case = random_case("f2", 1000)
    sheet(case)
    started = time.perf_counter()
    sheet(case)
    assert time.perf_counter() - started < 0.1

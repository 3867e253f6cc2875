"""What holds for the availability of every build and every fault tree."""

from __future__ import annotations

import itertools
import math
import time
from dataclasses import replace
from typing import Literal

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.facts.site import Site
from baywright.sizing.availability.blocks import (
    Block,
    Chain,
    Fed,
    One,
    Several,
    odds_down,
    singles,
    tree_of,
)
from baywright.sizing.availability.fault_tree import (
    Event,
    Gate,
    Tree,
    events_of,
    exact_odds,
    minimal_cut_sets,
    rare_event_odds,
)
from baywright.sizing.availability.functions import always_needed, machine, service
from baywright.sizing.availability.repair import any_down, mean_time_to_failure, more_than
from baywright.sizing.availability.sheet import sheet
from baywright.sizing.availability.spares import cover, lead_time_demand, stock_for
from baywright.sizing.case import Case, Surroundings
from baywright.sizing.equation import Floats
from tests.sizing.builds import alone, figures_in, random_case
from tests.sizing.cases import build_of

ODDS = st.floats(0, 1)
COUNTS = st.integers(1, 12)


@given(COUNTS, st.integers(0, 12), ODDS)
def test_a_part_more_to_spare_never_makes_it_worse(count: int, spare: int, down: float) -> None:
    """One part more, one of which more may fail, is at least as good; so is the same number of
    parts of which one more may fail."""
    before = more_than(spare, count, down)
    assert more_than(spare + 1, count + 1, down) <= before + 1e-12
    assert more_than(spare + 1, count, down) <= before + 1e-12


@given(COUNTS, st.integers(0, 12), ODDS, ODDS)
def test_worse_parts_never_make_it_better(count: int, spare: int, a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert more_than(spare, count, low) <= more_than(spare, count, high) + 1e-12


@given(COUNTS, ODDS)
def test_all_and_none(count: int, down: float) -> None:
    assert more_than(-1, count, down) == pytest.approx(1.0)
    assert more_than(count, count, down) == 0
    assert more_than(0, count, down) == pytest.approx(any_down(*[down] * count))


@given(st.integers(2, 8), st.integers(1, 7), st.floats(1e-7, 1e-3), st.floats(1, 500))
def test_more_to_spare_lasts_longer_and_slower_repair_shorter(
    count: int, spare: int, rate: float, repair: float
) -> None:
    spare = min(spare, count - 1)
    found = mean_time_to_failure(spare, count, rate, repair)
    assert found >= mean_time_to_failure(spare - 1, count, rate, repair)
    assert found >= mean_time_to_failure(spare, count, rate, 2 * repair) * (1 - 1e-12)


@given(st.floats(0, 200), st.floats(0.01, 0.9999))
def test_a_stock_is_enough_and_one_less_is_not(demand: float, level: float) -> None:
    stock = stock_for(demand, level)
    assert cover(stock, demand) >= level * (1 - 1e-12)
    assert stock == 0 or cover(stock - 1, demand) < level


@given(st.integers(0, 5000), st.floats(0, 0.2), st.floats(0, 0.5), st.floats(0.5, 0.999))
def test_more_machines_never_need_fewer_spares(
    machines: int, yearly: float, lead: float, level: float
) -> None:
    few = stock_for(lead_time_demand(machines, yearly, lead), level)
    many = stock_for(lead_time_demand(machines + 10, yearly, lead), level)
    assert many >= few


# --- fault trees ---------------------------------------------------------------------------

EVENTS = [
    *(Event("a", 0.1), Event("b", 0.2), Event("c", 0.05)),
    *(Event("d", 0.5), Event("e", 0.01), Event("f", 0.3)),
]


@st.composite
def gates(draw: st.DrawFn, below: st.SearchStrategy[Tree]) -> Gate:
    inputs = draw(st.lists(below, min_size=1, max_size=4))
    return Gate("gate", draw(st.integers(1, len(inputs))), tuple(inputs))


TREES = st.recursive(st.sampled_from(EVENTS), gates, max_leaves=8)


def fails(tree: Tree, failed: frozenset[str]) -> bool:
    if isinstance(tree, Event):
        return tree.name in failed
    return sum(fails(each, failed) for each in tree.inputs) >= tree.fails_at


@given(TREES)
def test_odds_and_cut_sets_are_those_of_going_through_every_state(tree: Tree) -> None:
    odds = events_of(tree)
    exact, bringing = 0.0, []
    for states in itertools.product((False, True), repeat=len(odds)):
        failed = frozenset(name for name, down in zip(odds, states, strict=True) if down)
        if fails(tree, failed):
            bringing.append(failed)
            exact += math.prod(
                q if down else 1 - q for q, down in zip(odds.values(), states, strict=True)
            )
    least = frozenset(one for one in bringing if not any(other < one for other in bringing))
    assert minimal_cut_sets(tree) == least
    assert minimal_cut_sets(tree, 2) == {each for each in least if len(each) <= 2}
    assert exact_odds(tree) == pytest.approx(exact, rel=1e-9)
    assert rare_event_odds(least, odds) >= exact * (1 - 1e-9)


def test_a_tree_that_has_too_many_ways_is_refused() -> None:
    many = Gate("all", 12, tuple(Event(f"part {i}", 0.1) for i in range(40)))
    with pytest.raises(ValueError, match="ways to fail; ask for small cut sets only"):
        minimal_cut_sets(many)
    assert minimal_cut_sets(many, 2) == frozenset()


def test_one_name_with_two_odds_is_refused() -> None:
    with pytest.raises(ValueError, match="two different odds"):
        events_of(Gate("or", 1, (Event("a", 0.1), Event("a", 0.2))))
    with pytest.raises(ValueError, match="1 or more"):
        Gate("never", 0, ())


# --- blocks --------------------------------------------------------------------------------


def same(yearly: Floats) -> Floats:
    return yearly


@given(st.integers(0, 4), st.integers(0, 4), st.integers(0, 4), ODDS, ODDS, ODDS, st.integers(1, 3))
def test_supplies_on_feeds_as_a_tree_and_as_a_sum(
    first: int, second: int, spare: int, supply: float, feed: float, other: float, fans: int
) -> None:
    fed = Fed(
        "power",
        One("supply", supply),
        (np.array([float(first)]), np.array([float(second)])),
        (One("feed A", feed), One("feed B", other)),
        float(min(spare, max(first + second - 1, 0))),
    )
    air = Several("air", One("fan", supply), np.array([float(fans)]), 1.0)
    block: Block = Chain("machine", (fed, air))
    if first + second:
        expected = exact_odds(tree_of(block, same))
        assert odds_down(block, same) == pytest.approx([expected], abs=1e-12)


SITE = Site.model_validate(
    {
        "voltage": "230 V",
        "feeds": {"A": {"current": "32 A"}, "B": {"current": "32 A"}},
        "workload": {"failures": "1"},
        "upkeep": {"repair": "24 h", "feed_failure_rate": "5 %", "network_failure_rate": "10 %"},
    }
)


def anywhere(builds: int, seed: int) -> Case:
    return replace(random_case("f2", builds, seed), around=Surroundings.of(SITE))


def test_every_build_as_a_tree_and_as_a_sum() -> None:
    case = anywhere(25, 11)
    blocks = service(case, always_needed(case))
    every = np.broadcast_to(odds_down(blocks, same), case.size)
    # A build without supplies has no odds and no tree.
    for build in np.flatnonzero(np.isfinite(every)):
        tree = tree_of(blocks, same, int(build))
        assert exact_odds(tree) == pytest.approx(every[build], rel=1e-9)
        runs = machine(case, always_needed(case))
        found = minimal_cut_sets(tree_of(runs, same, int(build)), 1)
        assert len(found) == np.broadcast_to(singles(runs), case.size)[build]


def test_each_build_of_many_is_sized_as_it_is_alone() -> None:
    case = anywhere(12, 12)
    whole = figures_in(sheet(case))
    for build in range(case.size):
        for key, figure in figures_in(sheet(alone(case, build))).items():
            value = np.broadcast_to(whole[key].values, case.size)[build]
            assert figure.value == pytest.approx(float(value), nan_ok=True), key


@settings(max_examples=20, deadline=None)
@given(st.floats(0, 1500), st.floats(0, 1500))
def test_more_load_never_makes_a_build_more_available(one: float, other: float) -> None:
    case = anywhere(60, 13)
    low, high = sorted((one, other))
    less, more = (
        figures_in(sheet(case.amid(case.around.changed("extra", extra)))) for extra in (low, high)
    )
    for key in ("availability.down-time", "availability.year", "availability.single-points"):
        a, b = np.asarray(less[key].values), np.asarray(more[key].values)
        decided = np.isfinite(a) & np.isfinite(b)
        assert np.all(b[decided] >= a[decided] - 1e-12)


def test_higher_never_makes_a_build_more_available() -> None:
    case = anywhere(200, 14)
    low, high = (
        figures_in(sheet(case.amid(case.around.changed("altitude", metres))))
        for metres in (0.0, 3000.0)
    )
    a, b = (np.asarray(each["availability.down-time"].values) for each in (low, high))
    decided = np.isfinite(a) & np.isfinite(b)
    assert decided.sum() > 100
    assert np.all(b[decided] >= a[decided] - 1e-12)


def test_a_sweep_gives_one_number_a_step() -> None:
    case = replace(alone(anywhere(3, 15), 0), around=Surroundings.of(build_of("f2", "n2").site))
    steps = np.linspace(0.0, 3000.0, 50)
    whats: tuple[Literal["extra", "altitude"], ...] = ("extra", "altitude")
    for what in whats:
        swept = figures_in(sheet(case.amid(case.around.changed(what, steps))))
        values = np.asarray(swept["availability.down-time"].values)
        assert values.shape == steps.shape


def test_a_thousand_builds_take_a_blink() -> None:
    around = Surroundings.of(build_of("p1", "n1").site)
    case = replace(random_case("f2", 1000, seed=6), around=around)
    start = time.process_time()
    sheet(case)
    # Wanted: a tenth of a second; twice that on a busy machine.
    assert time.process_time() - start < 0.2

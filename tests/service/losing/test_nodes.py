"""Monotone nodes: read side by side as one by one, and never helped by a loss."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.service.losing.cuts import cuts_of, paired
from baywright.service.losing.nodes import (
    Enough,
    Ground,
    Node,
    Scenarios,
    Up,
    at_least,
    every,
    grounds_of,
    some,
)
from tests.service.losing.graphs import holds

THINGS = tuple("abcdefg")


@st.composite
def sums(draw: st.DrawFn, below: st.SearchStrategy[Node]) -> Enough:
    inputs = draw(st.lists(st.tuples(below, st.integers(0, 3).map(float)), max_size=4))
    need = draw(st.integers(0, 6))
    return Enough(float(need), tuple(inputs))


UPS: st.SearchStrategy[Node] = st.sampled_from(THINGS).map(Up)
NODES: st.SearchStrategy[Node] = st.recursive(UPS, sums, max_leaves=10)
SETS = st.frozensets(st.sampled_from(THINGS))


@given(NODES, st.lists(SETS, min_size=1, max_size=6))
def test_side_by_side_is_one_by_one(node: Node, lost: list[frozenset[str]]) -> None:
    found = Scenarios.of(THINGS, *lost).holds(node)
    assert found.tolist() == [holds(node, each) for each in lost]


@given(NODES, SETS, SETS)
def test_losing_more_restores_nothing(
    node: Node, lost: frozenset[str], more: frozenset[str]
) -> None:
    before, after = Scenarios.of(THINGS, lost, lost | more).holds(node)
    assert before or not after


@given(NODES)
def test_cut_sets_are_those_of_the_truth_table(node: Node) -> None:
    """Every one of the 128 states of seven things is looked at, and the minimal ones are kept."""
    states = [
        frozenset(each)
        for size in range(len(THINGS) + 1)
        for each in itertools.combinations(THINGS, size)
    ]
    fatal = [state for state in states if not holds(node, state)]
    minimal = {state for state in fatal if not any(other < state for other in fatal)}
    (found,) = cuts_of([node], THINGS)
    assert found.always == (frozenset() in minimal)
    assert {frozenset({thing}) for thing in found.singles} == {m for m in minimal if len(m) == 1}
    assert {frozenset(pair) for pair in found.pairs} == {m for m in minimal if len(m) == 2}


@given(st.sets(st.tuples(st.sampled_from(THINGS), st.sampled_from(THINGS))))
def test_pairs_said_together_are_all_of_them_once(drawn: set[tuple[str, str]]) -> None:
    pairs = {frozenset(pair) for pair in drawn if pair[0] != pair[1]}
    ordered = [(min(pair), max(pair)) for pair in pairs]
    said = [frozenset(pair) for each in paired(ordered) for pair in each.pairs]
    assert len(said) == len(set(said))
    assert set(said) == pairs


def test_the_theatre() -> None:
    """Mains AND (generator OR relay) fails for {mains, generator} and {mains, relay}: the fault
    tree "Theatre" of the public test sets of two fault-tree programs, read in a file of a public
    package; written here as what has to stand, mains or both generator and relay."""
    power = some(Up("mains"), every(Up("generator"), Up("relay")))
    (found,) = cuts_of([power], ("mains", "generator", "relay"))
    assert found.singles == ()
    assert set(found.pairs) == {("mains", "generator"), ("mains", "relay")}
    (said,) = paired(found.pairs)
    assert said.groups == (("mains",), ("generator", "relay"))


def test_nothing_needs_nothing_and_one_of_none_is_never_there() -> None:
    scenarios = Scenarios.of(THINGS, ())
    assert scenarios.holds(every()).all()
    assert not scenarios.holds(some()).any()
    assert cuts_of([some()], THINGS)[0].always


def test_a_weight_below_none_is_refused() -> None:
    with pytest.raises(ValueError, match="0 or more"):
        Enough(1.0, ((Up("a"), -1.0),))
    with pytest.raises(ValueError, match="0 or more"):
        Enough(1.0, ((Up("a"), float("nan")),))


def test_a_sum_on_its_bound_is_enough() -> None:
    """0.1 + 0.2 is a last digit above 0.3, and three times 0.1 as well."""
    node = Enough(0.3, ((Up("a"), 0.1), (Up("b"), 0.1), (Up("c"), 0.1)))
    assert Scenarios.of(THINGS, (), ("a",)).holds(node).tolist() == [True, False]


def test_grounds_lead_from_the_function_to_what_is_lost() -> None:
    outer, inner, other = (Ground(key, f"{key}.") for key in ("outer", "inner", "other"))
    node = every(at_least(1, [Up("a")], because=inner), some(Up("b"), because=other), because=outer)
    found = list(grounds_of(node, Scenarios.of(THINGS, ("a",))))
    assert [ground.key for ground in found] == ["outer", "inner"]


def test_a_thing_that_is_not_there_is_misuse() -> None:
    with pytest.raises(KeyError):
        Scenarios.of(THINGS, ("z",))


def test_a_hundred_and_fifty_things_take_a_blink() -> None:
    things = tuple(f"t{i}" for i in range(150))
    node = at_least(148, [Up(thing) for thing in things])
    (found,) = cuts_of([node], things)
    assert len(found.pairs) == 0
    (found,) = cuts_of([at_least(149, [Up(thing) for thing in things])], things)
    assert len(found.pairs) == 150 * 149 // 2
    assert np.all([each.groups for each in paired(found.pairs[:1])])

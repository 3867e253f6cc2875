"""Synthetic platforms of other shapes than the one the engine was measured on."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from baywright.engines.contract import Assumptions, Best, Objective, Possible
from baywright.engines.diagram import Diagram
from baywright.engines.search import Search
from baywright.space import Space, broken
from benchmarks.grounds import filled, states
from benchmarks.platforms import HARD, POWER, SHAPES, Shape, platform

SMALL = Shape(sockets=2, slots=4, cards=9, cages=2, bays=4, drives=6, modules=3, processors=4)

ENGINE, SEARCH = Diagram(), Search()


@cache
def made(name: str) -> Space:
    return platform({"small": SMALL, **SHAPES, **HARD}[name])


def agree(space: Space, given: Assumptions) -> None:
    """The options are those of the search engine, and the proof is a legal build."""
    assert ENGINE.options(space, given) == SEARCH.options(space, given)
    proof = ENGINE.prove(space, given)
    assert isinstance(proof, Possible)
    assert not broken(space, proof.values)


def test_a_shape_and_a_seed_give_one_platform() -> None:
    assert platform(SMALL, 2) == platform(SMALL, 2)
    assert platform(SMALL, 2) != platform(SMALL, 3)


def test_a_shape_grows_in_one_thing() -> None:
    assert SMALL.scaled("drives", 4) == Shape(2, 4, 9, 2, 4, 24, 3, 4)
    grown = platform(SMALL.scaled("cages", 2))
    assert sum(choice.name.startswith("cage ") for choice in grown.choices) == 4


def test_derived_choices_follow_from_the_others() -> None:
    """Else counts would be wrong: with them or without, there are as many builds."""
    space = platform(Shape(1, 2, 3, 1, 2, 2, 1, 2))
    free = Space(space.choices, space.tables)
    told_apart = ENGINE.count(free)
    every = tuple(replace(choice, derived=False) for choice in free.choices)
    assert ENGINE.count(Space(every, free.tables)) == told_apart > 0


@pytest.mark.parametrize("seed", range(4))
def test_options_of_small_platforms(seed: int) -> None:
    space = platform(SMALL, seed)
    for given in states(space, 6):
        agree(space, given)


def test_counts_of_a_small_platform() -> None:
    space = platform(Shape(1, 2, 3, 1, 2, 2, 1, 2), 1)
    one = dict.fromkeys(("memory speed", "fans", "supply", "supplies", "spare"), frozenset({1}))
    few = Assumptions({**one, "modules 1": frozenset({0})})
    assert ENGINE.count(space, few) == SEARCH.count(space, few) > 0


@pytest.mark.slow
@pytest.mark.timeout(900)
@pytest.mark.parametrize("name", HARD)
def test_limits_bind(name: str) -> None:
    """Limits that never bind would test nothing."""
    space, (_, kinds) = made(name), HARD[name].limits or (0, 0)
    keys = {f"cards of kind {kind}" for kind in range(1, kinds + 1)}
    free = space.without(keys)
    for limit in (total for total in space.sums if total.origin.key in keys):
        wanted = Objective(limit.weights).negated()
        most, without = ENGINE.best(space, wanted), ENGINE.best(free, wanted)
        assert isinstance(most, Best)
        assert isinstance(without, Best)
        wide = limit.origin.key == "cards of kind 8"  # takes two slots
        assert -most.value == limit.at_most < -without.value or wide


@pytest.mark.slow
@pytest.mark.timeout(900)
@pytest.mark.parametrize("name", SHAPES)
def test_options_in_a_session_are_those_of_search(name: str) -> None:
    for given in states(made(name), 24):
        agree(made(name), given)


@pytest.mark.slow
@pytest.mark.timeout(900)
@pytest.mark.parametrize("name", HARD)
def test_options_where_limits_bind_are_those_of_search(name: str) -> None:
    _, kinds = HARD[name].limits or (0, 0)
    for given in (*filled(made(name), kinds, 10), *states(made(name), 10)):
        agree(made(name), given)


@pytest.mark.slow
@pytest.mark.timeout(900)
@pytest.mark.parametrize("name", HARD)
def test_nothing_of_the_hard_platforms_is_left_out(name: str) -> None:
    described = Diagram().describe(made(name))
    assert described.budget == (POWER,)
    assert described.checked == ()

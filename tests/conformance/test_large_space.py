"""A large synthetic space whose number of remaining values is known from elsewhere.

The file lies beside the repository, not in it. Its note says that 1,161 of the 1,237 values of
the choices that are not derived remain possible, found by two engines independent of ours.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from baywright.engines.contract import Assumptions, Best, Impossible, Objective, Possible
from baywright.engines.registry import engines
from baywright.space import Choice, Space, Sum, Table, broken
from tests.conformance.spaces import origin

FILE = Path(__file__).parents[3] / "shared" / "data" / "spaces" / "two-socket.json"


@pytest.fixture(scope="module")
def space() -> Space:
    if not FILE.exists():
        pytest.skip(f"{FILE} is not there; it is kept outside the repository")
    data = json.loads(FILE.read_text(encoding="utf-8"))
    choices = tuple(
        Choice(name, tuple(values), name in data["derived"])
        for name, values in data["choices"].items()
    )
    tables = tuple(
        Table(tuple(t["over"]), frozenset(map(tuple, t["rows"])), origin(t["id"]))
        for t in data["tables"]
    )
    sums = tuple(
        Sum(tuple((n, tuple(w)) for n, w in s["weights"].items()), s["at_most"], origin(s["id"]))
        for s in data["sums"]
    )
    return Space(choices, tables, sums)


def test_the_values_that_remain_are_as_many_as_is_known(space: Space) -> None:
    own = [choice for choice in space.choices if not choice.derived]
    options = engines()["search"].options(space)
    assert sum(choice.size for choice in own) == 1237
    assert sum(len(options[choice.name]) for choice in own) == 1161


def test_engines_agree_on_what_each_choice_can_be(space: Space) -> None:
    """Sampled: one value in forty, the possible and the impossible ones alike."""
    search, cpsat = engines()["search"], engines()["cpsat"]
    every = [(choice.name, value) for choice in space.choices for value in range(choice.size)]
    for name, value in every[::40]:
        given = Assumptions({name: frozenset({value})})
        first, second = search.prove(space, given), cpsat.prove(space, given)
        assert {type(first), type(second)} in ({Possible}, {Impossible})
        for proof in (first, second):
            if isinstance(proof, Possible):
                assert not broken(space, proof.values)


def test_a_best_build_is_legal_and_nothing_lighter_exists(space: Space) -> None:
    heaviest = next(total for total in space.sums if len(total.weights) > 30)
    objective = Objective(heaviest.weights)
    optimum = engines()["cpsat"].best(space, objective)
    assert isinstance(optimum, Best)
    assert not broken(space, optimum.values)
    lighter = Sum(heaviest.weights, optimum.value - 1, origin("lighter"))
    assert isinstance(engines()["search"].prove(space.extended(sums=[lighter])), Impossible)

"""The bulk engine against the evaluator, build by build."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from baywright.desk.opening import open_book
from baywright.engines.bulk import Checker, Codes, Verdicts, laying, verdicts
from baywright.engines.contract import Assumptions, Possible
from baywright.engines.search import Search
from baywright.space import Choice, Space, Sum, broken
from tests.conformance.spaces import origin, spaces
from tests.engines.diagram.given import two_socket

Columns = dict[str, NDArray[Any]]


def every_combination(choices: Sequence[Choice]) -> Columns:
    """A column for each choice, over all combinations of their values."""
    rows = list(itertools.product(*(range(choice.size) for choice in choices)))
    table = np.array(rows, np.int64).reshape(len(rows), len(choices))
    return {choice.name: table[:, at] for at, choice in enumerate(choices)}


def builds(space: Space, codes: Codes) -> Iterator[dict[str, int]]:
    """Each build as the evaluator takes it."""
    names = [choice.name for choice in space.choices]
    return (dict(zip(names, row, strict=True)) for row in codes.T.tolist())


def judge(space: Space, codes: Codes, found: Verdicts) -> None:
    """Every broken law of every build as the evaluator says, and which comes first."""
    number = {id(law): at for at, law in enumerate(space.laws)}
    table = found.broken()
    for row, build in enumerate(builds(space, codes)):
        expected = [number[id(law)] for law in broken(space, build)]
        assert np.flatnonzero(table[row]).tolist() == expected
        assert found.first[row] == min(expected, default=-1)
        assert found.legal[row] == (not expected)


@given(spaces())
def test_verdicts_are_those_of_the_evaluator(space: Space) -> None:
    columns = every_combination(space.choices)
    checker = Checker(space)
    codes = checker.codes(columns)
    judge(space, codes, checker.verdicts(codes, every=True))


@pytest.mark.parametrize("limit", [0, 3])
@given(space=spaces(most=4))
def test_tables_looked_up_among_their_rows_say_the_same(limit: int, space: Space) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(laying, "MOST_CELLS", limit)
        patch.setattr(laying, "MOST_FUSED", limit)
        checker = Checker(space)
        codes = checker.codes(every_combination(space.choices))
        judge(space, codes, checker.verdicts(codes, every=True))


@given(spaces())
def test_a_build_without_derived_choices_is_legal_when_it_can_be_made_so(space: Space) -> None:
    judge_completed(space)


@given(spaces(most=4), st.lists(st.integers(0, 3), min_size=4, max_size=4))
def test_a_choice_that_sums_decide_together_is_found(space: Space, weights: list[int]) -> None:
    judge_completed(with_total(space, weights))


def with_total(space: Space, weights: list[int]) -> Space:
    """The space with a derived choice for a total, which two sums hold from both sides."""
    own = [choice for choice in space.choices if not choice.derived]
    rising = {
        choice.name: tuple(weight * value for value in range(choice.size))
        for choice, weight in zip(own, weights, strict=False)
    }
    most = sum(max(column) for column in rising.values())
    total = Choice("total", tuple(map(str, range(most + 1))), derived=True)
    column = tuple(range(most + 1))
    upper = (*rising.items(), (total.name, tuple(-value for value in column)))
    lower = tuple((name, tuple(-weight for weight in found)) for name, found in upper)
    sums = [Sum(side, 0, origin("total")) for side in (upper, lower)]
    return Space((*space.choices, total), space.tables, (*space.sums, *sums))


def judge_completed(space: Space) -> None:
    """A build without its derived choices is legal exactly when some values make it so."""
    own = [choice for choice in space.choices if not choice.derived]
    columns = every_combination(own)
    checker = Checker(space, list(columns))
    codes = checker.codes(columns)
    found = checker.verdicts(codes, every=True)
    judge(space, codes, found)
    every = Checker(space)
    complete = every.codes(every_combination(space.choices))
    legal = complete[:, every.verdicts(complete).legal]
    kept = [at for at, choice in enumerate(space.choices) if not choice.derived]
    expected = set(map(tuple, legal[kept].T.tolist()))
    assert [row in expected for row in zip(*codes[kept].tolist(), strict=True)] == [*found.legal]


def near_legal(space: Space, number: int, seed: int) -> Codes:
    """Builds of which some are legal, some changed in a few choices, some wholly random."""
    random = np.random.default_rng(seed)
    sizes = [choice.size for choice in space.choices]
    start = _proven(space, random)
    codes = Checker(space).empty(number)
    codes[:] = start[:, random.integers(start.shape[1], size=number)]
    for build in range(number):
        changes = random.choice([0, 1, 2, 5, len(sizes)], p=[0.3, 0.3, 0.2, 0.1, 0.1])
        for choice in random.choice(len(sizes), size=changes, replace=False):
            codes[choice, build] = random.integers(sizes[choice])
    return codes


def _proven(space: Space, random: np.random.Generator) -> Codes:
    engine, found = Search(), []
    for choice in random.permutation(len(space.choices))[:25]:
        name, size = space.choices[choice].name, space.choices[choice].size
        proof = engine.prove(space, Assumptions({name: frozenset({int(random.integers(size))})}))
        if isinstance(proof, Possible):
            found.append([proof.values[each.name] for each in space.choices])
    return np.array(found, np.uint8).T


def demo_space() -> Space:
    return open_book("f2").machine.space


@pytest.mark.parametrize(
    ("make", "number"),
    [
        (demo_space, 2_000),
        (two_socket, 2_000),
        pytest.param(demo_space, 100_000, marks=pytest.mark.slow),
        pytest.param(two_socket, 100_000, marks=pytest.mark.slow),
    ],
)
def test_large_spaces_are_judged_as_the_evaluator_does(make: Any, number: int) -> None:
    space = make()
    codes = near_legal(space, number, seed=7)
    found = Checker(space).verdicts(codes, every=True)
    assert 0.2 < found.legal.mean() < 0.8
    judge(space, codes, found)
    columns = {
        choice.name: codes[at] for at, choice in enumerate(space.choices) if not choice.derived
    }
    without = verdicts(space, columns)
    assert without.legal[found.legal].all()
    checker = Checker(space, list(columns))
    completed = checker.codes(columns)
    judge(space, completed, checker.verdicts(completed, every=True))

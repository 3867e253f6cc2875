"""Counts of builds against going through them one by one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.answers.counting import Counters, count_builds, count_values
from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.engines.brute import Brute
from baywright.engines.contract import DEFAULT_LIMIT, NOTHING, Assumptions, Limit
from baywright.engines.diagram import Diagram, Guards
from baywright.engines.search import Search
from baywright.space import Choice, Origin, Space, Table
from tests.conformance.spaces import spaces

COUNTERS = Counters(Diagram(), Search(), Limit(20))


@pytest.fixture(scope="module", autouse=True)
def compiled_loops() -> None:
    """Loops are compiled by their first use; that time is not the time of a count."""
    count_builds(Space((Choice("c", ("a", "b")),)), COUNTERS)


@st.composite
def loosely_derived(draw: st.DrawFn) -> Space:
    """A space in which any choice may be marked as derived, determined or not."""
    space = draw(spaces(4))
    choices = [replace(choice, derived=draw(st.booleans())) for choice in space.choices]
    return Space(tuple(choices), space.tables, space.sums)


def builds(space: Space) -> list[Mapping[str, int]]:
    names = tuple(choice.name for choice in space.choices)
    every = Brute().each(space, names, limit=Limit(20))
    return [dict(zip(names, row, strict=True)) for row in every]


def apart(space: Space, build: Mapping[str, int]) -> tuple[int, ...]:
    return tuple(build[choice.name] for choice in space.choices if not choice.derived)


@given(loosely_derived())
def test_builds_are_counted_by_what_tells_them_apart(space: Space) -> None:
    expected = len({apart(space, build) for build in builds(space)})
    found = count_builds(space, COUNTERS)
    assert found.number == expected
    assert found.proof.rechecked_by == "search"


@given(loosely_derived())
def test_values_are_counted_by_what_tells_builds_apart(space: Space) -> None:
    rows = {apart(space, build) for build in builds(space)}
    found = count_values(space, COUNTERS)
    own = [choice for choice in space.choices if not choice.derived]
    assert found.total == len(rows)
    assert found.by_choice == {
        choice.name: tuple(sum(row[i] == v for row in rows) for v in range(choice.size))
        for i, choice in enumerate(own)
    }


def _origin(key: str) -> Origin:
    return Origin(key, "law", f"The law of {key} holds.")


def _wide(number: int) -> Space:
    """Choices of four values of which neighbours differ: 4 x 3 ** (number - 1) builds."""
    choices = tuple(Choice(f"c{i}", ("a", "b", "c", "d")) for i in range(number))
    differ = frozenset((i, j) for i in range(4) for j in range(4) if i != j)
    pairs = pairwise(choices)
    tables = (Table((a.name, b.name), differ, _origin(f"{a.name} {b.name}")) for a, b in pairs)
    return Space(choices, tuple(tables))


def test_large_numbers_are_counted_again_by_parts() -> None:
    found = count_builds(_wide(60), COUNTERS)
    assert found.number == 4 * 3**59
    assert found.proof.rechecked_by.startswith("a second count for each value of c")


class _Wrong(Diagram):
    """Counts one too many."""

    def count(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> int:
        return super().count(space, assumptions, limit) + 1


@pytest.mark.parametrize("size", [3, 60])
def test_a_wrong_count_is_withheld(size: int) -> None:
    with pytest.raises(RecheckError, match="builds were counted"):
        count_builds(_wide(size), Counters(_Wrong(), Search(), Limit(20)))


def test_a_count_of_none_is_proven() -> None:
    none = Space((Choice("a", ("0",)),), (Table((), frozenset(), _origin("never")),))
    found = count_builds(none, COUNTERS)
    assert (found.number, found.proof.rechecked_by) == (0, "search")
    with pytest.raises(RecheckError):
        count_builds(none, Counters(_Wrong(), Search(), Limit(20)))


def test_a_space_that_is_too_hard_says_so() -> None:
    tight = Diagram(Guards(arcs=2, pairs=2, seconds=1))
    with pytest.raises(StoppedError, match="could not compile"):
        count_builds(_wide(9), Counters(tight, Search(), Limit(2)))

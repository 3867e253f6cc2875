"""Whether the other choices determine the derived ones, as counts may then take for granted.

Two builds that agree in the other choices, but not in all derived ones, end in the same state, as
all builds do. So pairs of different states that such assignments reach are followed upwards from
the leaves of derived choices. Where both sides of a pair come to the same state, whatever completes
one assignment completes the other too, and the choices are not determined.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations
from typing import TypeAlias

from baywright.engines.diagram.form import Form
from baywright.space import Space

_Pairs: TypeAlias = set[tuple[int, int]]
"""Pairs of different states, the lower one first."""

_Made: TypeAlias = dict[int, dict[int, int]]
"""For each state of one side, the states made with each state of the other side."""

_MOST = 1_000_000
"""Pairs of arcs that are looked at."""


class _Together(Exception):  # noqa: N818 - reads as what was found
    """Two assignments come to the same state, or there are too many to tell."""


def determined(space: Space) -> bool:
    """Say whether tables show that the other choices determine every derived one."""
    known = {choice.name for choice in space.choices if not choice.derived}
    before = -1
    while before != (before := len(known)):
        for table in space.tables:
            missing = [name for name in table.scope if name not in known]
            if len(missing) == 1:
                place = table.scope.index(missing[0])
                if len({(*r[:place], *r[place + 1 :]) for r in table.rows}) == len(table.rows):
                    known.add(missing[0])
    return len(known) == len(space.choices)


def determined_in(form: Form, derived: frozenset[int]) -> bool:
    """Say whether a form shows that the other choices determine some derived ones.

    No means also that it could not be shown: a budget, which could rule out one of two builds, is
    not looked at, and there may be too many pairs.

    Args:
        form: the form.
        derived: numbers of the choices that are to be determined.
    """
    try:
        _follow(form, derived)
    except _Together:
        return False
    return True


def _follow(form: Form, derived: frozenset[int]) -> None:
    """Follow pairs of states to the root.

    Raises:
        _Together: when both sides of one come to the same state, or there are too many.
    """
    pairs: dict[int, _Pairs] = {}
    for choice in range(len(form.values) - 1):
        span = form.state_of[form.values[choice] : form.values[choice + 1]].tolist()
        states = [state for state in span if state >= 0]
        found = set(_leaf_pairs(states)) if choice in derived else set()
        pairs.update(dict.fromkeys(states, found))
    work = _MOST
    for begin, end in zip(form.node_arcs[:-1].tolist(), form.node_arcs[1:].tolist(), strict=True):
        arcs = form.arcs[begin:end].tolist()
        one, other = pairs[arcs[0][0]], pairs[arcs[0][1]]
        found = set()
        for pair in _joined(arcs, one, other) if one or other else ():
            found.add(pair)
            work -= 1
            if not work:
                raise _Together
        pairs.update(dict.fromkeys((made for _, _, made in arcs), found))


def _leaf_pairs(states: list[int]) -> Iterator[tuple[int, int]]:
    return (_apart(a, b) for a, b in combinations(states, 2))


def _apart(one: int, other: int) -> tuple[int, int]:
    """Return two states as a pair.

    Raises:
        _Together: when they are the same.
    """
    if one == other:
        raise _Together
    return (one, other) if one < other else (other, one)


def _joined(arcs: list[list[int]], one: _Pairs, other: _Pairs) -> Iterator[tuple[int, int]]:
    """Yield the pairs that a join makes from pairs of its two sides, and of one side alone."""
    by_left: _Made = defaultdict(dict)
    by_right: _Made = defaultdict(dict)
    for left, right, made in arcs:
        by_left[left][right] = by_right[right][left] = made
    yield from _beside(by_left, one)
    yield from _beside(by_right, other)
    for left, left_too in one:
        first, second = by_left[left], by_left[left_too]
        for right, right_too in other:
            for a, b in ((right, right_too), (right_too, right)):
                if a in first and b in second:
                    yield _apart(first[a], second[b])


def _beside(made: _Made, pairs: _Pairs) -> Iterator[tuple[int, int]]:
    """Yield the pairs made from pairs of one side and the same state of the other side."""
    for one, other in pairs:
        first, second = made[one], made[other]
        for state in first.keys() & second.keys():
            yield _apart(first[state], second[state])

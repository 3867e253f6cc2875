"""Counting when derived choices are not determined, as when the laws that do so are left out.

Builds are told apart by the other choices alone. So a derived choice brings all its values at once,
and what a choice of the others leaves behind is not one state but a set of them, each with the
least weight that reaches it. Two of them are counted together when these sets are equal.
"""

from __future__ import annotations

from collections import Counter
from typing import TypeAlias

import numpy as np

from baywright.engines.diagram.form import Form
from baywright.engines.diagram.passes import downwards, upwards
from baywright.engines.loops import Flags, Longs
from baywright.engines.preparation import Deadline

_Reached: TypeAlias = frozenset[tuple[int, int]]
"""States, each with the least weight that reaches it."""

_Counts: TypeAlias = Counter[_Reached]
"""How many assignments of the choices that are not derived reach the same."""


def counted_apart(
    form: Form,
    derived: frozenset[int],
    weights: Longs,
    at_most: int,
    allowed: Flags,
    deadline: Deadline,
) -> int:
    """Return the number of builds told apart by the choices that are not derived.

    Args:
        form: the form.
        derived: numbers of the derived choices.
        weights: the weight of each value.
        at_most: the bound of the weights.
        allowed: which values may be used.
        deadline: when to stop.

    Raises:
        OutOfTime: at the deadline.
    """
    if not form.states:
        return 0
    up, down = np.empty(form.states, np.int64), np.empty(form.states, np.int64)
    upwards(form.arcs, len(weights), form.state_of, weights, allowed, up)
    downwards(form.arcs, up, down)
    room: list[int] = (at_most - down).tolist()
    counts: dict[int, _Counts] = {}
    for choice in range(len(form.values) - 1):
        found, states = _leaf(form, choice, weights, allowed, room, together=choice in derived)
        counts.update(dict.fromkeys(states, found))
    for begin, end in zip(form.node_arcs[:-1].tolist(), form.node_arcs[1:].tolist(), strict=True):
        made = {(a, b): p for a, b, p in form.arcs[begin:end].tolist()}
        left, right = form.arcs[begin, :2].tolist()
        found = _joined(counts[left], counts[right], made, room, deadline)
        counts.update(dict.fromkeys(set(made.values()), found))
    return sum(counts[form.root].values())


def _leaf(
    form: Form, choice: int, weights: Longs, allowed: Flags, room: list[int], *, together: bool
) -> tuple[_Counts, set[int]]:
    """Return what the values of a choice reach, one by one or all together; and all its states."""
    least: dict[int, int] = {}
    counts: _Counts = Counter()
    begin, end = form.values[choice], form.values[choice + 1]
    for value in range(begin, end):
        state, weight = int(form.state_of[value]), int(weights[value])
        if state >= 0 and allowed[value] and weight <= room[state]:
            least[state] = min(weight, least.get(state, weight))
            counts[frozenset([(state, weight)])] += 1
    if together:
        counts = Counter([frozenset(least.items())] if least else [])
    return counts, set(form.state_of[begin:end].tolist()) - {-1}


def _joined(
    left: _Counts,
    right: _Counts,
    made: dict[tuple[int, int], int],
    room: list[int],
    deadline: Deadline,
) -> _Counts:
    """Return what the pairs of two sides reach, by the arcs of their join."""
    counts: _Counts = Counter()
    for one, ones in left.items():
        for other, others in right.items():
            deadline.check()
            least: dict[int, int] = {}
            for a, first in one:
                for b, second in other:
                    state, weight = made.get((a, b), -1), first + second
                    if state >= 0 and weight <= room[state]:
                        least[state] = min(weight, least.get(state, weight))
            if least:
                counts[frozenset(least.items())] += ones * others
    return counts

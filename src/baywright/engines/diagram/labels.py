"""Labels: partial builds that no other one beats, for extremes under sums that limit them.

A label of a state is what a partial build below it totals by the objective and by each limit. One
that is at least as much in everything as another is dropped; so is one that cannot be completed
within the limits to something better than what is known. What is left at the root is the best.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from baywright.engines.diagram.form import Form
from baywright.engines.diagram.guards import TooHard
from baywright.engines.loops import Flags, Ids, Longs, compiled
from baywright.engines.preparation import Deadline

_FIRST = 1 << 14
"""Labels that there is room for at first."""

_PAIRS = 100_000_000
"""Pairs of labels of one state that are looked at, some seconds of work, before giving up."""

_MANY = 1 << 16
"""Labels of one state after which those that others beat are dropped before more are written."""


@dataclass(frozen=True, slots=True)
class Barrier:
    """A mixture of the objective and the limits that a build worth finding does not exceed.

    Args:
        factors: what the objective and each limit count, 0 or more.
        down: the least mixture beside and above each state.
        at_most: the bound of the mixture.
    """

    factors: tuple[int, ...]
    down: Longs
    at_most: int


@dataclass(frozen=True, slots=True)
class Found:
    """What labels found.

    Args:
        chosen: the values of the best build, or ``None`` when there is none.
        value: its objective.
        complete: whether nothing was left aside, so that there is no better one.
    """

    chosen: Flags | None
    value: int
    complete: bool


@dataclass(slots=True, eq=False)
class _Store:
    """Labels of all states, one after the other, with the way each came about."""

    totals: Longs
    ways: Ids
    begins: Longs
    most: int

    def grow(self) -> None:
        """Double the room, up to the most that is allowed."""
        if len(self.totals) >= self.most:
            raise TooHard(f"more than {self.most:,} partial builds to keep")
        self.totals = np.concatenate([self.totals, np.empty_like(self.totals)])
        self.ways = np.concatenate([self.ways, np.empty_like(self.ways)])

    def chosen(self, form: Form, label: int) -> Flags:
        """Mark the values of the build that a label stands for."""
        chosen = np.zeros(len(form.state_of), np.uint8)
        pending = [label]
        while pending:
            via, left, right = self.ways[pending.pop()].tolist()
            if via < 0:
                chosen[-1 - via] = 1
            else:
                pending += [left, right]
        return chosen


def best_label(
    form: Form,
    sums: Longs,
    allowed: Flags,
    barriers: Sequence[Barrier],
    cap: int,
    most: int,
    deadline: Deadline,
) -> Found:
    """Find a build of least objective below all barriers.

    Args:
        form: the form.
        sums: the weight of each value by the objective and by each limit, one row each.
        allowed: which values may be used.
        barriers: what bounds the labels; together they imply every limit.
        cap: most labels kept for one state; when there are more, some are left aside.
        most: most labels kept in all.
        deadline: when to stop.

    Raises:
        TooHard: when there are more labels than ``most``.
        OutOfTime: at the deadline.
    """
    store, complete = _labelled(form, _plan(form, sums, allowed, barriers, cap), most, deadline)
    begin, end = store.begins[form.root], store.begins[form.root + 1]
    if begin == end:
        return Found(None, 0, complete)
    label = int(begin + np.argmin(store.totals[begin:end, 0]))
    return Found(store.chosen(form, label), int(store.totals[label, 0]), complete)


def every_label(
    form: Form,
    sums: Longs,
    allowed: Flags,
    barriers: Sequence[Barrier],
    most: int,
    deadline: Deadline,
) -> list[tuple[list[int], Flags]]:
    """Find the builds below all barriers that none beats; of builds with equal totals, one.

    Args:
        form: the form.
        sums: the weight of each value by two or more totals, one row each.
        allowed: which values may be used.
        barriers: what bounds the labels.
        most: most labels kept in all.
        deadline: when to stop.

    Returns:
        The totals and the values of each build. Among those with the same first total there may be
        some that others beat.

    Raises:
        TooHard: when there are more labels than ``most``.
        OutOfTime: at the deadline.
    """
    store, _ = _labelled(form, _plan(form, sums, allowed, barriers, 1 << 40), most, deadline)
    begin, end = store.begins[form.root], store.begins[form.root + 1]
    return [(store.totals[n].tolist(), store.chosen(form, n)) for n in range(begin, end)]


def _labelled(form: Form, plan: Plan, most: int, deadline: Deadline) -> tuple[_Store, bool]:
    """Label all states; say also whether nothing was left aside."""
    store = _Store(
        np.empty((_FIRST, len(plan.sums)), np.int64),
        np.empty((_FIRST, 3), np.int32),
        np.zeros(form.states + 1, np.int64),
        most,
    )
    complete, state = True, 0
    while state < form.states:
        deadline.check()
        state, left_aside = label_states(
            form.arcs, plan, Labels(store.totals, store.ways, store.begins), state
        )
        if state < 0:
            raise TooHard("too many partial builds to compare")
        complete &= not left_aside
        if state < form.states:
            store.grow()
    return store, complete


class Plan(NamedTuple):
    """What labelling needs to know beside the arcs.

    Args:
        arc_begins: for each state, where the arcs that make it begin.
        values: the values that may be used, by the state of their leaf.
        value_begins: for each state, where its values begin.
        sums: the weight of each value by the objective and by each limit, one row each.
        factors: those of each barrier, one row each.
        downs: the least mixture beside and above each state, one row for each barrier.
        bounds: the bound of each barrier.
        cap: most labels kept for one state.
    """

    arc_begins: Longs
    values: Longs
    value_begins: Longs
    sums: Longs
    factors: Longs
    downs: Longs
    bounds: Longs
    cap: int


def _plan(form: Form, sums: Longs, allowed: Flags, barriers: Sequence[Barrier], cap: int) -> Plan:
    values = np.flatnonzero(allowed.view(np.bool_) & (form.state_of >= 0)).astype(np.int64)
    values = values[np.argsort(form.state_of[values], kind="stable")]
    every = np.arange(form.states + 1)
    return Plan(
        np.searchsorted(form.arcs[:, 2], every).astype(np.int64),
        values,
        np.searchsorted(form.state_of[values], every).astype(np.int64),
        sums,
        np.array([barrier.factors for barrier in barriers], np.int64),
        np.stack([barrier.down for barrier in barriers]),
        np.array([barrier.at_most for barrier in barriers], np.int64),
        cap,
    )


class Labels(NamedTuple):
    """Labels of all states, one after the other.

    Args:
        totals: the total of each label by the objective and by each limit.
        ways: how each label came about: the arc and the labels of its two sides; for a leaf, -1
            less the value in place of the arc.
        begins: for each state, where its labels begin, and the end of the last.
    """

    totals: Longs
    ways: Ids
    begins: Longs


@compiled
def label_states(arcs: Ids, plan: Plan, labels: Labels, first: int) -> tuple[int, bool]:
    """Label states from the first one on, until there is no room.

    Args:
        arcs: the arcs of the form.
        plan: what else is needed.
        labels: written from the first state on.
        first: the first state to label.

    Returns:
        The first state not labelled, -1 when one has too many pairs of labels; and whether any
        label was left aside.
    """
    left_aside = False
    found = np.empty((256, labels.totals.shape[1]), np.int64)
    ways = np.empty((256, 3), np.int32)
    for state in range(first, len(labels.begins) - 1):
        found, ways, count = _leaf_labels(plan, state, found, ways)
        found, ways, count, more = _arc_labels(arcs, plan, labels, state, found, ways, count)
        if count < 0:
            return -1, left_aside
        count, again = _kept(found, ways, count, plan.cap)
        left_aside = left_aside or more or again
        begin = labels.begins[state]
        if begin + count > len(labels.totals):
            return state, left_aside
        for label in range(count):
            _move(found, ways, label, labels.totals, labels.ways, begin + label)
        labels.begins[state + 1] = begin + count
    return len(labels.begins) - 1, left_aside


@compiled
def _leaf_labels(plan: Plan, state: int, found: Longs, ways: Ids) -> tuple[Longs, Ids, int]:
    """Write a label for each value of a leaf that can be used in this state."""
    count = 0
    total = np.empty(found.shape[1], np.int64)
    for place in range(plan.value_begins[state], plan.value_begins[state + 1]):
        for column in range(len(total)):
            total[column] = plan.sums[column, plan.values[place]]
        if _within(total, state, plan):
            found, ways = _room(found, ways, count)
            _enter(found, ways, count, total, (-1 - plan.values[place], 0, 0))
            count += 1
    return found, ways, count


@compiled
def _arc_labels(
    arcs: Ids, plan: Plan, labels: Labels, state: int, found: Longs, ways: Ids, count: int
) -> tuple[Longs, Ids, int, bool]:
    """Write a label for each pair of labels that an arc joins; thin them out when too many.

    The number of labels is -1 when there are too many pairs to look at.
    """
    left_aside, pairs = False, 0
    totals, begins = labels.totals, labels.begins
    total = np.empty(found.shape[1], np.int64)
    for arc in range(plan.arc_begins[state], plan.arc_begins[state + 1]):
        left, right = arcs[arc, 0], arcs[arc, 1]
        pairs += (begins[left + 1] - begins[left]) * (begins[right + 1] - begins[right])
        if pairs > _PAIRS:
            return found, ways, -1, left_aside
        for one in range(begins[left], begins[left + 1]):
            for other in range(begins[right], begins[right + 1]):
                for column in range(len(total)):
                    total[column] = totals[one, column] + totals[other, column]
                if _within(total, state, plan):
                    if count >= _MANY:
                        count, more = _kept(found, ways, count, plan.cap)
                        left_aside = left_aside or more
                    found, ways = _room(found, ways, count)
                    _enter(found, ways, count, total, (arc, one, other))
                    count += 1
    return found, ways, count, left_aside


@compiled
def _within(total: Longs, state: int, plan: Plan) -> bool:
    """Say whether a label keeps below all barriers with the best there is beside and above it."""
    for barrier in range(len(plan.bounds)):
        mixture = plan.downs[barrier, state]
        for column in range(len(total)):
            mixture += plan.factors[barrier, column] * total[column]
        if mixture > plan.bounds[barrier]:
            return False
    return True


@compiled
def _room(found: Longs, ways: Ids, count: int) -> tuple[Longs, Ids]:
    """Return the same arrays, or larger copies when they are full."""
    if count < len(found):
        return found, ways
    wider = np.empty((2 * len(found), found.shape[1]), np.int64)
    more = np.empty((2 * len(ways), 3), np.int32)
    for label in range(count):
        _move(found, ways, label, wider, more, label)
    return wider, more


@compiled
def _enter(found: Longs, ways: Ids, place: int, total: Longs, way: tuple[int, int, int]) -> None:
    """Write a label to a place."""
    for column in range(len(total)):
        found[place, column] = total[column]
    ways[place, 0], ways[place, 1], ways[place, 2] = way


@compiled
def _move(found: Longs, ways: Ids, label: int, totals: Longs, others: Ids, place: int) -> None:
    """Copy a label to a place in other arrays."""
    for column in range(found.shape[1]):
        totals[place, column] = found[label, column]
    for column in range(3):
        others[place, column] = ways[label, column]


@compiled
def _kept(found: Longs, ways: Ids, count: int, cap: int) -> tuple[int, bool]:
    """Move the labels that none other beats to the front, by objective; at most ``cap`` of them.

    Returns:
        How many there are, and whether some were left aside; those kept are spread evenly.
    """
    order = np.argsort(found[:count, 0], kind="mergesort")
    kept = np.empty(count, np.int64)
    used = 0
    for place in range(count):
        label = order[place]
        beaten = False
        # With one limit only the last one kept can beat it, being the least so far.
        begin = used - 1 if found.shape[1] == 2 and used else 0
        for known in range(begin, used):
            beaten = True
            for column in range(1, found.shape[1]):
                if found[kept[known], column] > found[label, column]:
                    beaten = False
                    break
            if beaten:
                break
        if not beaten:
            kept[used] = label
            used += 1
    chosen = min(used, cap)
    totals = np.empty((chosen, found.shape[1]), np.int64)
    others = np.empty((chosen, 3), np.int32)
    for place in range(chosen):
        label = kept[place * (used - 1) // max(chosen - 1, 1)]
        _move(found, ways, label, totals, others, place)
    for place in range(chosen):
        _move(totals, others, place, found, ways, place)
    return chosen, used > cap

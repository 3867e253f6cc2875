"""Evaluating all builds of a form at points modulo a prime: the loops of a count under limits.

The points of a circle are taken in blocks. In one pass over the arcs each state gets, for all
points of the block, the sum over the assignments below it of what they stand for. The innermost
loops do the same for each point, so that the processor does several at a time.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from baywright.engines.diagram.residues import Circle
from baywright.engines.loops import Flags, Ids, Longs, compiled

BLOCK = 256
"""Points of a block: enough to fill the processor's lanes, few enough to stay near it in memory."""

_REDUCE = 120
"""Products of two residues that are added in 64 bits before they are reduced; 127 would fit."""


class Plan(NamedTuple):
    """What is evaluated.

    Args:
        states: number of states.
        fixed: rows of one side, the other side and the state made, those below first: arcs below
            which all powers are 0, so that they give the same at every point.
        arcs: the other arcs, likewise.
        leaves: a row for each value: its state, and the place of what it stands for.
        powers: the exponents that are needed, negative ones too; they have the first places.
        filtered: a row for each value that has a filter, which have the places after these: the
            place of its power, and for each limit that of the power that ends its filter, or -1.
        steps: for each limit the place of the power of minus its stride.
        strides: for each limit the exponent that one step of its totals makes.
    """

    states: int
    fixed: Ids
    arcs: Ids
    leaves: Longs
    powers: Longs
    filtered: Longs
    steps: Longs
    strides: Longs

    @property
    def work(self) -> int:
        """What has to be done for each point, in arcs."""
        return len(self.arcs) + len(self.leaves) + 2 * len(self.powers) + 8 * len(self.filtered)


class Room(NamedTuple):
    """What is known of one block of points.

    Args:
        prime: the prime.
        inverse: 1 divided by the prime.
        below: for each state, what the assignments below it stand for.
        rows: for each exponent the points to that power; then what values with a filter stand for.
        filters: for each limit, 1 divided by 1 less the points to the power of minus its stride.
        starts: for each exponent, the power of the first point of the next block.
        ratios: for each exponent, the power of the root.
        total: room for one row.
    """

    prime: int
    inverse: float
    below: Ids
    rows: Ids
    filters: Ids
    starts: Longs
    ratios: Longs
    total: Longs


@compiled
def moving_arcs(arcs: Ids, moving: Flags) -> Flags:
    """Say which arcs have something below them that moves; it then moves the state made.

    Args:
        arcs: arcs, those below first.
        moving: for each state, whether one of its own values moves; written for the states made.
    """
    found = np.zeros(len(arcs), np.uint8)
    for arc in range(len(arcs)):
        if moving[arcs[arc, 0]] or moving[arcs[arc, 1]]:
            moving[arcs[arc, 2]] = 1
    for arc in range(len(arcs)):
        found[arc] = moving[arcs[arc, 2]]
    return found


@compiled
def lowered(number: int, prime: int, inverse: float) -> int:
    """Return a number from 0 below 2**63 modulo a prime of 28 bits, without a division.

    The quotient in floating point is wrong by 1 at most, as it has 36 bits of the 53 kept.
    """
    rest = number - np.int64(np.float64(number) * inverse) * prime
    rest += prime if rest < 0 else 0
    return int(rest - prime if rest >= prime else rest)


@compiled
def raised(base: int, exponent: int, prime: int) -> int:
    """Return a power modulo a prime; the exponent may be negative."""
    exponent %= prime - 1
    result = 1
    while exponent:
        if exponent & 1:
            result = result * base % prime
        base = base * base % prime
        exponent >>= 1
    return result


@compiled
def summed(plan: Plan, circle: Circle, first: int, last: int) -> int:
    """Return what all builds stand for, added over some points, modulo the prime.

    Args:
        plan: what is evaluated.
        circle: the points.
        first: number of the first point.
        last: number after the last point.
    """
    room = _room(plan, circle, first)
    root = room.below[plan.states - 1]
    result = 0
    for begin in range(first, last, BLOCK):
        _evaluate(plan, room, begin == first)
        for point in range(min(BLOCK, last - begin)):
            result += root[point]
    return result % circle.prime


@compiled
def shared(plan: Plan, back: Ids, circle: Circle, first: int, last: int) -> Longs:
    """Return for each leaf what the builds that have it stand for, added over some points.

    A build has one value of each choice, so what all builds stand for is a sum of products in which
    each value stands once at most. What it is with one value alone is then this value times a
    derivative, and all of these come from one pass back over the arcs (reverse accumulation,
    Linnainmaa 1970, cited from memory).

    Args:
        plan: what is evaluated.
        back: the arcs turned back.
        circle: the points.
        first: number of the first point.
        last: number after the last point.
    """
    room = _room(plan, circle, first)
    beside = np.zeros((plan.states, BLOCK), np.int32)
    beside[plan.states - 1] = 1
    result = np.zeros(len(plan.leaves), np.int64)
    for begin in range(first, last, BLOCK):
        _evaluate(plan, room, begin == first)
        _multiply(back, beside, room.below, beside, room)
        for leaf in range(len(plan.leaves)):
            ways, row = beside[plan.leaves[leaf, 0]], room.rows[plan.leaves[leaf, 1]]
            for point in range(min(BLOCK, last - begin)):
                way = np.int64(ways[point]) * row[point]
                result[leaf] += lowered(way, room.prime, room.inverse)
    return result % circle.prime


def turned_back(arcs: Ids) -> Ids:
    """Return arcs from the state made, past one side, to the other side; those above come first.

    What is beside the other side is added up from these, as what is below a state is from arcs.
    """
    left, right, made = arcs.T
    both = np.concatenate([np.stack([made, right, left]), np.stack([made, left, right])], axis=1)
    return np.ascontiguousarray(both.T[np.argsort(-both[2], kind="stable")])


@compiled
def _room(plan: Plan, circle: Circle, first: int) -> Room:
    """Return room for blocks from some point on."""
    prime, count = circle.prime, len(plan.powers)
    starts, ratios = np.empty(count, np.int64), np.empty(count, np.int64)
    for place in range(count):
        ratios[place] = raised(circle.root, plan.powers[place], prime)
        start = raised(circle.shift, plan.powers[place], prime)
        starts[place] = start * raised(ratios[place], first, prime) % prime
    return Room(
        prime,
        1.0 / prime,
        np.zeros((plan.states, BLOCK), np.int32),
        np.empty((count + len(plan.filtered), BLOCK), np.int32),
        np.empty((len(plan.steps), BLOCK), np.int32),
        starts,
        ratios,
        np.empty(BLOCK, np.int64),
    )


@compiled
def _evaluate(plan: Plan, room: Room, begun: bool) -> None:  # noqa: FBT001 - a compiled loop
    """Write what is below each state for the next block of points, or for the first one."""
    _raise_points(room)
    _prepare_filters(plan, room)
    _filter(plan, room)
    _add_leaves(plan, room)
    if begun:
        _multiply(plan.fixed, room.below, room.below, room.below, room)
    _multiply(plan.arcs, room.below, room.below, room.below, room)


@compiled
def _raise_points(room: Room) -> None:
    """Write the powers of the points of the next block."""
    for place in range(len(room.starts)):
        row, step = room.rows[place], room.ratios[place]
        row[0] = room.starts[place]
        known = 1
        while known < BLOCK:
            for point in range(known):
                power = np.int64(row[point]) * step
                row[known + point] = lowered(power, room.prime, room.inverse)
            step = step * step % room.prime
            known *= 2
        room.starts[place] = room.starts[place] * step % room.prime


@compiled
def _prepare_filters(plan: Plan, room: Room) -> None:
    """Write what divides the sums of a geometric series.

    A number to the power of -1 is the number to the power of the prime less 2 (Fermat).
    """
    for limit in range(len(plan.steps)):
        row, base = room.filters[limit], room.total
        step = room.rows[plan.steps[limit]]
        for point in range(BLOCK):
            row[point] = 1
            base[point] = 1 + room.prime - step[point]
        exponent = room.prime - 2
        while exponent:
            if exponent & 1:
                for point in range(BLOCK):
                    row[point] = lowered(row[point] * base[point], room.prime, room.inverse)
            for point in range(BLOCK):
                base[point] = lowered(base[point] * base[point], room.prime, room.inverse)
            exponent >>= 1


@compiled
def _filter(plan: Plan, room: Room) -> None:
    """Write what values with a filter stand for: their power times the sum of the filter."""
    for place in range(len(plan.filtered)):
        row, power = room.rows[len(plan.powers) + place], room.rows[plan.filtered[place, 0]]
        for point in range(BLOCK):
            row[point] = power[point]
        for limit in range(len(plan.steps)):
            mark = plan.filtered[place, 1 + limit]
            if mark < 0:
                continue
            end, divided = room.rows[mark], room.filters[limit]
            for point in range(BLOCK):
                series = np.int64(1 + room.prime - end[point]) * divided[point]
                series = lowered(series, room.prime, room.inverse)
                row[point] = lowered(row[point] * series, room.prime, room.inverse)


@compiled
def _add_leaves(plan: Plan, room: Room) -> None:
    """Write what is below the states of leaves: what their values stand for, added up."""
    for leaf in range(len(plan.leaves)):
        room.below[plan.leaves[leaf, 0]] = 0
    for leaf in range(len(plan.leaves)):
        below, row = room.below[plan.leaves[leaf, 0]], room.rows[plan.leaves[leaf, 1]]
        for point in range(BLOCK):
            number = below[point] + row[point]
            below[point] = number - room.prime if number >= room.prime else number


@compiled
def _multiply(arcs: Ids, ones: Ids, others: Ids, results: Ids, room: Room) -> None:
    """Write for the states that arcs make the products of their two sides, added up.

    Args:
        arcs: rows of one side, the other side and the state made; those of a state stand together.
        ones: what the first sides stand for.
        others: what the second sides stand for.
        results: what the states made stand for, written.
        room: room for sums.
    """
    total = room.total
    arc = 0
    while arc < len(arcs):
        made, added = arcs[arc, 2], 0
        total[:] = 0
        while arc < len(arcs) and arcs[arc, 2] == made:
            one, other = ones[arcs[arc, 0]], others[arcs[arc, 1]]
            for point in range(BLOCK):
                total[point] += np.int64(one[point]) * np.int64(other[point])
            arc += 1
            added += 1
            if added == _REDUCE:
                added = 1
                for point in range(BLOCK):
                    total[point] = lowered(total[point], room.prime, room.inverse)
        result = results[made]
        for point in range(BLOCK):
            result[point] = lowered(total[point], room.prime, room.inverse)

"""The loops of a join: matching groups of states, and writing out the arcs."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from baywright.engines.hashing import mixed, number_of, slots_for
from baywright.engines.loops import Flags, Ids, Longs, compiled


class Side(NamedTuple):
    """One side of a join.

    A group is the states with equal classes of the rules that both sides share.

    Args:
        groups: for each group, its class of each shared rule.
        members: the states, group by group.
        starts: where each group begins in ``members``, and the end of the last.
        own: for each state, the number of its row in ``own_rows``.
        own_rows: the distinct rows of classes of the rules that the other side does not share.
    """

    groups: Ids
    members: Longs
    starts: Longs
    own: Ids
    own_rows: Ids

    def sizes(self) -> Longs:
        """Return the number of states in each group."""
        return np.diff(self.starts)


class Matrices(NamedTuple):
    """Transition matrices of the shared rules, one after the other.

    Args:
        flat: all of them.
        begins: where each matrix begins.
        widths: number of columns of each matrix.
        remain: for each of the rules, whether it stays open.
    """

    flat: Ids
    begins: Longs
    widths: Longs
    remain: Flags


@compiled
def matched(left: Ids, right: Ids, matrices: Matrices) -> tuple[Ids, Ids]:
    """Match groups: for each pair the classes of the shared rules that remain open.

    Args:
        left: for each group on the left, its class of each shared rule.
        right: the same on the right.
        matrices: transition matrices of the shared rules.

    Returns:
        For each pair the number of its row of classes, -1 when it is dead; and the distinct rows.
    """
    begins, widths, remain = matrices.begins, matrices.widths, matrices.remain
    count = len(widths)
    kept = 0
    for rule in range(count):
        kept += remain[rule]
    found = np.full((len(left), len(right)), -1, np.int32)
    rows = np.empty((16, kept), np.int32)
    slots = np.full(32, -1, np.int32)
    row = np.empty(kept, np.int32)
    used = 0
    for a in range(len(left)):
        for b in range(len(right)):
            width = 0
            alive = True
            key = 0
            for rule in range(count):
                new = matrices.flat[begins[rule] + left[a, rule] * widths[rule] + right[b, rule]]
                if new < 0:
                    alive = False
                    break
                if remain[rule]:
                    row[width] = new
                    key = mixed(key ^ new)
                    width += 1
            if alive:
                if used == len(rows):
                    rows, slots = _doubled(rows, slots, used)
                number = _row_number(row, key, rows, slots, used)
                if number == used:
                    used += 1
                found[a, b] = number
    return found, _first_rows(rows, used, used)


@compiled
def _row_number(row: Ids, key: int, rows: Ids, slots: Ids, used: int) -> int:
    """Return the number of a row in a hash table of rows; a new one is entered."""
    last = len(slots) - 1
    slot = key & last
    while slots[slot] >= 0:
        equal = True
        for column in range(len(row)):
            if rows[slots[slot], column] != row[column]:
                equal = False
                break
        if equal:
            return int(slots[slot])
        slot = (slot + 1) & last
    slots[slot] = used
    for column in range(len(row)):
        rows[used, column] = row[column]
    return used


@compiled
def _first_rows(rows: Ids, used: int, room: int) -> Ids:
    """Return the first rows of a matrix in another one with room for so many."""
    result = np.empty((room, rows.shape[1]), np.int32)
    for place in range(used):
        for column in range(rows.shape[1]):
            result[place, column] = rows[place, column]
    return result


@compiled
def _doubled(rows: Ids, slots: Ids, used: int) -> tuple[Ids, Ids]:
    """Return room for twice as many rows, with the known ones entered again."""
    larger = _first_rows(rows, used, 2 * len(rows))
    wider = np.full(2 * len(slots), -1, np.int32)
    last = len(wider) - 1
    for number in range(used):
        key = 0
        for column in range(rows.shape[1]):
            key = mixed(key ^ rows[number, column])
        slot = key & last
        while wider[slot] >= 0:
            slot = (slot + 1) & last
        wider[slot] = number
    return larger, wider


@compiled
def emitted(left: Side, right: Side, found: Ids, rows: int, count: int) -> tuple[Ids, Longs]:
    """Write out the arcs of a join.

    A new state is what its left side keeps for itself, what its right side keeps for itself, and
    the row of the shared rules: three numbers, packed without loss into one key.

    Args:
        left: the side on the left.
        right: the side on the right.
        found: for each pair of groups the number of its row of shared rules, -1 when dead.
        rows: number of rows of shared rules.
        count: number of arcs.

    Returns:
        The arcs, and the key of each new state.
    """
    arcs = np.empty((count, 3), np.int32)
    keys = np.empty(count, np.int64)
    slots = np.full(slots_for(count), -1, np.int32)
    owns = len(right.own_rows)
    used = 0
    place = 0
    for a in range(found.shape[0]):
        for b in range(found.shape[1]):
            if found[a, b] < 0:
                continue
            for i in range(left.starts[a], left.starts[a + 1]):
                for j in range(right.starts[b], right.starts[b + 1]):
                    x, y = left.members[i], right.members[j]
                    key = (np.int64(left.own[x]) * owns + right.own[y]) * rows + found[a, b]
                    number = number_of(key, slots, keys, used)
                    if number == used:
                        used += 1
                    arcs[place, 0], arcs[place, 1], arcs[place, 2] = x, y, number
                    place += 1
    return arcs, keys[:used].copy()

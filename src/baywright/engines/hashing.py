"""Numbering equal rows and equal keys alike. Equality is always tested, never left to a hash."""

from __future__ import annotations

import numpy as np

from baywright.engines.loops import Ids, Longs, compiled

_MIX = np.uint64(0x9E3779B97F4A7C15)
_SHIFT = np.uint64(29)


@compiled
def slots_for(count: int) -> int:
    """Return a power of two that is at least twice a count: the size of a hash table for it."""
    size = 16
    while size < 2 * count:
        size *= 2
    return size


@compiled
def mixed(key: int) -> int:
    """Return the bits of a number stirred, so that near keys fall in distant slots."""
    stirred = np.uint64(key) * _MIX
    stirred ^= stirred >> _SHIFT
    stirred *= _MIX
    return int(np.int64((stirred ^ (stirred >> _SHIFT)) >> np.uint64(2)))


@compiled
def distinct_rows(rows: Ids) -> tuple[Ids, Longs]:
    """Number the rows of a matrix from 0 in order of first appearance, equal rows alike.

    Returns:
        The number of each row, and for each number the place where it appears first.
    """
    count, width = rows.shape
    slots = np.full(slots_for(count), -1, np.int32)
    last = len(slots) - 1
    numbers = np.empty(count, np.int32)
    first = np.empty(count, np.int64)
    used = 0
    for place in range(count):
        key = 0
        for column in range(width):
            key = mixed(key ^ rows[place, column])
        slot = key & last
        while slots[slot] >= 0:
            known = first[slots[slot]]
            equal = True
            for column in range(width):
                if rows[known, column] != rows[place, column]:
                    equal = False
                    break
            if equal:
                break
            slot = (slot + 1) & last
        if slots[slot] < 0:
            slots[slot] = used
            first[used] = place
            used += 1
        numbers[place] = slots[slot]
    return numbers, first[:used].copy()


@compiled
def number_of(key: int, slots: Ids, keys: Longs, used: int) -> int:
    """Return the number of a key in a hash table of keys, which is entered when it is new.

    Args:
        key: the key.
        slots: the table, -1 where it is free; its size is a power of two above ``used``.
        keys: the key of each number given so far.
        used: how many numbers are given so far; equal to the result when the key is new.
    """
    last = len(slots) - 1
    slot = mixed(key) & last
    while slots[slot] >= 0:
        if keys[slots[slot]] == key:
            return int(slots[slot])
        slot = (slot + 1) & last
    slots[slot] = used
    keys[used] = key
    return used

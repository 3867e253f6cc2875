"""The loops that look builds up, compiled to machine code and alike for every space.

Builds are taken in blocks, small enough that their columns stay near the core. Indices are
unsigned, which spares the loops the test for an index counted from the end.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from baywright.engines.bulk.arrays import Codes, Dense, Hashed, Lookups, Sums
from baywright.engines.hashing import mixed
from baywright.engines.loops import Flags, Ids, Longs, compiled

BLOCK = 2048
"""Builds that are looked up together."""


@compiled
def locate(codes: Codes, dense: Dense, each: int, low: int, place: NDArray[np.uint32]) -> None:
    """Find the cell of a dense look-up for each build of a block.

    Args:
        codes: the builds.
        dense: the look-ups.
        each: which of them.
        low: first build of the block.
        place: receives the cells, counted from the first of the look-up.
    """
    place[:] = 0
    for member in range(dense.start[each], dense.start[each + 1]):
        column = codes[dense.choice[member], low : low + len(place)]
        stride = np.uint32(dense.stride[member])
        for at in range(len(place)):
            place[at] += stride * column[at]


@compiled
def find(codes: Codes, hashed: Hashed, each: int, build: int) -> int:
    """Return the number of the row that a build has in a hashed look-up, or -1 for none."""
    start, width = hashed.start[each], hashed.start[each + 1] - hashed.start[each]
    key = 0
    for member in range(start, start + width):
        key = mixed(key ^ codes[hashed.choice[member], build])
    first = hashed.slot[each]
    last = hashed.slot[each + 1] - first - 1
    slot = key & last
    while hashed.slots[first + slot] >= 0:
        row = hashed.slots[first + slot]
        base = hashed.base[each] + row * width
        same = True
        for member in range(width):
            code = codes[hashed.choice[start + member], build]
            same = same and hashed.rows[base + member] == code
        if same:
            return int(row)
        slot = (slot + 1) & last
    return -1


@compiled
def add_up(codes: Codes, sums: Sums, each: int, low: int, total: Longs) -> None:
    """Find the total of a sum for each build of a block; parameters as of ``locate``."""
    total[:] = 0
    for member in range(sums.start[each], sums.start[each + 1]):
        column = codes[sums.choice[member], low : low + len(total)]
        weights = sums.weights[sums.base[member] : sums.base[member + 1]]
        for at in range(len(total)):
            total[at] += weights[column[at]]


@compiled
def first_broken(codes: Codes, laws: Lookups, low: int, high: int, found: NDArray[Any]) -> None:
    """Lower ``found`` to the number of the first law that each build breaks.

    Args:
        codes: the builds.
        laws: the laws, fused or not.
        low: the first build to look up.
        high: the first build not to.
        found: for every build, a number above all laws where none is broken yet.
    """
    place, total = np.empty(BLOCK, np.uint32), np.empty(BLOCK, np.int64)
    for begin in range(low, high, BLOCK):
        width = min(BLOCK, high - begin)
        out = found[begin : begin + width]
        for each in range(len(laws.dense.start) - 1):
            locate(codes, laws.dense, each, begin, place[:width])
            cells = laws.dense.cells[laws.dense.base[each] : laws.dense.base[each + 1]]
            for at in range(width):
                out[at] = min(out[at], cells[place[at]])
        for each in range(len(laws.sums.law)):
            add_up(codes, laws.sums, each, begin, total[:width])
            bound, law = laws.sums.bound[each], laws.sums.law[each]
            for at in range(width):
                out[at] = min(out[at], law if total[at] > bound else out[at])
        for each in range(len(laws.hashed.law)):
            law = laws.hashed.law[each]
            for at in range(width):
                if law < out[at] and find(codes, laws.hashed, each, begin + at) < 0:
                    out[at] = law


@compiled
def every_broken(codes: Codes, laws: Lookups, low: int, high: int, found: Flags) -> None:
    """Set a flag of ``found`` for every law that each build breaks.

    Args:
        codes: the builds.
        laws: the laws, a look-up for each.
        low: the first build to look up.
        high: the first build not to, at most ``BLOCK`` further on.
        found: a row for each form of law in turn, dense ones first, then sums, then hashed ones;
            a column for each build, counted from ``low``.
    """
    width, row = high - low, 0
    place, total = np.empty(width, np.uint32), np.empty(width, np.int64)
    for each in range(len(laws.dense.start) - 1):
        locate(codes, laws.dense, each, low, place)
        cells = laws.dense.cells[laws.dense.base[each] : laws.dense.base[each + 1]]
        none = np.iinfo(cells.dtype).max
        for at in range(width):
            found[row, at] = cells[place[at]] != none
        row += 1
    for each in range(len(laws.sums.law)):
        add_up(codes, laws.sums, each, low, total)
        for at in range(width):
            found[row, at] = total[at] > laws.sums.bound[each]
        row += 1
    for each in range(len(laws.hashed.law)):
        for at in range(width):
            found[row, at] = find(codes, laws.hashed, each, low + at) < 0
        row += 1


@compiled
def spread(bits: Flags, column: Ids, found: Flags) -> None:
    """Set a flag for every bit that is set.

    Args:
        bits: for each build, bits, the lowest of a byte first.
        column: for each bit, the column of its flag.
        found: the flags, a row for each build.
    """
    for build in range(len(bits)):
        for byte in range(bits.shape[1]):
            left, bit = bits[build, byte], 8 * byte
            while left:
                if left & 1:
                    found[build, column[bit]] = 1
                left, bit = left >> 1, bit + 1

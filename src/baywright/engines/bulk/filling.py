"""The loops that give derived choices their values."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from baywright.engines.bulk.arrays import Codes, Dense, Hashed, Sums
from baywright.engines.bulk.loops import BLOCK, add_up, find, locate
from baywright.engines.loops import Flags, Ids, Longs, compiled


@compiled
def fill_by_cells(
    codes: Codes, dense: Dense, choice: int, size: int, low: int, unfit: Flags
) -> None:
    """Give a choice the value that a dense look-up finds.

    Args:
        codes: the builds, changed in place.
        dense: one look-up; a cell holds a value, or the number of values where none fits.
        choice: position of the choice.
        size: number of its values.
        low: the first build to fill.
        unfit: as long as there are builds to fill; receives 1 for each that no value fits.
    """
    place = np.empty(BLOCK, np.uint32)
    for begin in range(low, low + len(unfit), BLOCK):
        width = min(BLOCK, low + len(unfit) - begin)
        locate(codes, dense, 0, begin, place[:width])
        column, left = codes[choice, begin : begin + width], unfit[begin - low :]
        for at in range(width):
            value = dense.cells[place[at]]
            left[at] = value == size
            column[at] = 0 if value == size else value


@compiled
def fill_by_rows(
    codes: Codes, hashed: Hashed, values: Ids, choice: int, low: int, unfit: Flags
) -> None:
    """Give a choice the value of the row that a hashed look-up finds.

    Args:
        codes: the builds, changed in place.
        hashed: one look-up.
        values: the value that each of its rows decides.
        choice: position of the choice.
        low: the first build to fill.
        unfit: as long as there are builds to fill; receives 1 for each that no value fits.
    """
    for at in range(len(unfit)):
        row = find(codes, hashed, 0, low + at)
        unfit[at] = row < 0
        codes[choice, low + at] = values[row] if row >= 0 else 0


@compiled
def fill_by_sets(
    codes: Codes,
    dense: Dense,
    sums: Sums,
    own: Longs,
    choice: int,
    size: int,
    low: int,
    unfit: Flags,
) -> None:
    """Give a choice the lowest value that several look-ups and sums allow.

    Args:
        codes: the builds, changed in place.
        dense: look-ups whose cells are sets of values, a bit for each.
        sums: sums over the other choices.
        own: for each sum, what each value of the choice adds, one sum after the other.
        choice: position of the choice.
        size: number of its values, at most 64.
        low: the first build to fill.
        unfit: as long as there are builds to fill; receives 1 for each that no value fits.
    """
    place, total = np.empty(BLOCK, np.uint32), np.empty(BLOCK, np.int64)
    fitting = np.empty(BLOCK, np.uint64)
    for begin in range(low, low + len(unfit), BLOCK):
        width = min(BLOCK, low + len(unfit) - begin)
        fit = fitting[:width]
        fit[:] = np.uint64(0xFFFFFFFFFFFFFFFF)
        for each in range(len(dense.start) - 1):
            locate(codes, dense, each, begin, place[:width])
            cells = dense.cells[dense.base[each] : dense.base[each + 1]]
            for at in range(width):
                fit[at] &= cells[place[at]]
        for each in range(len(sums.bound)):
            add_up(codes, sums, each, begin, total[:width])
            _keep_within(total[:width], sums.bound[each], own[each * size :][:size], fit)
        _choose_lowest(fit, size, codes[choice, begin : begin + width], unfit[begin - low :])


@compiled
def _keep_within(total: Longs, bound: int, own: Longs, fit: NDArray[np.uint64]) -> None:
    for value in range(len(own)):
        room = bound - own[value]
        bit = np.uint64(value)
        for at in range(len(fit)):
            fit[at] &= ~(np.uint64(total[at] > room) << bit)


@compiled
def _choose_lowest(fit: NDArray[np.uint64], size: int, column: NDArray[Any], unfit: Flags) -> None:
    column[:] = size - 1
    for at in range(len(fit)):
        unfit[at] = 1
    for value in range(size - 1, -1, -1):
        bit = np.uint64(value)
        for at in range(len(fit)):
            if (fit[at] >> bit) & np.uint64(1):
                column[at] = value
                unfit[at] = 0

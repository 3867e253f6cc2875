"""Dense look-ups: what a table or a small sum says of every combination; several made one.

A cell holds the number of the first law that its combination breaks, so look-ups over nearby
choices can be made one without losing which law it was.
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from baywright.engines.bulk.arrays import Cells, Dense, Scope, joined, offsets
from baywright.engines.loops import Ids

MOST_FUSED = 4096
"""Cells of a look-up made of several; more would fall out of the fast memory of a core."""


@dataclass(frozen=True, slots=True, eq=False)
class Lookup:
    """A look-up with a cell for every combination of a few choices.

    Args:
        scope: positions of the choices, ascending.
        cells: an axis for each choice of the scope; what is found.
    """

    scope: Scope
    cells: Cells

    def over(self, scope: Scope) -> Cells:
        """Return the cells shaped to be spread over a larger scope."""
        sizes = dict(zip(self.scope, self.cells.shape, strict=True))
        return self.cells.reshape([sizes.get(position, 1) for position in scope])


def fused(lookups: Sequence[Lookup], sizes: Sequence[int]) -> list[Lookup]:
    """Return fewer look-ups that find the same, the lowest number of each.

    Args:
        lookups: what to fuse; every cell is a law number.
        sizes: number of values of each choice of the space.
    """
    left = dict(enumerate(lookups))
    pairs = [
        pair
        for one, other in itertools.combinations(left, 2)
        for pair in _pair(left, one, other, sizes)
    ]
    heapq.heapify(pairs)
    while pairs:
        _, one, other = heapq.heappop(pairs)
        if one in left and other in left:
            number = max(left) + 1
            left[number] = _both(left.pop(one), left.pop(other), sizes)
            for each in list(left):
                for pair in _pair(left, each, number, sizes):
                    heapq.heappush(pairs, pair)
    return list(left.values())


def _pair(
    left: dict[int, Lookup], one: int, other: int, sizes: Sequence[int]
) -> Iterator[tuple[int, int, int]]:
    """Yield a pair that shares choices and stays small, with the cells it adds to come first."""
    first, second = left[one], left[other]
    if one == other or set(first.scope).isdisjoint(second.scope):
        return
    cells = math.prod(sizes[position] for position in {*first.scope, *second.scope})
    if cells <= max(MOST_FUSED, first.cells.size, second.cells.size):
        yield cells - first.cells.size - second.cells.size, one, other


def _both(one: Lookup, other: Lookup, sizes: Sequence[int]) -> Lookup:
    scope = tuple(sorted({*one.scope, *other.scope}))
    cells = np.minimum(one.over(scope), other.over(scope))
    return Lookup(scope, np.broadcast_to(cells, [sizes[position] for position in scope]))


def packed(lookups: Iterable[Lookup], kind: type[np.unsignedinteger]) -> Dense:
    """Return look-ups as the flat arrays that the loops read."""
    every = list(lookups)
    return Dense(
        offsets(len(each.scope) for each in every),
        joined([np.array(each.scope, np.int32) for each in every], np.int32),
        joined([_strides(each.cells.shape) for each in every], np.int64),
        offsets(each.cells.size for each in every),
        joined([each.cells for each in every], kind),
    )


def _strides(shape: tuple[int, ...]) -> Ids:
    behind = [math.prod(shape[axis + 1 :]) for axis in range(len(shape))]
    return np.array(behind, np.int32)

"""The laws of a space laid out as look-ups."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from baywright.engines.bulk.arrays import Cells, Lookups, Scope, number_type
from baywright.engines.bulk.fusing import MOST_FUSED, Lookup, fused, packed
from baywright.engines.bulk.packing import exact, hashed, row_array, summed
from baywright.engines.loops import Ids
from baywright.space import Law, Space, Sum, Table

MOST_CELLS = 1_000_000
"""A table with more combinations than this is looked up among its rows."""


def with_single_scopes(space: Space) -> Space:
    """Return a space that says the same, with each choice once in the scope of a table."""
    if all(len(set(table.scope)) == len(table.scope) for table in space.tables):
        return space
    return replace(space, tables=tuple(map(_with_single_scope, space.tables)))


def _with_single_scope(table: Table) -> Table:
    scope = tuple(dict.fromkeys(table.scope))
    builds = (dict(zip(table.scope, row, strict=True)) for row in table.rows)
    every = (tuple(build[name] for name in scope) for build in builds)
    kept = (row for row in every if _spread(table, scope, row) in table.rows)
    return replace(table, scope=scope, rows=frozenset(kept))


def _spread(table: Table, scope: Sequence[str], row: Sequence[int]) -> tuple[int, ...]:
    """Return a row over single choices as a row of a table that may name one twice."""
    build = dict(zip(scope, row, strict=True))
    return tuple(build[name] for name in table.scope)


class Layout:
    """The laws of a space as look-ups, one for each law and fused.

    Args:
        space: the space, with each choice once in the scope of a table.
    """

    def __init__(self, space: Space) -> None:
        self.space = space
        self.sizes = tuple(choice.size for choice in space.choices)
        self.position = {choice.name: at for at, choice in enumerate(space.choices)}
        self.number_type = number_type(len(space.laws))
        self.dense, self.hashed, self.sums = self._sorted()

    @property
    def none(self) -> int:
        """What a cell holds where no law is broken."""
        return int(np.iinfo(self.number_type).max)

    def scope(self, law: Law) -> Scope:
        """Return the positions of the choices of a law."""
        return tuple(self.position[name] for name in law.scope)

    def combinations(self, scope: Sequence[int]) -> int:
        """Return how many combinations of values some choices have."""
        return math.prod(self.sizes[position] for position in scope)

    def fused(self) -> Lookups:
        """Return the laws with as few look-ups as find the first broken one."""
        small = {n: law for n, law in self.sums.items() if self._is_small(law)}
        every: dict[int, Law] = {**self.dense, **small}
        lookups = fused([self._lookup(n, law) for n, law in every.items()], self.sizes)
        sums = {n: law for n, law in self.sums.items() if n not in small}
        return self._lookups(lookups, sums, self.hashed)

    def single(self, numbers: Collection[int]) -> Lookups:
        """Return some laws, by number, with a look-up for each."""
        dense = [self._lookup(n, law) for n, law in self.dense.items() if n in numbers]
        sums = {n: law for n, law in self.sums.items() if n in numbers}
        rows = {n: law for n, law in self.hashed.items() if n in numbers}
        return self._lookups(dense, sums, rows)

    def order(self) -> Ids:
        """Return the numbers of all laws in the order in which single look-ups take them."""
        return np.array([*self.dense, *self.sums, *self.hashed], np.int32)

    def _sorted(self) -> tuple[dict[int, Table], dict[int, Table], dict[int, Sum]]:
        dense: dict[int, Table] = {}
        hashed: dict[int, Table] = {}
        sums: dict[int, Sum] = {}
        for number, law in enumerate(self.space.laws):
            if isinstance(law, Sum):
                sums[number] = law
            elif self.combinations(self.scope(law)) <= MOST_CELLS:
                dense[number] = law
            else:
                hashed[number] = law
        return dense, hashed, sums

    def _is_small(self, law: Sum) -> bool:
        return self.combinations(self.scope(law)) <= MOST_FUSED

    def _lookup(self, number: int, law: Law) -> Lookup:
        """Return a look-up that finds the number of the law wherever it is broken."""
        scope = self.scope(law)
        allowed = _allowed(law, [self.sizes[position] for position in scope])
        axes = sorted(range(len(scope)), key=scope.__getitem__)
        cells: Cells = np.where(allowed, self.none, number).astype(self.number_type)
        return Lookup(tuple(sorted(scope)), cells.transpose(axes))

    def _lookups(
        self, dense: Sequence[Lookup], sums: Mapping[int, Sum], listed: Mapping[int, Table]
    ) -> Lookups:
        rows = {n: (self.scope(law), row_array(law)) for n, law in listed.items()}
        totals = {n: (self.scope(law), *exact(law)) for n, law in sums.items()}
        return Lookups(packed(dense, self.number_type), hashed(rows), summed(totals))


def _allowed(law: Law, shape: Sequence[int]) -> NDArray[np.bool_]:
    """Return which combinations a law allows, an axis for each choice of its scope."""
    if isinstance(law, Table):
        allowed = np.zeros(shape, np.bool_)
        if law.rows:
            allowed[tuple(row_array(law).T)] = True
        return allowed
    weights, bound = exact(law)
    total = np.zeros(shape, np.int64)
    for axis, column in enumerate(weights):
        total += column.reshape([-1 if axis == other else 1 for other in range(len(shape))])
    return np.asarray(total <= bound)

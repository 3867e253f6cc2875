"""A derived choice made ready to be filled in: what its loop reads, and that loop."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from baywright.engines.bulk.arrays import Codes, Dense, Hashed, Scope, Sums, joined
from baywright.engines.bulk.deriving import MOST_CELLS, Derivation
from baywright.engines.bulk.filling import fill_by_cells, fill_by_rows, fill_by_sets
from baywright.engines.bulk.fusing import Lookup, packed
from baywright.engines.bulk.laying import Layout
from baywright.engines.bulk.packing import exact, hashed, row_array, summed
from baywright.engines.loops import Flags, Ids, Longs
from baywright.space import Law, Sum, Table


class Step(Protocol):
    """Gives one derived choice its values."""

    def fill(self, codes: Codes, low: int, unfit: Flags) -> None:
        """Fill in the choice.

        Args:
            codes: the builds, changed in place.
            low: the first build to fill.
            unfit: as long as there are builds to fill; receives 1 for each that no value fits.
        """


@dataclass(frozen=True, slots=True, eq=False)
class ByCells:
    """One table decides the choice; there is a cell for each combination of the others."""

    choice: int
    size: int
    dense: Dense

    def fill(self, codes: Codes, low: int, unfit: Flags) -> None:
        """Fill in the choice."""
        fill_by_cells(codes, self.dense, self.choice, self.size, low, unfit)


@dataclass(frozen=True, slots=True, eq=False)
class ByRows:
    """One table decides the choice; it is looked up among its rows."""

    choice: int
    hashed: Hashed
    values: Ids

    def fill(self, codes: Codes, low: int, unfit: Flags) -> None:
        """Fill in the choice."""
        fill_by_rows(codes, self.hashed, self.values, self.choice, low, unfit)


@dataclass(frozen=True, slots=True, eq=False)
class BySets:
    """Several tables and sums decide the choice together."""

    choice: int
    size: int
    dense: Dense
    sums: Sums
    own: Longs

    def fill(self, codes: Codes, low: int, unfit: Flags) -> None:
        """Fill in the choice."""
        fill_by_sets(codes, self.dense, self.sums, self.own, self.choice, self.size, low, unfit)


def step(layout: Layout, derivation: Derivation) -> Step:
    """Return how a derived choice is filled in."""
    choice, size = layout.position[derivation.choice.name], derivation.choice.size
    if derivation.table is None:
        return _by_sets(layout, derivation.by, choice, size)
    scope, rows, values = _apart(layout, derivation.table, choice)
    if layout.combinations(scope) > MOST_CELLS:
        return ByRows(choice, hashed({0: (scope, rows)}), values)
    cells = np.full([layout.sizes[position] for position in scope], size, np.uint32)
    cells[tuple(rows.T)] = values
    return ByCells(choice, size, packed([Lookup(scope, cells)], np.uint32))


def _apart(layout: Layout, table: Table, choice: int) -> tuple[Scope, Ids, Ids]:
    """Return the other choices of a table, their values in each row, and those of the choice."""
    scope, rows = layout.scope(table), row_array(table)
    at = scope.index(choice)
    return scope[:at] + scope[at + 1 :], np.delete(rows, at, axis=1), rows[:, at]


def _by_sets(layout: Layout, laws: Sequence[Law], choice: int, size: int) -> BySets:
    every = Lookup((), np.array((1 << size) - 1, np.uint64))
    tables = [law for law in laws if isinstance(law, Table)]
    sets = [every, *(_sets(layout, table, choice) for table in tables)]
    sums = [law for law in laws if isinstance(law, Sum)]
    weighed, own = {}, []
    for number, law in enumerate(sums):
        columns, bound = exact(law)
        scope = layout.scope(law)
        at = scope.index(choice)
        own.append(columns.pop(at))
        weighed[number] = (scope[:at] + scope[at + 1 :], columns, bound)
    return BySets(choice, size, packed(sets, np.uint64), summed(weighed), joined(own, np.int64))


def _sets(layout: Layout, table: Table, choice: int) -> Lookup:
    """Return a look-up that finds which values of a choice a table allows, a bit for each."""
    scope, rows, values = _apart(layout, table, choice)
    cells = np.zeros([layout.sizes[position] for position in scope], np.uint64)
    np.bitwise_or.at(cells, tuple(rows.T), np.uint64(1) << values.astype(np.uint64))
    return Lookup(scope, cells)

"""A space as a model of clauses and linear sums over one Boolean for each value."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from ortools.sat.python import cp_model

from baywright.engines.conflicts import Column, conflicts
from baywright.engines.contract import Assumptions, Objective
from baywright.engines.preparation import open_values, shifted
from baywright.space import Space, Sum, Table

LARGEST = 2**62
"""The solver adds weights in 64 bits and keeps some of them for itself."""


class LinearModel:
    """The model of one question: only values left open and laws in force enter it.

    Args:
        space: the space; it is read once and not kept.
        assumptions: the values left and the laws switched off.

    Raises:
        ValueError: when a sum is too large for the solver.
    """

    def __init__(self, space: Space, assumptions: Assumptions) -> None:
        self.model = cp_model.CpModel()
        self._atoms: list[cp_model.IntVar] = []
        tables = [t for t in space.tables if t.origin.key not in assumptions.without]
        sums = [s for s in space.sums if s.origin.key not in assumptions.without]
        left = _narrowed(open_values(space, assumptions), tables)
        self._narrowed = {c.name for c in space.choices if len(left[c.name]) < c.size}
        self.columns: dict[str, Column] = {n: self._choice(values) for n, values in left.items()}
        for table in tables:
            self._table(table)
        for total in sums:
            self._sum(total)

    def minimise(self, objective: Objective) -> None:
        """Ask for the least value of the objective."""
        literals, weights = self._terms(objective.weights)
        if sum(abs(weight) for weight in weights) > LARGEST:
            raise ValueError("the weights of the objective are too large for the cpsat engine")
        self.model.minimize(cp_model.LinearExpr.weighted_sum(literals, weights))

    def require_any(self, values: Iterable[tuple[str, int]]) -> None:
        """Ask for at least one of these values, and try for many of them."""
        wanted = [self._atoms[self.columns[name][value] - 1] for name, value in values]
        self.model.add_bool_or(wanted)
        self.model.clear_hints()  # type: ignore[no-untyped-call]
        for atom in wanted:
            self.model.add_hint(atom, 1)

    def exclude(self, names: Sequence[str], row: Sequence[int]) -> None:
        """Ask for builds in which these choices do not have just this row of values."""
        self._forbid([self.columns[n][value] for n, value in zip(names, row, strict=True)])

    def values_in(self, solver: cp_model.CpSolver) -> dict[str, int]:
        """Return the build that a solver has found."""
        solution = solver.response_proto.solution
        return {
            name: next(v for v, literal in column.items() if solution[literal - 1])
            for name, column in self.columns.items()
        }

    def _atom(self) -> int:
        self._atoms.append(self.model.new_bool_var(""))
        return len(self._atoms)

    def _bool(self, literal: int) -> cp_model.LiteralT:
        return self._atoms[literal - 1] if literal > 0 else ~self._atoms[-literal - 1]

    def _forbid(self, literals: Iterable[int]) -> None:
        self.model.add_bool_or([self._bool(-literal) for literal in literals])

    def _choice(self, values: Sequence[int]) -> Column:
        column = {value: self._atom() for value in values}
        self.model.add_exactly_one([self._atoms[literal - 1] for literal in column.values()])
        return column

    def _table(self, table: Table) -> None:
        columns = [self.columns[name] for name in table.scope]
        rows = table.rows
        if any(name in self._narrowed for name in table.scope):
            rows = frozenset(row for row in rows if _open(row, columns))
        for literals in conflicts(columns, rows, self._both):
            self._forbid(literals)

    def _both(self, literals: Sequence[int]) -> int:
        """Return a literal that holds only when all the given ones do."""
        atom = self._atom()
        for literal in literals:
            self._forbid([atom, -literal])
        return atom

    def _sum(self, total: Sum) -> None:
        plain = shifted(total)
        if plain.greatest <= plain.at_most:
            return
        literals, weights = self._terms(plain.weights)
        if sum(weights) > LARGEST:
            raise ValueError(f"{total.origin.key}: the sum is too large for the cpsat engine")
        self.model.add(cp_model.LinearExpr.weighted_sum(literals, weights) <= plain.at_most)

    def _terms(
        self, weights: Iterable[tuple[str, tuple[int, ...]]]
    ) -> tuple[list[cp_model.IntVar], list[int]]:
        """Return the Booleans that carry a weight, and their weights."""
        terms = [
            (self._atoms[literal - 1], of_value[value])
            for name, of_value in weights
            for value, literal in self.columns[name].items()
        ]
        return [atom for atom, _ in terms], [weight for _, weight in terms]


def _open(row: Sequence[int], columns: Sequence[Column]) -> bool:
    return all(value in column for value, column in zip(row, columns, strict=True))


def _narrowed(
    left: Mapping[str, tuple[int, ...]], tables: Iterable[Table]
) -> dict[str, tuple[int, ...]]:
    """Return the values left once the tables over a single choice are taken into account."""
    narrowed = dict(left)
    for table in tables:
        if len(table.scope) == 1:
            (name,) = table.scope
            narrowed[name] = tuple(v for v in narrowed[name] if (v,) in table.rows)
    return narrowed

"""A space as a model of clauses and linear sums over one Boolean for each value."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from copy import copy
from typing import TypeAlias

from ortools.sat.python import cp_model

from baywright.engines.addition import Addition
from baywright.engines.conflicts import form_of, outer_literals
from baywright.engines.contract import Assumptions, Objective
from baywright.engines.preparation import open_values, shifted
from baywright.space import Space, Sum, Table

Column: TypeAlias = Mapping[int, int]
"""For each value that a choice can have, the literal that says it has it."""

LARGEST = 2**62
"""The solver adds weights in 64 bits and keeps some of them for itself."""

_NEVER = 1
"""The literal that never holds; it stands for the values that are not left open."""


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
        never = self.model.new_constant(0)
        self._atoms: list[cp_model.IntVar] = [never]
        self._bools: dict[int, cp_model.LiteralT] = {_NEVER: never, -_NEVER: ~never}
        tables = [t for t in space.tables if t.origin.key not in assumptions.without]
        sums = [s for s in space.sums if s.origin.key not in assumptions.without]
        left = _narrowed(open_values(space, assumptions), tables)
        self._sizes = {choice.name: choice.size for choice in space.choices}
        self.columns: dict[str, Column] = {n: self._choice(values) for n, values in left.items()}
        self._require(tables, sums)

    def grown(self, added: Addition) -> LinearModel:
        """Return a copy with more choices, tables and sums.

        Raises:
            ValueError: when a sum is too large for the solver.
        """
        grown = copy(self)
        grown.detach()
        grown.add(added)
        return grown

    def detach(self) -> None:
        """Go on with a copy of the model, so that what is added to it is in no other."""
        self.model = self.model.clone()
        self._atoms = [self.model.get_bool_var_from_proto_index(a.index) for a in self._atoms]
        self._bools = dict(_literals(self._atoms))
        self._sizes, self.columns = dict(self._sizes), dict(self.columns)

    def add(self, added: Addition) -> None:
        """Add choices, tables and sums; raises ``ValueError`` like a new model."""
        for choice in added.choices:
            self._sizes[choice.name] = choice.size
            self.columns[choice.name] = self._choice(range(choice.size))
        self._require(added.tables, added.sums)

    def _require(self, tables: Iterable[Table], sums: Iterable[Sum]) -> None:
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

    def hold(self, objective: Objective, at_most: int) -> None:
        """Ask from now on for builds whose objective comes to no more than so much."""
        literals, weights = self._terms(objective.weights)
        if any(weights):
            self.model.add(cp_model.LinearExpr.weighted_sum(literals, weights) <= at_most)

    def start_from(self, values: Mapping[str, int]) -> None:
        """Have the search begin with a build that is known."""
        self.model.clear_hints()  # type: ignore[no-untyped-call]
        for name, column in self.columns.items():
            for value, literal in column.items():
                self.model.add_hint(self._atoms[literal - 1], int(values[name] == value))

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
        atom = self.model.new_bool_var("")
        self._atoms.append(atom)
        literal = len(self._atoms)
        self._bools[literal], self._bools[-literal] = atom, ~atom
        return literal

    def _forbid(self, literals: Iterable[int]) -> None:
        self.model.add_bool_or([self._bools[-literal] for literal in literals])

    def _choice(self, values: Sequence[int]) -> Column:
        column = {value: self._atom() for value in values}
        self.model.add_exactly_one([self._atoms[literal - 1] for literal in column.values()])
        return column

    def _table(self, table: Table) -> None:
        sizes = tuple(self._sizes[name] for name in table.scope)
        form = form_of(sizes, table.rows)
        columns = [self._literals(name) for name in table.scope]
        outer = outer_literals(columns)
        if form.auxiliary:
            rows = [self._both([outer[literal] for literal in row]) for row in form.auxiliary]
            outer = outer_literals([*columns, rows])
        for conflict in form.conflicts:
            literals = [outer[literal] for literal in conflict]
            if _NEVER not in literals:
                self._forbid(literal for literal in literals if literal != -_NEVER)

    def _literals(self, name: str) -> list[int]:
        """Return the literal of each value of a choice."""
        column = self.columns[name]
        return [column.get(value, _NEVER) for value in range(self._sizes[name])]

    def _both(self, literals: Sequence[int]) -> int:
        """Return a literal that holds only when all the given ones do."""
        if _NEVER in literals:
            return _NEVER
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


def _literals(atoms: Iterable[cp_model.IntVar]) -> Iterator[tuple[int, cp_model.LiteralT]]:
    for literal, atom in enumerate(atoms, 1):
        yield literal, atom
        yield -literal, ~atom


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

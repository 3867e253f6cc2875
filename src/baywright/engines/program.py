"""A space as a logic program.

Every value of a choice is an atom, and exactly one of them holds. A table or a sum binds only
while the switch of its origin key is on, so an assumption can take it away, and a refusal
can name it. Statements go straight to the solver; no text is grounded.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import clingo
from clingo.backend import Backend

from baywright.engines.addition import Addition
from baywright.engines.cancelling import Implied, implied_sums
from baywright.engines.conflicts import form_of, outer_literals
from baywright.engines.contract import Assumptions, Objective
from baywright.engines.preparation import Shifted, open_values, shifted, steps
from baywright.space import Choice, Space, Sum, Table

LARGEST = 2**31 - 1
"""The solver adds weights in 32 bits; a sum whose total can pass this is refused."""

_OPTIONS = ("--seed=1", "--parallel-mode=1", "--warn=none")


class Program:
    """The program of one space, ready to be solved under assumptions.

    Args:
        space: the space; it is read once and not kept.
        over: the choices whose values tell solutions apart, all when ``None``.
        objective: what the solver makes as small as possible, if anything.

    Raises:
        ValueError: when a sum or the objective is too large for the solver.
    """

    def __init__(
        self,
        space: Space,
        over: Sequence[str] | None = None,
        objective: Objective | None = None,
    ) -> None:
        self.control = clingo.Control(list(_OPTIONS))
        with self.control.backend() as backend:
            self._writer = writer = _Writer(backend)
            writer.space(space)
            names = writer.values if over is None else over
            backend.add_project([atom for name in names for atom in writer.values[name]])
            if objective is not None:
                writer.minimise(objective)
        self.values, self.switches = writer.values, writer.switches

    def grow(self, added: Addition, implied: Iterable[Implied] = ()) -> None:
        """Add choices, tables and sums; each binds only while the switch of its key is assumed.

        Args:
            added: what is added; its keys and names are new to the program.
            implied: sums that follow from sums of the program, those added included.

        Raises:
            ValueError: when a sum is too large for the solver.
        """
        with self.control.backend() as backend:
            self._writer.go_on(backend)
            self._writer.add(added, implied)

    def literals(self, space: Space, assumptions: Assumptions) -> list[int]:
        """Return the literals to assume: every switch, and what the choices are left with.

        What is asked stands last in a space and is assumed first, then sums, then tables. The
        solver stops at the first literal that cannot hold with those before it, and blames these;
        this order leaves the shortest blame.
        """
        on = space.origins.keys() - assumptions.without
        switches = reversed(self.switches.items())
        found = [atom if key in on else -atom for key, atom in switches]
        for name, left in open_values(space, assumptions).items():
            atoms = self.values[name]
            if len(left) == 1:
                found.append(atoms[left[0]])
            elif len(left) < len(atoms):
                found.extend(-atom for value, atom in enumerate(atoms) if value not in left)
        return found

    def keys(self, core: Iterable[int]) -> frozenset[str]:
        """Return the origin keys whose switches are in a core of assumed literals."""
        literals = frozenset(core)
        return frozenset(key for key, atom in self.switches.items() if atom in literals)

    def row(self, model: clingo.Model, names: Iterable[str]) -> tuple[int, ...]:
        """Return the values that some choices have in a model."""
        return tuple(
            next(value for value, atom in enumerate(self.values[name]) if model.is_true(atom))
            for name in names
        )


class _Writer:
    """Writes choices, tables and sums as statements of a program."""

    def __init__(self, backend: Backend) -> None:
        self._backend = backend
        self.values: dict[str, tuple[int, ...]] = {}
        self.switches: dict[str, int] = {}
        self._any_of: dict[tuple[str, frozenset[int]], int] = {}

    def go_on(self, backend: Backend) -> None:
        """Write what follows in another step of the program."""
        self._backend = backend

    def space(self, space: Space) -> None:
        self.add(Addition(space.choices, space.tables, space.sums), implied_sums(space.sums))

    def add(self, added: Addition, implied: Iterable[Implied]) -> None:
        for choice in added.choices:
            self._choice(choice)
        for table in added.tables:
            self._table(table)
        for total in added.sums:
            self._sum(total)
        for each in implied:
            self._bound(sorted(each.keys), shifted(each.within(LARGEST)))

    def minimise(self, objective: Objective) -> None:
        """Ask for the least objective, leaving out the least weight of each choice."""
        terms: list[tuple[int, int]] = []
        for name, weights in objective.weights:
            terms += self._steps(name, [w - min(weights) for w in weights] if weights else [])
        if any(weight > LARGEST for _, weight in terms):
            raise ValueError("the weights of the objective are too large for the search engine")
        self._backend.add_minimize(0, terms)

    def _choice(self, choice: Choice) -> None:
        atoms = tuple(self._backend.add_atom() for _ in choice.values)
        self.values[choice.name] = atoms
        self._backend.add_rule(atoms, [], choice=True)
        self._forbid([-atom for atom in atoms])
        if len(atoms) > 1:
            self._backend.add_weight_rule([], 2, [(atom, 1) for atom in atoms])

    def _forbid(self, literals: Sequence[int]) -> None:
        self._backend.add_rule([], literals)

    def _switch(self, key: str) -> int:
        if key not in self.switches:
            atom = self.switches[key] = self._backend.add_atom()
            self._backend.add_rule([atom], [], choice=True)
        return self.switches[key]

    def _table(self, table: Table) -> None:
        on = self._switch(table.origin.key)
        columns = [self.values[name] for name in table.scope]
        form = form_of(tuple(len(column) for column in columns), table.rows)
        outer = outer_literals(columns)
        if form.auxiliary:
            rows = [self._both([outer[literal] for literal in row]) for row in form.auxiliary]
            outer = outer_literals([*columns, rows])
        for literals in form.conflicts:
            self._forbid([on, *[outer[literal] for literal in literals]])

    def _both(self, literals: Sequence[int]) -> int:
        """Return an atom that holds exactly when all the literals do."""
        atom = self._backend.add_atom()
        self._backend.add_rule([atom], literals)
        return atom

    def _sum(self, total: Sum) -> None:
        plain = shifted(total)
        if plain.greatest > max(plain.at_most, LARGEST):
            raise ValueError(_too_large(total))
        self._bound([total.origin.key], plain)

    def _bound(self, keys: Iterable[str], plain: Shifted) -> None:
        """Keep a total within its bound while the switches of all the keys are on."""
        on = [self._switch(key) for key in keys]
        if plain.at_most < 0:
            self._forbid(on)
        elif plain.greatest > plain.at_most:
            over = self._backend.add_atom()
            terms = [term for name, weights in plain.weights for term in self._steps(name, weights)]
            self._backend.add_weight_rule([over], plain.at_most + 1, terms)
            self._forbid([*on, over])

    def _steps(self, name: str, weights: Sequence[int]) -> list[tuple[int, int]]:
        """Return terms whose total is the weight of the value that the choice has.

        Each step from one weight to the next stands for all values that weigh at least that
        much. So the total of a choice never passes its largest weight, and a choice that has
        lost its light values counts at once.
        """
        atoms = self.values[name]
        terms: list[tuple[int, int]] = []
        for step in steps(tuple(weights)):
            heavier = [atom for atom, _ in terms[-1:]]
            parts = [*heavier, *(atoms[value] for value in step.level)]
            terms.append((self._any(name, step.reached, parts), step.rise))
        return terms

    def _any(self, name: str, values: frozenset[int], parts: Sequence[int]) -> int:
        """Return the atom that holds when a choice has one of the values, written by its parts."""
        if len(values) == 1:
            return parts[0]
        if (name, values) not in self._any_of:
            atom = self._any_of[name, values] = self._backend.add_atom()
            for part in parts:
                self._backend.add_rule([atom], [part])
        return self._any_of[name, values]


def _too_large(total: Sum) -> str:
    return (
        f"{total.origin.key}: the sum can pass {LARGEST:,} {total.unit or 'units'}, which the "
        "search engine cannot add exactly; state it in a larger unit."
    )

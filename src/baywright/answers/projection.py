"""Projections: the combinations of some names that legal builds have."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.figures import amount
from baywright.laws.formula import SMALL_SCOPE
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.subsystem import Lookup, Lowest
from baywright.problems import problem
from baywright.space import Choice, Origin, Space, Table
from baywright.terms import Expression, text
from baywright.terms.syntax import Name


@dataclass(frozen=True, slots=True)
class View:
    """A space with a choice for each name that is asked for.

    Args:
        space: the space, with derived choices for values that are no choice of their own.
        names: the choices asked for, in order.
    """

    space: Space
    names: tuple[str, ...]

    def row(self, values: Sequence[int]) -> tuple[str, ...]:
        """Return the labels of a row of value indices."""
        return tuple(
            self.space.choice(name).values[value]
            for name, value in zip(self.names, values, strict=True)
        )


def view(machine: Machine, space: Space, terms: Sequence[Expression]) -> View:
    """Return a space in which each term is a choice.

    Args:
        machine: what is asked.
        space: its space, with any wishes.
        terms: ids of places or settings, or expressions with a value.

    Raises:
        Problems: for a term that makes no sense or depends on too many choices.
    """
    choices: list[Choice] = []
    tables: list[Table] = []
    names = []
    for asked in terms:
        term, expression = text(asked), machine.read(asked).expression
        if isinstance(expression, Name) and expression.name in machine.frame.fittings:
            names.append(expression.name)
            continue
        choice, table = _derived(machine, term, machine.translator.value(expression))
        choices.append(choice)
        tables.append(table)
        names.append(choice.name)
    return View(space.extended(choices, tables), tuple(names))


def _derived(machine: Machine, term: str, meaning: object) -> tuple[Choice, Table]:
    scope, dimension = _scope(term, meaning)
    sizes = machine.sizes
    total = 1
    for name in scope:
        total *= sizes[name]
    if total > SMALL_SCOPE:
        message = f"{term!r} depends on too many choices to be listed."
        raise problem("too-wide", message, hint="List the places it depends on instead.")
    values = {
        row: _value(machine, meaning, scope, row)
        for row in itertools.product(*(range(sizes[name]) for name in scope))
    }
    levels = sorted({value for value in values.values() if value is not None})
    labels = (*(amount(level, dimension) for level in levels), "none")
    position: Mapping[Fraction | None, int] = {
        **{level: index for index, level in enumerate(levels)},
        None: len(levels),
    }
    choice = Choice(f"view: {term}", labels, derived=True)
    origin = Origin(f"view.{term}", "law", f"{term} follows from the build.")
    rows = frozenset((*row, position[value]) for row, value in values.items())
    return choice, Table((*scope, choice.name), rows, origin)


def _scope(term: str, meaning: object) -> tuple[tuple[str, ...], str]:
    match meaning:
        case Linear():
            return tuple(meaning.weights), meaning.dimension
        case Lookup() | Lowest():
            return meaning.scope, meaning.dimension
        case _:
            message = f"{term!r} is not a place, a setting or a number."
            raise problem("not-listable", message, hint="Put a condition after given= instead.")


def _value(
    machine: Machine, meaning: object, scope: Sequence[str], row: Sequence[int]
) -> Fraction | None:
    if isinstance(meaning, Linear):
        return meaning.value(dict(zip(scope, row, strict=True)))
    if isinstance(meaning, Lookup | Lowest):
        pairs = zip(scope, row, strict=True)
        return meaning.number(*(machine.frame.options(name)[index] for name, index in pairs))
    return None

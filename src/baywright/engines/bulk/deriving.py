"""Derived choices that a table of builds leaves out: in which order and by which laws they follow.

A derived choice follows once no two values of it can stand beside the same other values. That is
seen from one table, or proven by an engine: the laws that mention the choice, written for two
copies of it that differ, cannot hold together. So where a legal build exists, it is found.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from baywright.engines.contract import Engine, Impossible
from baywright.problems import Problem, Problems
from baywright.space import Choice, Law, Origin, Space, Sum, Table

MOST_VALUES = 64
"""A choice that no single table decides may have so many values: the bits of a word."""

MOST_CELLS = 1_000_000
"""Combinations of other choices that a look-up for a derived choice may have."""

_SHOWN = 4
"""Values shown of a choice that is missing."""

_OTHER = Origin("two values", "law", "The two copies of the choice differ.")


@dataclass(frozen=True, slots=True)
class Derivation:
    """How a derived choice follows from choices known before it.

    Args:
        choice: the choice.
        table: the one table that decides it, or ``None`` when it takes several laws.
        by: the laws that decide it together when no single table does.
        known: all laws over it and choices known before it.
    """

    choice: Choice
    table: Table | None
    by: tuple[Law, ...]
    known: tuple[Law, ...]


def derivations(space: Space, given: Collection[str], engine: Engine) -> list[Derivation]:
    """Return how the choices that are not given follow, in the order to derive them.

    Args:
        space: the space.
        given: names of the choices whose values are given.
        engine: proves that several laws decide a choice together.

    Raises:
        Problems: for every choice that is neither given nor follows.
    """
    known = set(given)
    left = {choice.name: choice for choice in space.choices if choice.name not in known}
    _check_given(left.values())
    found: list[Derivation] = []
    while left:
        nearby = {name: _nearby(space, name, known) for name in left}
        derived = _derived(space, left, known, nearby, engine)
        if derived is None:
            raise Problems(_open(choice) for choice in left.values())
        found.append(derived)
        known.add(derived.choice.name)
        del left[derived.choice.name]
    return found


def _check_given(left: Iterable[Choice]) -> None:
    missing = [
        Problem("missing-column", f"There is no column for {choice.name!r}.", None, _values(choice))
        for choice in left
        if not choice.derived
    ]
    if missing:
        raise Problems(missing)


def _values(choice: Choice) -> str:
    more = " and so on" if choice.size > _SHOWN else ""
    return f"Give one; its values are {', '.join(choice.values[:_SHOWN])}{more}."


def _open(choice: Choice) -> Problem:
    message = (
        f"There is no column for {choice.name!r}, and nothing shows that the others decide it."
    )
    return Problem("not-derivable", message, None, f"Give a column {choice.name!r}.")


def _nearby(space: Space, name: str, known: Collection[str]) -> tuple[Law, ...]:
    """Return the laws over a choice and known ones only."""
    others = {*known, name}
    return tuple(law for law in space.laws if name in law.scope and others.issuperset(law.scope))


def _derived(
    space: Space,
    left: dict[str, Choice],
    known: Collection[str],
    nearby: dict[str, tuple[Law, ...]],
    engine: Engine,
) -> Derivation | None:
    """Return the next choice that follows: by one table, by its laws, or given those besides."""
    for choice in left.values():
        for law in nearby[choice.name]:
            if isinstance(law, Table) and _decides(law, choice.name):
                return Derivation(choice, law, (), nearby[choice.name])
    narrow = [choice for choice in left.values() if choice.size <= MOST_VALUES]
    beside = [law for law in space.laws if set(known).issuperset(law.scope)]
    for more, choice in itertools.product(((), beside), narrow):
        laws = tuple(law for law in nearby[choice.name] if _is_handy(space, law, choice.name))
        if _decide(space, laws, choice, more, engine):
            return Derivation(choice, None, laws, nearby[choice.name])
    return None


def _is_handy(space: Space, law: Law, name: str) -> bool:
    """Say whether a law is a sum, or a table with a cell for each combination of the others."""
    others = (space.choice(other).size for other in law.scope if other != name)
    return isinstance(law, Sum) or math.prod(others) <= MOST_CELLS


def _decides(table: Table, name: str) -> bool:
    """Say whether no two rows of a table differ in one choice alone."""
    at = table.scope.index(name)
    return len({row[:at] + row[at + 1 :] for row in table.rows}) == len(table.rows)


def _decide(
    space: Space, laws: Sequence[Law], choice: Choice, more: Sequence[Law], engine: Engine
) -> bool:
    """Say whether it is proven that some laws leave a choice one value at most."""
    if not laws:
        return choice.size <= 1
    twin = replace(choice, name=f"{choice.name}, the other")
    every = [*laws, *(_renamed(law, choice.name, twin.name) for law in laws), *more]
    names = {name for law in every for name in law.scope} | {choice.name, twin.name}
    pairs = frozenset(itertools.permutations(range(choice.size), 2))
    differ = Table((choice.name, twin.name), pairs, _OTHER)
    doubled = Space(
        (*(c for c in space.choices if c.name in names), twin),
        (*(law for law in every if isinstance(law, Table)), differ),
        tuple(law for law in every if isinstance(law, Sum)),
    )
    return isinstance(engine.prove(doubled), Impossible)


def _renamed(law: Law, old: str, new: str) -> Law:
    """Return a law that says of another choice what it says of one."""
    if isinstance(law, Table):
        return replace(law, scope=tuple(_swapped(law.scope, old, new)))
    names = _swapped(law.scope, old, new)
    columns = (column for _, column in law.weights)
    return replace(law, weights=tuple(zip(names, columns, strict=True)))


def _swapped(names: Iterable[str], old: str, new: str) -> Iterator[str]:
    return (new if name == old else name for name in names)

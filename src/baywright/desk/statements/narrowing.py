"""Wishes that only narrow single choices, taken apart from those that need a space of their own.

An engine takes in a space once and answers any number of questions about it under assumptions, so
that hundreds of cells of a table take seconds.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, with_wishes
from baywright.space import Law, Space, Table, broken
from baywright.space.evaluator import holds


@dataclass(frozen=True, slots=True)
class Narrowed:
    """A space, and what single choices of it are narrowed to.

    Args:
        space: the space.
        allowed: for some choices, the value indices left.
        added: laws that the space has beside those of the machine.
    """

    space: Space
    allowed: Mapping[str, frozenset[int]] = field(default_factory=dict)
    added: tuple[Law, ...] = ()

    def breaks(self, values: Mapping[str, int]) -> bool:
        """Say whether a build breaks anything; what it narrows and adds is looked at first."""
        if any(values[name] not in left for name, left in self.allowed.items()):
            return True
        return any(not holds(law, values) for law in self.added) or bool(self.broken(values))

    def broken(self, values: Mapping[str, int]) -> str:
        """Return what a build breaks, in a few words, or nothing."""
        keys = sorted({law.origin.key for law in broken(self.space, values)})
        keys += [name for name, left in self.allowed.items() if values[name] not in left]
        return ", ".join(keys)


@dataclass
class Narrower:
    """Makes spaces, each once."""

    _spaces: dict[tuple[int, tuple[tuple[Law, ...], ...]], tuple[Machine, Space]] = field(
        default_factory=dict
    )

    def narrowed(self, machine: Machine, wishes: Iterable[Wish]) -> Narrowed:
        """Return the space in which wishes hold, with as little in it as can be."""
        allowed: dict[str, frozenset[int]] = {}
        others: list[Wish] = []
        for wish in wishes:
            narrows = None if wish.choices else _all_narrow(wish.laws)
            if narrows is None:
                others.append(wish)
                continue
            for name, values in narrows:
                allowed[name] = allowed.get(name, values) & values
        added = tuple(law for wish in others for law in wish.laws)
        return Narrowed(self._space(machine, others), allowed, added)

    def _space(self, machine: Machine, wishes: list[Wish]) -> Space:
        if not wishes:
            return machine.space
        key = (id(machine), tuple(wish.laws for wish in wishes))
        if key not in self._spaces:
            # The machine is kept too, so that its id stays its own.
            self._spaces[key] = (machine, with_wishes(machine.space, wishes))
        return self._spaces[key][1]


def _all_narrow(laws: Iterable[Law]) -> list[tuple[str, frozenset[int]]] | None:
    """Return what laws narrow single choices to, or ``None`` when they do more than that."""
    found: list[tuple[str, frozenset[int]]] = []
    for law in laws:
        narrows = list(_narrows(law))
        if not narrows:
            return None
        found += narrows
    return found


def _narrows(law: Law) -> Iterator[tuple[str, frozenset[int]]]:
    """Yield what a table allows of each of its choices, if it allows every mix of that."""
    if not isinstance(law, Table) or not law.rows:
        return
    columns = [frozenset(column) for column in zip(*law.rows, strict=True)]
    if math.prod(map(len, columns)) == len(law.rows):
        yield from zip(law.scope, columns, strict=True)

"""Softening: wishes that may be given up, each at a price."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from baywright.laws.wishes import Wish
from baywright.space import Choice, Origin, Space, Sum, Table

CHANGED = 1
"""Value index of a switch that gives its wish up."""

_REFUSED = Origin("nearest.refused", "wish", "Not every wish can be kept.")
_BLOCKED = Origin("nearest.found", "wish", "Another set of changes than those found already.")


def switch_of(wish: Wish) -> str:
    """Return the name of the choice that says whether a wish is given up."""
    return f"{wish.key} given up"


@dataclass(frozen=True, slots=True)
class Softened:
    """A space in which some wishes may be given up.

    Args:
        space: the space with a switch for each soft wish.
        soft: the soft wishes.
    """

    space: Space
    soft: tuple[Wish, ...]

    def blocked(self, changed: Iterable[Wish]) -> Softened:
        """Return the space in which not all of those wishes are given up at once."""
        names = [switch_of(wish) for wish in changed]
        block = Sum(tuple((name, (0, 1)) for name in names), len(names) - 1, _BLOCKED)
        return Softened(self.space.extended(sums=[block]), self.soft)


def soften(space: Space, wishes: Sequence[Wish]) -> Softened:
    """Return the space with its wishes, the soft ones switchable.

    The wishes are taken to be impossible together, so at least one of them is given up: a
    solver need not prove that again.
    """
    sizes = {choice.name: choice.size for choice in space.choices}
    choices: list[Choice] = []
    tables: list[Table] = []
    sums: list[Sum] = []
    for wish in wishes:
        sizes |= {choice.name: choice.size for choice in wish.choices}
        choices.extend(wish.choices)
        switch = None if wish.hard else switch_of(wish)
        if switch:
            choices.append(Choice(switch, ("kept", "given up")))
        for law in wish.laws:
            if isinstance(law, Table):
                tables.append(_switched(law, switch, sizes) if switch else law)
            else:
                sums.append(_relaxed(law, switch) if switch else law)
    soft = tuple(wish for wish in wishes if not wish.hard)
    sums.append(Sum(tuple((switch_of(wish), (0, -1)) for wish in soft), -1, _REFUSED))
    return Softened(space.extended(choices, tables, sums), soft)


def _switched(table: Table, switch: str, sizes: dict[str, int]) -> Table:
    every = itertools.product(*(range(sizes[name]) for name in table.scope))
    rows = frozenset({(*row, 0) for row in table.rows} | {(*row, CHANGED) for row in every})
    return Table((*table.scope, switch), rows, table.origin)


def _relaxed(total: Sum, switch: str) -> Sum:
    over = max(0, sum(max(weights) for _, weights in total.weights) - total.at_most)
    return Sum((*total.weights, (switch, (0, -over))), total.at_most, total.origin, total.unit)

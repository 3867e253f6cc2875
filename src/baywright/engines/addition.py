"""What one space has beyond another: for engines that keep a space and add what is asked of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from baywright.space import Choice, Space, Sum, Table


@dataclass(frozen=True, slots=True)
class Addition:
    """Choices, tables and sums that are added to a space.

    Args:
        choices: further choices.
        tables: further tables.
        sums: further sums.
    """

    choices: tuple[Choice, ...] = ()
    tables: tuple[Table, ...] = ()
    sums: tuple[Sum, ...] = ()

    def only(
        self, key_is_new: Callable[[str], bool], name_is_new: Callable[[str], bool]
    ) -> Addition:
        """Return what has new keys, and choices that have new names."""
        return Addition(
            tuple(choice for choice in self.choices if name_is_new(choice.name)),
            tuple(table for table in self.tables if key_is_new(table.origin.key)),
            tuple(total for total in self.sums if key_is_new(total.origin.key)),
        )


def addition(base: Space, space: Space) -> Addition | None:
    """Return what a space has beyond its base, or ``None`` when it was not made by extending it."""
    choices, tables, sums = (len(each) for each in (base.choices, base.tables, base.sums))
    # Tuples of the very same objects are compared without looking into them.
    if (space.choices[:choices], space.tables[:tables], space.sums[:sums]) != (
        base.choices,
        base.tables,
        base.sums,
    ):
        return None
    return Addition(space.choices[choices:], space.tables[tables:], space.sums[sums:])

"""A table as conflicts: lists of literals that cannot all hold.

Literals are whole numbers as clause solvers use them: a positive one stands for an atom, its
negation for the opposite. Here they are local to the table: the values of its first choice are
1, 2 and so on, those of the next choice follow, and auxiliary atoms come last.
"""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import prod
from typing import TypeAlias

from baywright.engines.grouping import Grouping

Rows: TypeAlias = frozenset[tuple[int, ...]]
Conflict: TypeAlias = tuple[int, ...]

_MOST_COMBINATIONS = 5000
"""A table is not looked through in more combinations than this of all but its largest choice."""


@dataclass(frozen=True, slots=True)
class Form:
    """What leaves exactly the allowed rows of a table, given one value for each choice.

    Args:
        conflicts: literals that cannot all hold.
        auxiliary: for each auxiliary atom, the literals that all hold when it does.
    """

    conflicts: tuple[Conflict, ...]
    auxiliary: tuple[Conflict, ...] = ()


@lru_cache(maxsize=2048)
def form_of(sizes: tuple[int, ...], rows: Rows) -> Form:
    """Return a short form of a table. Forms are kept, as spaces share most of their tables.

    Args:
        sizes: number of values of each choice of the scope.
        rows: the allowed rows of value indices.

    The order of a set is not used, so equal tables have equal forms.
    """
    columns = _columns(sizes)
    forbidden = prod(sizes) - len(rows)
    if len(sizes) < 2:
        return Form(tuple(_forbidden(columns, rows)))
    if prod(sizes) > _MOST_COMBINATIONS * max(sizes):
        return _supported(columns, rows)
    grouped = Form(tuple(_grouped(columns, rows)))
    if len(sizes) == 2:
        return grouped
    return grouped if len(grouped.conflicts) < forbidden else Form(tuple(_forbidden(columns, rows)))


def outer_literals(columns: Iterable[Sequence[int]]) -> list[int]:
    """Return the literal that each local one stands for; a negative index finds a negation.

    Args:
        columns: the atoms of the values of each choice of the scope, then any auxiliary atoms.
    """
    atoms = [atom for column in columns for atom in column]
    return [0, *atoms, *(-atom for atom in reversed(atoms))]


def _columns(sizes: Iterable[int]) -> list[range]:
    """Return the literals of the values of each choice."""
    columns: list[range] = []
    for size in sizes:
        start = columns[-1].stop if columns else 1
        columns.append(range(start, start + size))
    return columns


def _forbidden(columns: Sequence[range], rows: Rows) -> Iterator[Conflict]:
    """Each row that is not allowed is a conflict."""
    for row in itertools.product(*(range(len(column)) for column in columns)):
        if row not in rows:
            yield _literals(columns, row)


def _grouped(columns: Sequence[range], rows: Rows) -> Iterator[Conflict]:
    """What holds for each two choices, then what holds beyond that for all of them.

    A value conflicts with the absence of all that go with it in another choice; the values of
    all choices but the largest conflict with the absence of all that complete them.
    """
    grouping = Grouping([len(column) for column in columns], rows)
    for place, value, other, partners in grouping.partners():
        yield (columns[place][value], *(-columns[other][partner] for partner in partners))
    last = grouping.largest
    others = [column for place, column in enumerate(columns) if place != last]
    for start, ends in grouping.completions() if len(columns) > 2 else ():
        yield (*_literals(others, start), *(-columns[last][end] for end in ends))


def _supported(columns: Sequence[range], rows: Rows) -> Form:
    """A value conflicts with the absence of every row it stands in; each row has an atom."""
    ordered = sorted(rows)
    first = columns[-1].stop
    rows_of: dict[int, list[int]] = defaultdict(list)
    auxiliary = tuple(_literals(columns, row) for row in ordered)
    for atom, literals in enumerate(auxiliary, first):
        for literal in literals:
            rows_of[literal].append(-atom)
    conflicts = ((value, *rows_of[value]) for column in columns for value in column)
    return Form(tuple(conflicts), auxiliary)


def _literals(columns: Sequence[range], row: Sequence[int]) -> Conflict:
    return tuple(column[value] for column, value in zip(columns, row, strict=True))

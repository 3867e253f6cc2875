"""A table as conflicts: lists of literals that cannot all hold.

Literals are whole numbers as clause solvers use them: a positive one stands for an atom, its
negation for the opposite.
"""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from math import prod
from typing import TypeAlias

Column: TypeAlias = Mapping[int, int]
"""For each value that a choice can have, the literal that says it has it."""

Rows: TypeAlias = frozenset[tuple[int, ...]]


def conflicts(
    columns: Sequence[Column], rows: Rows, both: Callable[[Sequence[int]], int]
) -> Iterator[list[int]]:
    """Yield the conflicts that leave exactly the allowed rows, choosing the shortest form.

    Args:
        columns: one for each choice of the scope.
        rows: the allowed rows; every value in them is in its column.
        both: makes a literal that holds only when all the given ones do, and can then hold.

    The order of a set is not used, so equal tables give equal conflicts.
    """
    forbidden = prod(len(column) for column in columns) - len(rows)
    if len(columns) == 2:
        yield from _partners(columns[0], columns[1], rows)
        yield from _partners(columns[1], columns[0], frozenset((b, a) for a, b in rows))
    elif len(columns) < 2 or forbidden <= len(rows):
        yield from _forbidden(columns, rows)
    else:
        yield from _supported(columns, rows, both)


def _forbidden(columns: Sequence[Column], rows: Rows) -> Iterator[list[int]]:
    """Each row that is not allowed is a conflict."""
    for row in itertools.product(*columns):
        if row not in rows:
            yield _literals(columns, row)


def _partners(near: Column, far: Column, rows: Rows) -> Iterator[list[int]]:
    """A value of one choice conflicts with the absence of all that go with it in the other."""
    partners: dict[int, list[int]] = defaultdict(list)
    for value, partner in rows:
        partners[value].append(-far[partner])
    for value, literal in near.items():
        if len(partners[value]) < len(far):
            yield [literal, *sorted(partners[value])]


def _supported(
    columns: Sequence[Column], rows: Rows, both: Callable[[Sequence[int]], int]
) -> Iterator[list[int]]:
    """A value conflicts with the absence of every row it stands in."""
    rows_of: dict[int, list[int]] = defaultdict(list)
    for row in sorted(rows):
        literals = _literals(columns, row)
        holds = both(literals)
        for literal in literals:
            rows_of[literal].append(-holds)
    for column in columns:
        for literal in column.values():
            yield [literal, *rows_of[literal]]


def _literals(columns: Sequence[Column], row: Sequence[int]) -> list[int]:
    return [column[value] for column, value in zip(columns, row, strict=True)]

"""What the loops read: the laws of a space as flat arrays, so that one compiled loop serves all."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from baywright.engines.loops import Ids, Longs

Codes: TypeAlias = NDArray[np.unsignedinteger[Any]]
"""Value indices: a row for each choice of the space in its order, a column for each build."""

Cells: TypeAlias = NDArray[np.unsignedinteger[Any]]
"""What look-ups find: law numbers, value indices, or sets of values as bits."""

Scope: TypeAlias = tuple[int, ...]
"""Positions of a few choices in the space."""


class Dense(NamedTuple):
    """Look-ups with a cell for every combination of the choices in their scope.

    Args:
        start: for each look-up, where its members begin; one more entry ends the last.
        choice: for each member, the position of its choice.
        stride: for each member, by how many cells one step of its value moves.
        base: for each look-up, its first cell; one more entry ends the last.
        cells: what is found.
    """

    start: Longs
    choice: Ids
    stride: Longs
    base: Longs
    cells: Cells


class Hashed(NamedTuple):
    """Look-ups among listed rows, for tables too large to have a cell for every combination.

    Args:
        start: for each look-up, where its members begin; one more entry ends the last.
        choice: for each member, the position of its choice.
        slot: for each look-up, its first slot; one more entry ends the last.
        slots: number of a row of the look-up, below 0 where a slot is free.
        base: for each look-up, where its rows begin in ``rows``.
        rows: the rows, one value after the other.
        law: for each look-up, the number of its law.
    """

    start: Longs
    choice: Ids
    slot: Longs
    slots: Ids
    base: Longs
    rows: Ids
    law: Ids


class Sums(NamedTuple):
    """Totals of weights, each with its bound.

    Args:
        start: for each sum, where its members begin; one more entry ends the last.
        choice: for each member, the position of its choice.
        base: for each member, where its weights begin.
        weights: a weight for each value of each member.
        bound: for each sum, what its total is at most.
        law: for each sum, the number of its law.
    """

    start: Longs
    choice: Ids
    base: Longs
    weights: Longs
    bound: Longs
    law: Ids


class Lookups(NamedTuple):
    """Every law of a space, in one of three forms."""

    dense: Dense
    hashed: Hashed
    sums: Sums


def offsets(lengths: Iterable[int]) -> Longs:
    """Return where consecutive pieces of these lengths begin, and where the last ends."""
    return np.cumsum([0, *lengths], dtype=np.int64)


def joined(pieces: Sequence[NDArray[Any]], kind: Any) -> NDArray[Any]:  # noqa: ANN401 - as NumPy has it
    """Return the pieces one after the other, flat, as numbers of one kind."""
    flat = [np.asarray(piece, kind).ravel() for piece in pieces]
    return np.concatenate(flat) if flat else np.zeros(0, kind)


def code_type(sizes: Iterable[int]) -> type[np.uint8 | np.uint16 | np.uint32]:
    """Return the smallest type that holds the value indices of choices of these sizes."""
    largest = max(sizes, default=1)
    if largest <= 1 << 8:
        return np.uint8
    return np.uint16 if largest <= 1 << 16 else np.uint32


def number_type(laws: int) -> type[np.uint16 | np.uint32]:
    """Return the smallest type that numbers so many laws and has a number left for none."""
    return np.uint16 if laws < (1 << 16) - 1 else np.uint32

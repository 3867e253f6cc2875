"""Other ways to split the drives of arrays, nearest first."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, wish_of
from baywright.terms.syntax import Call, Number

MOST_SPLITS = 400
"""More splits than this are not tried."""


def splits(sizes: Sequence[int]) -> list[tuple[int, ...]]:
    """Return every other split of the same drives into as many arrays, nearest first.

    Splits that move the fewest drives come first; larger arrays first within a split.

    >>> splits([3, 3])
    [(4, 2), (5, 1)]
    """
    total, count = sum(sizes), len(sizes)
    asked = tuple(sorted(sizes, reverse=True))
    every = (
        split
        for split in itertools.combinations_with_replacement(range(total, 0, -1), count)
        if sum(split) == total and split != asked
    )
    limited = itertools.islice(every, MOST_SPLITS)
    return sorted(limited, key=lambda split: _moved(asked, split))


def _moved(asked: Sequence[int], split: Sequence[int]) -> int:
    return sum(abs(a - b) for a, b in zip(asked, split, strict=True))


def other_splits(machine: Machine, wish: Wish) -> Iterator[Wish]:
    """Yield the wish with its drives split otherwise, nearest first."""
    call = wish.term
    if not isinstance(call, Call):
        return
    filters = call.args[len(wish.arrays) :]
    for split in splits(wish.arrays):
        sizes = tuple(Number(Fraction(size)) for size in split)
        yield wish_of(machine, replace(call, args=(*sizes, *filters)), wish.key)

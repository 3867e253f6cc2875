"""Parallel sums made one: two limits on the same load need not be kept apart.

Two sums are parallel when they weigh most of their choices alike, up to a factor. With L the
common load, x the choices on which they differ, and factors a and b, they say

    a L + d(x) <= s   and   b L + e(x) <= t

and, as L is a whole number, together L <= min((s - d(x)) // a, (t - e(x)) // b). So one sum over
the common choices and an auxiliary choice, which x determines through a table, says both.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from math import gcd

import numpy as np

from baywright.engines.diagram.drafts import Grid, Level, Open, every_row, product
from baywright.engines.loops import Ids

_COMMON = 3
"""Choices that two sums have to weigh alike to be worth making one."""

_ROWS = 20_000
"""Rows that the table of the auxiliary choice may have."""


@dataclass(frozen=True, slots=True)
class Union:
    """Two sums said as one.

    Args:
        total: the sum that says both.
        table: determines the auxiliary choice, or ``None`` when none is needed.
    """

    total: Level
    table: Grid | None


def united(one: Level, other: Level, left: Open) -> Union | None:
    """Return two parallel sums as one, or ``None`` when they are not parallel enough.

    An auxiliary choice that is needed is added to the open values, as the last one.
    """
    common = _alike(one, other)
    apart = sorted((one.weights.keys() | other.weights.keys()) - set(common))
    if len(common) < _COMMON or product(left, apart) > _ROWS:
        return None
    step, other_step = _divisor(one, common), _divisor(other, common)
    load = {c: tuple(w // step for w in one.weights[c]) for c in common}
    most = sum(max(weights) for weights in load.values())
    rows = every_row(left, apart) if apart else np.zeros((1, 0), np.int32)
    rooms = [
        min(first // step, second // other_step, most)
        for first, second in zip(_room(one, apart, rows), _room(other, apart, rows), strict=True)
    ]
    keys = one.keys + other.keys
    if min(rooms) == max(rooms):
        return Union(Level(load, rooms[0], keys), None)
    return _with_auxiliary(load, keys, Grid(tuple(apart), rows), rooms, left)


def _alike(one: Level, other: Level) -> list[int]:
    """Return the choices that both weigh alike, by the factor that most of them share."""
    factors: dict[int, Fraction] = {}
    for choice in one.weights.keys() & other.weights.keys():
        first, second = one.weights[choice], other.weights[choice]
        place = next(i for i, weight in enumerate(first) if weight)
        if second[place] and all(
            a * second[place] == b * first[place] for a, b in zip(first, second, strict=True)
        ):
            factors[choice] = Fraction(first[place], second[place])
    if not factors:
        return []
    ((factor, _),) = Counter(dict(sorted(Counter(factors.values()).items()))).most_common(1)
    return sorted(choice for choice, found in factors.items() if found == factor)


def _divisor(total: Level, choices: list[int]) -> int:
    return gcd(*(weight for choice in choices for weight in total.weights[choice]))


def _room(total: Level, apart: list[int], rows: Ids) -> list[int]:
    """Return what a sum leaves to the common load for each row of the other choices."""
    room = [total.at_most] * len(rows)
    for column, choice in enumerate(apart):
        if choice in total.weights:
            weights = total.weights[choice]
            values = rows[:, column].tolist()
            room = [r - weights[value] for r, value in zip(room, values, strict=True)]
    return room


def _with_auxiliary(
    load: dict[int, tuple[int, ...]],
    keys: tuple[str, ...],
    apart: Grid,
    rooms: list[int],
    left: Open,
) -> Union:
    """Add a choice that says how much room there is, the most first."""
    kept = [place for place, room in enumerate(rooms) if room >= 0]
    levels = sorted({rooms[place] for place in kept}, reverse=True)
    number = {room: value for value, room in enumerate(levels)}
    values = np.array([number[rooms[place]] for place in kept], np.int32)
    auxiliary = len(left)
    left.append(np.ones(len(levels), np.bool_))
    most = max(levels, default=0)
    weights = load | {auxiliary: tuple(most - room for room in levels)}
    rows = np.column_stack([apart.rows[kept], values]).astype(np.int32)
    return Union(Level(weights, most, keys), Grid((*apart.scope, auxiliary), rows))

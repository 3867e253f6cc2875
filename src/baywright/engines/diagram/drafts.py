"""Tables and sums on their way from a space to the model: numbered choices, values still open."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import gcd
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from baywright.engines.loops import Ids
from baywright.space import Sum, Table

Open: TypeAlias = list[NDArray[np.bool_]]
"""For each choice, which of its values are still open."""


@dataclass(frozen=True, slots=True)
class Grid:
    """A table over numbered choices.

    Args:
        scope: numbers of the choices, in rising order.
        rows: the allowed rows, distinct.
    """

    scope: tuple[int, ...]
    rows: Ids

    def narrowed(self, left: Open) -> Grid:
        """Return the table without the rows that use a closed value, and close unused values."""
        keep = np.ones(len(self.rows), np.bool_)
        for column, choice in enumerate(self.scope):
            keep &= left[choice][self.rows[:, column]]
        rows = self.rows[keep]
        for column, choice in enumerate(self.scope):
            used = np.zeros(len(left[choice]), np.bool_)
            used[rows[:, column]] = True
            left[choice] &= used
        return Grid(self.scope, rows)

    def is_full(self, left: Open) -> bool:
        """Say whether the table allows every combination of the open values."""
        return len(self.rows) == product(left, self.scope)


def grid(table: Table, numbers: Mapping[str, int]) -> Grid:
    """Return a table over numbered choices; one named twice takes the same value twice."""
    scope = tuple(sorted({numbers[name] for name in table.scope}))
    rows = np.array(sorted(table.rows), np.int32).reshape(len(table.rows), len(table.scope))
    named = [numbers[name] for name in table.scope]
    columns = [named.index(choice) for choice in scope]
    agree = np.ones(len(rows), np.bool_)
    for column, choice in enumerate(named):
        agree &= rows[:, column] == rows[:, named.index(choice)]
    return Grid(scope, np.ascontiguousarray(rows[agree][:, columns]))


@dataclass(frozen=True, slots=True)
class Level:
    """A sum of weights from 0 over numbered choices, none of them constant, without a divisor.

    Args:
        weights: for each choice, the weight of each value; 0 for a closed value.
        at_most: the bound; below 0 when the sum cannot hold.
        keys: origins of the sums that it says together.
    """

    weights: dict[int, tuple[int, ...]]
    at_most: int
    keys: tuple[str, ...]

    @property
    def greatest(self) -> int:
        """The largest total that any assignment has."""
        return sum(max(weights) for weights in self.weights.values())


def level(total: Level, left: Open) -> Level:
    """Return a sum with weights shifted to minimum 0 over the open values, and divided."""
    at_most, raised = total.at_most, {}
    for choice, weights in total.weights.items():
        open_values = np.flatnonzero(left[choice]).tolist()
        least = min((weights[value] for value in open_values), default=0)
        at_most -= least
        shifted = [0] * len(weights)
        for value in open_values:
            shifted[value] = weights[value] - least
        if any(shifted):
            raised[choice] = shifted
    step = gcd(*(weight for weights in raised.values() for weight in weights)) or 1
    divided = {choice: tuple(w // step for w in weights) for choice, weights in raised.items()}
    return Level(divided, at_most // step, total.keys)


def drafted(total: Sum, numbers: Mapping[str, int]) -> Level:
    """Return a sum over numbered choices as it stands."""
    ordered = sorted((numbers[name], weights) for name, weights in total.weights)
    return Level(dict(ordered), total.at_most, (total.origin.key,))


def close_heavy_values(total: Level, left: Open) -> None:
    """Close each value that breaks the sum whatever else is chosen."""
    for choice, weights in total.weights.items():
        left[choice] &= np.array([weight <= total.at_most for weight in weights])


def as_grid(total: Level, left: Open) -> Grid:
    """Return the rows of open values that keep a sum."""
    scope = tuple(sorted(total.weights))
    rows = every_row(left, scope)
    totals = [0] * len(rows)
    for column, choice in enumerate(scope):
        weights = total.weights[choice]
        totals = [t + weights[v] for t, v in zip(totals, rows[:, column].tolist(), strict=True)]
    return Grid(scope, rows[np.array([t <= total.at_most for t in totals], np.bool_)])


def every_row(left: Open, scope: Sequence[int]) -> Ids:
    """Return every combination of the open values of some choices, one a row."""
    axes = np.meshgrid(*(np.flatnonzero(left[choice]) for choice in scope), indexing="ij")
    return np.stack([axis.ravel() for axis in axes], axis=1).astype(np.int32)


def product(left: Open, scope: Sequence[int]) -> int:
    """Return how many combinations of open values some choices have."""
    count = 1
    for choice in scope:
        count *= int(left[choice].sum())
    return count

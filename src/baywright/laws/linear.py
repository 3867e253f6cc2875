"""Numbers that add up over choices, exact until they enter an engine."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias

from baywright.space import Assignment

_LARGEST = 2**30
"""Totals stay below this, so that engines with 32-bit sums can carry them."""


@dataclass(frozen=True, slots=True)
class Linear:
    """A constant, and a weight for each value of some choices, added up.

    Args:
        weights: by name of the choice, a weight for each of its values.
        constant: what is there whatever is chosen.
        dimension: dimension of the numbers in its canonical unit, or empty for plain numbers.
    """

    weights: Mapping[str, tuple[Fraction, ...]] = field(default_factory=dict)
    constant: Fraction = Fraction(0)
    dimension: str = ""

    def value(self, assignment: Assignment) -> Fraction:
        """Return the total over an assignment of its choices."""
        return self.constant + sum(
            (weights[assignment[name]] for name, weights in self.weights.items()), Fraction(0)
        )

    @property
    def lowest(self) -> Fraction:
        """No assignment has less."""
        return self.constant + sum((min(w) for w in self.weights.values()), Fraction(0))

    @property
    def highest(self) -> Fraction:
        """No assignment has more."""
        return self.constant + sum((max(w) for w in self.weights.values()), Fraction(0))

    @property
    def quantum(self) -> Fraction:
        """The largest number of which every weight is a whole multiple; 1 without weights."""
        return _quantum(_parts(self.weights.values()))

    def below(self, bound: Fraction) -> Fraction:
        """Return a bound that totals reach exactly when they are less than ``bound``."""
        steps = math.ceil((bound - self.constant) / self.quantum) - 1
        return self.constant + steps * self.quantum

    def scaled(self, factor: Fraction | int) -> Linear:
        """Return every number times a factor."""
        weights = {name: tuple(w * factor for w in ws) for name, ws in self.weights.items()}
        return Linear(weights, self.constant * factor, self.dimension)

    def plus(self, other: Linear) -> Linear:
        """Return the sum of two of the same dimension."""
        weights = dict(self.weights)
        for name, theirs in other.weights.items():
            mine = weights.get(name)
            weights[name] = (
                tuple(a + b for a, b in zip(mine, theirs, strict=True)) if mine else theirs
            )
        return Linear(weights, self.constant + other.constant, self.dimension)

    def minus(self, other: Linear) -> Linear:
        """Return the difference of two of the same dimension."""
        return self.plus(other.scaled(-1))


def added(terms: Iterable[Linear], dimension: str = "") -> Linear:
    """Return the sum of any number of terms."""
    total = Linear(dimension=dimension)
    for term in terms:
        total = total.plus(term)
    return total


def integral(linear: Linear, at_most: Fraction) -> tuple[dict[str, tuple[int, ...]], int]:
    """Turn ``linear <= at_most`` into whole numbers: weights by choice, and the bound.

    The numbers are exact when that keeps them below 2**30. Otherwise weights are rounded up
    and the bound down, which is the safe side.
    """
    linear, at_most = _on_grid(linear, at_most)
    bound = at_most - linear.constant
    span = sum((max(map(abs, ws)) for ws in linear.weights.values()), abs(bound))
    factor = 1 / linear.quantum
    if span * factor >= _LARGEST:
        factor = Fraction(_LARGEST) / (span + 1)
    weights = {
        name: tuple(math.ceil(w * factor) for w in ws)
        for name, ws in linear.weights.items()
        if any(ws)
    }
    return weights, math.floor(bound * factor)


def whole(linear: Linear) -> dict[str, tuple[int, ...]]:
    """Turn the numbers of a total into whole ones that rank assignments as the total does.

    Unlike the numbers of ``integral`` they stand for the total itself and not for whether it
    keeps a bound, so they can be made as small as possible. They are exact when that keeps them
    below 2**30, and rounded otherwise.
    """
    span = sum((max(map(abs, ws)) for ws in linear.weights.values()), Fraction(0))
    factor = min(1 / linear.quantum, Fraction(_LARGEST) / (span + 1))
    return {
        name: tuple(round(w * factor) for w in ws) for name, ws in linear.weights.items() if any(ws)
    }


def _on_grid(linear: Linear, at_most: Fraction) -> tuple[Linear, Fraction]:
    """Return an equal condition in coarser steps, where a single choice has the fine ones.

    What the other choices add up to is a multiple of their quantum, so the room that each
    value of the single choice leaves them can be rounded down to it without any loss.
    """
    finest, rests = linear.quantum, _quanta_of_rests(linear)
    for name, weights in linear.weights.items():
        quantum = rests[name]
        if len(linear.weights) > 1 and quantum > finest:
            rest = {other: ws for other, ws in linear.weights.items() if other != name}
            room = (at_most - linear.constant - weight for weight in weights)
            steps = tuple(-math.floor(each / quantum) * quantum for each in room)
            return Linear({**rest, name: steps}, Fraction(0), linear.dimension), Fraction(0)
    return linear, at_most


def _quanta_of_rests(linear: Linear) -> dict[str, Fraction]:
    """Return, for each choice, the quantum of the weights of all the others."""
    each = [(name, _parts((ws,))) for name, ws in linear.weights.items()]
    before = list(itertools.accumulate((parts for _, parts in each), _joined, initial=_NO_WEIGHTS))
    after = list(
        itertools.accumulate((parts for _, parts in reversed(each)), _joined, initial=_NO_WEIGHTS)
    )
    return {
        name: _quantum(_joined(before[at], after[len(each) - 1 - at]))
        for at, (name, _) in enumerate(each)
    }


_Parts: TypeAlias = tuple[int, int]
"""What divides all numerators of some weights, and what all their denominators divide."""

_NO_WEIGHTS: _Parts = (0, 1)


def _parts(columns: Iterable[tuple[Fraction, ...]]) -> _Parts:
    numbers = [weight for column in columns for weight in column]
    return (
        math.gcd(*(number.numerator for number in numbers)),
        math.lcm(*(number.denominator for number in numbers)),
    )


def _joined(one: _Parts, other: _Parts) -> _Parts:
    return math.gcd(one[0], other[0]), math.lcm(one[1], other[1])


def _quantum(parts: _Parts) -> Fraction:
    return Fraction(*parts) if parts[0] else Fraction(1)

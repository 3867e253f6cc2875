"""What engines share: reading assumptions against a space, and one answerer kept per space."""

from __future__ import annotations

import itertools
import time
import weakref
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache
from math import gcd
from typing import Generic, Protocol, TypeAlias, TypeVar

from baywright.engines.contract import Assumptions, Limit, Objective, OutOfTime
from baywright.space import Space

Built = TypeVar("Built")

Weights: TypeAlias = tuple[tuple[str, tuple[int, ...]], ...]
"""For each choice, by name, a weight for each of its values."""


class Bounded(Protocol):
    """Whatever has weights and a bound, as a sum has."""

    @property
    def weights(self) -> Weights:
        """The weights."""

    @property
    def at_most(self) -> int:
        """The bound."""


def open_values(space: Space, assumptions: Assumptions) -> dict[str, tuple[int, ...]]:
    """Return the value indices that the assumptions leave to each choice, in rising order.

    Raises:
        ValueError: when the assumptions name a choice that the space does not have.
    """
    for name in assumptions.allowed:
        if name not in space:
            raise ValueError(f"the assumptions name {name!r}, which is no choice of the space")
    return {
        choice.name: tuple(
            value
            for value in range(choice.size)
            if choice.name not in assumptions.allowed or value in assumptions.allowed[choice.name]
        )
        for choice in space.choices
    }


def check_objective(space: Space, objective: Objective) -> None:
    """Raise ``ValueError`` unless the objective weighs each value of choices that exist."""
    for name, weights in objective.weights:
        if name not in space or len(weights) != space.choice(name).size:
            raise ValueError(f"the objective needs a weight for each value of a choice {name!r}")


@dataclass(frozen=True, slots=True)
class Shifted:
    """A sum over the same choices whose weights are 0 or more, with no common divisor.

    Args:
        weights: for each choice, a weight for each value; at least one of them is 0.
        at_most: the bound; below 0 when the sum can never hold.
        greatest: the largest total that any assignment has.
    """

    weights: Weights
    at_most: int
    greatest: int


@dataclass(frozen=True, slots=True)
class Step:
    """What the values of a choice that weigh at least so much weigh more than the next lighter.

    Args:
        reached: those values.
        level: the lightest of them.
        rise: by how much more they weigh.
    """

    reached: frozenset[int]
    level: tuple[int, ...]
    rise: int


def reduced(weights: Weights, at_most: int) -> tuple[Weights, int]:
    """Return a sum with weights shifted to minimum 0 and divided by what divides them all."""
    least = {name: min(column, default=0) for name, column in weights}
    step = gcd(*(w - least[name] for name, column in weights for w in column)) or 1
    plain = tuple((name, tuple((w - least[name]) // step for w in ws)) for name, ws in weights)
    return plain, (at_most - sum(least.values())) // step


@lru_cache(maxsize=1024)
def steps(weights: tuple[int, ...]) -> tuple[Step, ...]:
    """Return the steps from one weight of a choice down to the next, the largest first.

    Args:
        weights: a weight for each value.
    """
    found: list[Step] = []
    reached: frozenset[int] = frozenset()
    values_of: dict[int, list[int]] = {}
    for value, weight in enumerate(weights):
        values_of.setdefault(weight, []).append(value)
    for weight, lighter in itertools.pairwise(sorted(values_of, reverse=True)):
        level = values_of[weight]
        reached = reached.union(level)
        found.append(Step(reached, tuple(level), weight - lighter))
    return tuple(found)


def shifted(total: Bounded) -> Shifted:
    """Shift the weights of a sum to minimum 0, divide by their divisor and cap them.

    A weight above the bound breaks the sum whatever it is, so it is cut to the bound plus one.
    """
    plain, at_most = reduced(total.weights, total.at_most)
    cap = max(at_most + 1, 0)
    weights = tuple((name, tuple(min(w, cap) for w in ws)) for name, ws in plain)
    return Shifted(weights, at_most, sum(max(ws, default=0) for _, ws in weights))


class Deadline:
    """The moment at which a limit is used up."""

    def __init__(self, limit: Limit) -> None:
        self._end = time.monotonic() + limit.seconds

    @property
    def left(self) -> float:
        """Seconds that are left, never below 0."""
        return max(0.0, self._end - time.monotonic())

    def check(self) -> None:
        """Raise ``OutOfTime`` when nothing is left."""
        if self.left == 0.0:
            raise OutOfTime("the engine reached its limit")


@dataclass(slots=True)
class PerSpace(Generic[Built]):
    """Something costly that is built once for a space and forgotten together with it.

    Spaces are told apart by identity: comparing two of them reads every row.

    Args:
        build: makes the thing for a space; it must not keep the space itself alive.
    """

    build: Callable[[Space], Built]
    _kept: dict[int, tuple[weakref.ref[Space], Built]] = field(default_factory=dict)

    def __call__(self, space: Space) -> Built:
        """Return the thing that belongs to the space."""
        kept = self._kept.get(id(space))
        if kept is not None and kept[0]() is space:
            return kept[1]
        built = self.build(space)
        identity = id(space)
        gone = weakref.ref(space, lambda _: self._kept.pop(identity, None))
        self._kept[identity] = (gone, built)
        return built

    def __len__(self) -> int:
        return len(self._kept)

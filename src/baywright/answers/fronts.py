"""Fronts: the builds of which no other is as good in two totals and better in one.

An engine that finds whole fronts is asked first. Where it does not come to an end, the optimiser
takes over and is named: points are found from the least of the first total upwards, with the least
of the second, then among builds with less of the second (the epsilon constraint method; Haimes,
Lasdon, Wismer 1971, cited from memory). Every step is a proven optimum. That no point is missing is
proven again by another engine, gap by gap.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from baywright.answers.inquiry import RecheckError, SpaceInquiry, StoppedError
from baywright.answers.verdicts import Proof
from baywright.engines.contract import (
    DEFAULT_LIMIT,
    NOTHING,
    Assumptions,
    Cut,
    Engine,
    Limit,
    Objective,
    OutOfTime,
    Possible,
)
from baywright.laws.linear import Linear
from baywright.space import Origin, Space, Sum, Table

MOST_POINTS = 500

_LARGEST = 2**30
_RECHECK = 2.0
"""Seconds for proving again that one gap is empty."""


@dataclass(frozen=True, slots=True)
class Point:
    """A build that no other beats.

    Args:
        first: the first total.
        second: the second total.
        values: the build, re-checked.
    """

    first: Fraction
    second: Fraction
    values: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Front:
    """All pairs of totals that no build beats, from the least of the first upwards.

    Args:
        points: the pairs, each with a build.
        proof: who answered, and who proved again that no pair is missing.
    """

    points: tuple[Point, ...]
    proof: Proof


@dataclass(frozen=True, slots=True)
class _Total:
    """A total in whole steps.

    Args:
        linear: the total.
        weights: the same in steps of its quantum, without its constant.
    """

    linear: Linear
    weights: tuple[tuple[str, tuple[int, ...]], ...]

    def steps(self, values: Mapping[str, int]) -> int:
        """Return the total of a build, in steps."""
        return sum(column[values[name]] for name, column in self.weights)

    def at_most(self, steps: int) -> Sum:
        """Return the sum that keeps the total at so many steps."""
        return Sum(self.weights, steps, Origin("front.step", "wish", "Asked: another point."))


class _Pair(Protocol):
    """A point as an engine gives it: a build, and its totals in steps."""

    @property
    def values(self) -> Mapping[str, int]:
        """The build."""


class FrontFinder(Engine, Protocol):
    """An engine that finds whole fronts."""

    def front(
        self,
        space: Space,
        first: Objective,
        second: Objective,
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> Sequence[_Pair]:
        """Return the pairs of two totals that no legal build beats, from the least of the first.

        Raises ``OutOfTime`` at the limit.
        """


def front(
    inquiry: SpaceInquiry,
    space: Space,
    first: Linear,
    second: Linear,
    finder: FrontFinder | None = None,
    assumptions: Assumptions = NOTHING,
) -> Front:
    """Return the front of two totals, both to be as small as possible.

    Args:
        inquiry: the engines.
        space: the space with its wishes.
        first: one total.
        second: the other total.
        finder: asked first, for no longer than one step may take.
        assumptions: values left to choose from, so that a space compiled once serves many fronts.

    Raises:
        StoppedError: at a limit, or when there are more than ``MOST_POINTS`` points.
        RecheckError: when an engine's build breaks a law, or a point was missed.
    """
    totals = _total(first), _total(second)
    found = _at_once(inquiry, space, *totals, finder, assumptions) if finder else None
    narrowed = _narrowed(space, assumptions)
    answered_by = finder if found is not None and finder else inquiry.panel.optimiser
    points: list[Point] = []
    for values in _builds(inquiry, narrowed, *totals) if found is None else found:
        points.append(Point(first.value(values), second.value(values), values))
        if len(points) > MOST_POINTS:
            raise StoppedError(f"there are more than {MOST_POINTS} points on the front")
    checker = _confirmed(inquiry, narrowed, *totals, points)
    proof = inquiry.proof(answered_by)
    return Front(tuple(points), Proof(proof.answered_by, checker, proof.milliseconds))


def _total(linear: Linear) -> _Total:
    """Return a total in whole steps, exactly.

    Raises:
        StoppedError: when its steps are too fine to be added by every engine.
    """
    quantum = linear.quantum
    span = sum((max(map(abs, column)) for column in linear.weights.values()), Fraction(0))
    if span / quantum >= _LARGEST:
        raise StoppedError("a total has too many different values for an exact front")
    weights = ((n, tuple(int(w / quantum) for w in ws)) for n, ws in linear.weights.items())
    return _Total(linear, tuple((n, column) for n, column in weights if any(column)))


def _narrowed(space: Space, assumptions: Assumptions) -> Space:
    """Return the space in which assumptions are tables."""
    if not assumptions.allowed:
        return space
    origin = Origin("front.given", "wish", "Asked: one of these values.")
    given = assumptions.allowed.items()
    tables = [Table((name,), frozenset((at,) for at in left), origin) for name, left in given]
    return space.extended(tables=tables)


def _at_once(
    inquiry: SpaceInquiry,
    space: Space,
    first: _Total,
    second: _Total,
    finder: FrontFinder,
    assumptions: Assumptions,
) -> list[Mapping[str, int]] | None:
    """Return the re-checked builds of a front, or ``None`` when the engine comes to no end.

    Raises:
        RecheckError: when a build breaks a law.
    """
    totals = Objective(first.weights), Objective(second.weights)
    try:
        points = finder.front(space, *totals, assumptions, inquiry.panel.limit)
    except (OutOfTime, ValueError):
        return None
    for point in points:
        inquiry.check(space, point.values, finder)
    return [point.values for point in points]


def _builds(
    inquiry: SpaceInquiry, space: Space, first: _Total, second: _Total
) -> Iterator[Mapping[str, int]]:
    left = space
    while (least := inquiry.best(left, Objective(first.weights))) is not None:
        there = left.extended(sums=[first.at_most(least.value)])
        found = inquiry.best(there, Objective(second.weights))
        if found is None:
            raise RecheckError(f"{inquiry.panel.optimiser.name} lost a build it had found")
        yield found.values
        left = space.extended(sums=[second.at_most(found.value - 1)])


def _confirmed(
    inquiry: SpaceInquiry, space: Space, first: _Total, second: _Total, points: Sequence[Point]
) -> str:
    """Have the prover show that each gap of the front is empty; nothing when it had no time.

    A build that is missing lies below the first point, or has less of the second total than one
    point and less of the first than the next.

    Raises:
        RecheckError: when there is one.
    """
    judge = inquiry.panel.prover
    steps: list[tuple[int | None, int | None]] = [
        (first.steps(point.values), second.steps(point.values)) for point in points
    ]
    for (_, above), (beside, _) in itertools.pairwise([(None, None), *steps, (None, None)]):
        sums = [second.at_most(above - 1)] if above is not None else []
        sums += [first.at_most(beside - 1)] if beside is not None else []
        found = judge.prove(space.extended(sums=sums), limit=Limit(_RECHECK))
        if isinstance(found, Possible):
            raise RecheckError(f"{judge.name} found a build that the front does not have")
        if isinstance(found, Cut):
            return ""
    return judge.name

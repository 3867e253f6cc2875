"""Fronts: the builds of which no other has as little of two totals and less of one.

Mixtures of the two totals, least by one pass each, find builds on the convex hull of the front.
Between two neighbours of them every other point of the front lies in a small triangle; it is found
by labels that may not leave it (two-phase method; Ulungu, Teghem 1995, cited from memory).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from baywright.engines.contract import Objective, OutOfTime
from baywright.engines.diagram.compiled import Carried, Compiled
from baywright.engines.diagram.guards import TooHard
from baywright.engines.diagram.labels import Barrier, every_label
from baywright.engines.diagram.passes import LARGEST, NEVER
from baywright.engines.diagram.tracing import Trace, trace
from baywright.engines.loops import Flags, Longs
from baywright.engines.preparation import Deadline


@dataclass(frozen=True, slots=True)
class FrontPoint:
    """Two totals that no build beats.

    Args:
        first: the first total.
        second: the second total.
        values: a build that has them.
    """

    first: int
    second: int
    values: Mapping[str, int]


def front(
    compiled: Compiled,
    first: Objective,
    second: Objective,
    allowed: Flags,
    most: int,
    deadline: Deadline,
) -> tuple[FrontPoint, ...]:
    """Return the front of two totals, both to be as small as possible, by rising first total.

    Args:
        compiled: the compiled space.
        first: one total.
        second: the other total.
        allowed: which values may be used.
        most: most labels that may be kept at a time.
        deadline: when to stop.

    Raises:
        ValueError: when a total is too large to be added in 64 bits.
        OutOfTime: at the deadline, or with too many labels.
    """
    if not compiled.form.states:
        return ()
    (one, shift), (other, lift) = compiled.weights(first), compiled.weights(second)
    try:
        found = _Search(compiled, allowed, np.stack([one, other]), most, deadline).run()
    except TooHard as hard:
        raise OutOfTime(f"the front was not finished: {hard}") from hard
    return tuple(
        FrontPoint(pair.first + shift, pair.second + lift, compiled.build(chosen))
        for pair, chosen in _unbeaten(found)
    )


def _bound(compiled: Compiled, limit: Carried, total: Longs) -> int | None:
    """Return the bound that a limit is on a total, or ``None`` when it weighs something else."""
    live = compiled.form.state_of >= 0
    weights, base = _from_least(compiled, limit.weights, live)
    plain, shift = _from_least(compiled, total, live)
    heaviest = int(np.argmax(weights))
    if not plain[heaviest] or not weights[heaviest]:
        return None
    ratio = Fraction(int(plain[heaviest]), int(weights[heaviest]))
    alike = weights.astype(object) * ratio.numerator == plain.astype(object) * ratio.denominator
    return shift + math.floor((limit.at_most - base) * ratio) if alike.all() else None


def _from_least(compiled: Compiled, weights: Longs, live: NDArray[np.bool_]) -> tuple[Longs, int]:
    """Return weights with the least of each choice taken off, and the sum of these."""
    plain, base = np.where(live, weights, 0), 0
    for begin, end in pairwise(compiled.form.values.tolist()):
        least = min(weights[begin:end][live[begin:end]].tolist(), default=0)
        plain[begin:end] -= np.where(live[begin:end], least, 0)
        base += least
    return plain, base


class _Pair(NamedTuple):
    first: int
    second: int


def _unbeaten(found: Mapping[_Pair, Flags]) -> Iterator[tuple[_Pair, Flags]]:
    least: int | None = None
    for pair in sorted(found):
        if least is None or pair.second < least:
            least = pair.second
            yield pair, found[pair]


@dataclass(slots=True, eq=False)
class _Search:
    """What is known so far about one front.

    Args:
        compiled: the compiled space.
        allowed: which values may be used.
        totals: the two totals, from 0, one row each.
        labels: most labels that may be kept at a time.
        deadline: when to stop.
    """

    compiled: Compiled
    allowed: Flags
    totals: Longs
    labels: int
    deadline: Deadline
    highest: _Pair = field(init=False)
    limits: tuple[Carried, ...] = field(init=False)
    sums: Longs = field(init=False)
    found: dict[_Pair, Flags] = field(default_factory=dict, init=False)
    fixed: list[Barrier] = field(default_factory=list, init=False)

    def __post_init__(self) -> None:
        """Tell limits of the two totals from limits of something else."""
        bounds = [
            [_bound(self.compiled, limit, total) for total in self.totals]
            for limit in self.compiled.limits
        ]
        self.highest = _Pair(*(self._highest(row, bounds) for row in range(2)))
        self.limits = tuple(
            limit
            for limit, pair in zip(self.compiled.limits, bounds, strict=True)
            if pair == [None, None]
        )
        self.sums = np.vstack([self.totals, *(limit.weights for limit in self.limits)])

    def _highest(self, row: int, bounds: list[list[int | None]]) -> int:
        """Return what no legal build exceeds in one of the totals."""
        known = (pair[row] for pair in bounds)
        most = self.compiled.form.most(self.totals[row])
        return min([most, *(bound for bound in known if bound is not None)])

    def run(self) -> dict[_Pair, Flags]:
        """Return pairs with builds, among them every pair of the front."""
        ends = []
        for row in range(len(self.sums)):
            factors = tuple(int(row == other) for other in range(len(self.sums)))
            made, _ = self._mix(factors)
            if made.least >= NEVER:
                return {}
            bound = (*self.highest, *(limit.at_most for limit in self.limits))[row]
            self.fixed.append(Barrier(factors, made.down(), bound))
            ends.append(made)
        low, high = (self._end(made, row) for row, made in enumerate(ends[:2]))
        self._between(low, high)
        return self.found

    def _end(self, made: Trace, row: int) -> _Pair:
        """Return the pair of one end; beyond all others where no build is known to have it."""
        totals = made.totals()
        pair = _Pair(totals[0], totals[1])
        if pair in self.found:
            return pair
        if row == 0:
            return pair._replace(second=self.highest.second + 1)
        return pair._replace(first=self.highest.first + 1)

    def _mix(self, factors: tuple[int, ...]) -> tuple[Trace, _Pair]:
        """Make a mixture least, and keep the build that has it when it is legal."""
        self.deadline.check()
        mixed = np.array(factors, np.int64) @ self.sums
        made = trace(self.compiled.form, mixed, self.sums, self.allowed)
        first, second, *others = made.totals()
        pair = _Pair(first, second)
        within = first <= self.highest.first and second <= self.highest.second
        kept = all(t <= limit.at_most for t, limit in zip(others, self.limits, strict=True))
        if made.least < NEVER and within and kept:
            self.found.setdefault(pair, made.chosen())
        return made, pair

    def _between(self, low: _Pair, high: _Pair) -> None:
        """Find what lies between two pairs, each with less of one total than any there."""
        pending = [(low, high)]
        while pending:
            low, high = pending.pop()
            corner = _Pair(
                min(high.first - 1, self.highest.first), min(low.second - 1, self.highest.second)
            )
            factors = (max(1, low.second - high.second), max(1, high.first - low.first))
            if self._too_large(factors):
                self._label(corner, [])
                continue
            made, pair = self._mix((*factors, *(0,) * len(self.limits)))
            inside = pair.first <= corner.first and pair.second <= corner.second
            if inside and pair in self.found:
                pending += [(low, pair), (pair, high)]
            elif self.highest.second < pair.second < low.second:
                pending.append((pair, high))
            elif self.highest.first < pair.first < high.first:
                pending.append((low, pair))
            else:
                bound = factors[0] * corner.first + factors[1] * corner.second
                if made.least <= bound:
                    room = (*factors, *(0,) * len(self.limits))
                    self._label(corner, [Barrier(room, made.down(), bound)])

    def _too_large(self, factors: tuple[int, int]) -> bool:
        """Say whether totals of a mixture could be too large to be added in 64 bits."""
        most = (self.compiled.form.most(total) for total in self.totals)
        return sum(f * m for f, m in zip(factors, most, strict=True)) > LARGEST

    def _label(self, corner: _Pair, barriers: list[Barrier]) -> None:
        """Find all that is at most a corner in both totals by labels."""
        first, second, *others = self.fixed
        every = [
            *barriers,
            Barrier(first.factors, first.down, corner.first),
            Barrier(second.factors, second.down, corner.second),
            *others,
        ]
        labels = every_label(
            self.compiled.form, self.sums, self.allowed, every, self.labels, self.deadline
        )
        for totals, chosen in labels:
            self.found.setdefault(_Pair(totals[0], totals[1]), chosen)

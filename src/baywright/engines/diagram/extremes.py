"""The least value of an objective over all legal builds.

Without a limit one pass finds it. With one, a pass that leaves the limit aside may already keep it.
If not, mixtures of objective and limit give bounds from below and builds from above (Lagrangian
relaxation: every mixture with factors from 0 bounds what any legal build can have), and labels
close the gap between them. Where that would take too many labels, the bounds are the answer.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from baywright.engines.contract import Best, Cut, Impossible, Objective, Optimum, OutOfTime
from baywright.engines.diagram.compiled import Compiled
from baywright.engines.diagram.guards import TooHard
from baywright.engines.diagram.labels import Barrier, best_label
from baywright.engines.diagram.passes import LARGEST, NEVER
from baywright.engines.diagram.tracing import Trace, trace
from baywright.engines.loops import Flags, Longs
from baywright.engines.preparation import Deadline

_FEW = 8
"""Labels kept for a state while a good build is looked for."""

_ALL = 1 << 40

_ROUNDS = 60
"""How often a good build is improved by choosing anew for some of its choices."""

_FREED = 4
"""One choice in so many is freed in each round."""


def best(
    compiled: Compiled, objective: Objective, allowed: Flags, most: int, deadline: Deadline
) -> Optimum:
    """Find the least value of the objective.

    Args:
        compiled: the compiled space.
        objective: what is made least.
        allowed: which values may be used.
        most: most labels that may be kept.
        deadline: when to stop.

    Raises:
        ValueError: when the objective is too large to be added in 64 bits.
    """
    if not compiled.form.states:
        return Impossible()
    weights, shift = compiled.weights(objective)
    return _Search(compiled, weights, allowed).run(shift, most, deadline)


@dataclass(slots=True, eq=False)
class _Search:
    """What is known so far about one objective.

    Args:
        compiled: the compiled space.
        weights: the objective, from 0.
        allowed: which values may be used.
    """

    compiled: Compiled
    weights: Longs
    allowed: Flags
    sums: Longs = field(init=False)
    bounds: tuple[int, ...] = field(init=False)
    value: int | None = field(default=None, init=False)
    chosen: Flags | None = field(default=None, init=False)
    bound: int = field(default=0, init=False)
    mixtures: list[tuple[tuple[int, ...], Longs]] = field(default_factory=list, init=False)

    def __post_init__(self) -> None:
        limits = self.compiled.limits
        self.sums = np.stack([self.weights, *(limit.weights for limit in limits)])
        self.bounds = tuple(limit.at_most for limit in limits)

    def run(self, shift: int, most: int, deadline: Deadline) -> Optimum:
        """Answer, with the constant part of the objective added."""
        possible = self._relax()
        if possible and self.value != self.bound:
            try:
                possible = self._close(most, deadline)
            except (TooHard, OutOfTime):
                return self._stopped(shift)
        if not possible or self.value is None or self.chosen is None:
            return Impossible()
        return Best(self.value + shift, self.compiled.build(self.chosen))

    def _stopped(self, shift: int) -> Cut:
        if self.value is None or self.chosen is None:
            return Cut(bound=self.bound + shift)
        build = self.compiled.build(self.chosen)
        return Cut(self.value + shift, build, self.bound + shift)

    def _mix(self, factors: tuple[int, ...]) -> tuple[Trace, list[int]]:
        """Make a mixture least; learn a bound from it, and a build when it is legal."""
        mixed = np.array(factors, np.int64) @ self.sums
        found = trace(self.compiled.form, mixed, self.sums, self.allowed)
        totals = found.totals()
        if found.least < NEVER:
            self.mixtures.append((factors, found.down()))
            if factors[0]:
                room = sum(f * b for f, b in zip(factors[1:], self.bounds, strict=True))
                self.bound = max(self.bound, -((room - found.least) // factors[0]))
            if self._legal(totals) and (self.value is None or totals[0] < self.value):
                self.value, self.chosen = totals[0], found.chosen()
        return found, totals

    def _legal(self, totals: list[int]) -> bool:
        return all(t <= b for t, b in zip(totals[1:], self.bounds, strict=True))

    def _relax(self) -> bool:
        """Bound the objective from both sides; say whether a legal build is not ruled out."""
        count = len(self.bounds)
        free, totals = self._mix((1,) + (0,) * count)
        if free.least >= NEVER:
            return False
        for place in range(count):
            unit = tuple(int(other == place) for other in range(count))
            least, spare = self._mix((0, *unit))
            if least.least > self.bounds[place]:
                return False
            self._approach(place, totals, spare)
        return True

    def _approach(self, place: int, light: list[int], spare: list[int]) -> None:
        """Mix the objective with one limit until no mixture finds a build between two others.

        Args:
            place: which limit.
            light: totals of a build with the least objective, which may break the limit.
            spare: totals of a build that keeps it.
        """
        bound = self.bounds[place]
        while light[place + 1] > bound:
            factors = [0] * (len(self.bounds) + 1)
            factors[0] = light[place + 1] - spare[place + 1]
            factors[place + 1] = spare[0] - light[0]
            if factors[0] <= 0 or factors[place + 1] <= 0 or self._too_large(factors):
                return
            found, totals = self._mix(tuple(factors))
            if found.least == factors[0] * light[0] + factors[place + 1] * light[place + 1]:
                return
            light, spare = (totals, spare) if totals[place + 1] > bound else (light, totals)

    def _too_large(self, factors: list[int]) -> bool:
        """Say whether totals of a mixture could be too large to be added in 64 bits."""
        most = (self.compiled.form.most(row) for row in self.sums)
        return sum(f * m for f, m in zip(factors, most, strict=True)) > LARGEST

    def _close(self, most: int, deadline: Deadline) -> bool:
        """Label the states until the best build is found; say whether there is any.

        First with few labels for a good build, which is then improved in parts; the better it is,
        the more labels are ruled out when all of them are kept in the end.
        """
        if self._label(self.allowed, _FEW, most, deadline):
            return self.value is not None
        generator = np.random.default_rng(len(self.weights))
        for _ in range(_ROUNDS):
            if self.chosen is None:
                break
            self._label(self._around(self.chosen, generator), 4 * _FEW, most, deadline)
            if self.value == self.bound:
                return True
        return self._label(self.allowed, _ALL, most, deadline) and self.value is not None

    def _around(self, chosen: Flags, generator: np.random.Generator) -> Flags:
        """Allow the values of a build, and all values of a few choices."""
        begins = self.compiled.form.values
        freed = generator.random(len(begins) - 1) * _FREED < 1
        return self.allowed & (chosen | np.repeat(freed, np.diff(begins)))

    def _label(self, allowed: Flags, cap: int, most: int, deadline: Deadline) -> bool:
        """Look for a better build by labels; say whether there is none better than the best now."""
        barriers = self._barriers()
        found = best_label(self.compiled.form, self.sums, allowed, barriers, cap, most, deadline)
        if found.chosen is not None:
            self.value, self.chosen = found.value, found.chosen
        return found.complete or self.value == self.bound

    def _barriers(self) -> list[Barrier]:
        """Return the bounds of all mixtures for a build better than the best one known."""
        barriers = []
        for factors, down in self.mixtures:
            at_most = sum(f * b for f, b in zip(factors[1:], self.bounds, strict=True))
            if factors[0]:
                at_most += factors[0] * (self.value - 1) if self.value is not None else int(NEVER)
            barriers.append(Barrier(factors, down, at_most))
        return barriers

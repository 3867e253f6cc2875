"""An inquiry: one question on its way through the engines, with every result re-checked.

No engine stands in for another unseen: when the prover does not come to an end in its
time, the optimiser takes the whole question over and is named in the proof.
"""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Protocol, runtime_checkable

from baywright.answers.verdicts import Proof
from baywright.engines.contract import (
    DEFAULT_LIMIT,
    NOTHING,
    Assumptions,
    Best,
    Cut,
    Engine,
    Impossible,
    Limit,
    Objective,
    Optimum,
    OutOfTime,
    Possible,
    Unsupported,
)
from baywright.engines.preparation import Deadline
from baywright.laws.machine import Machine
from baywright.space import Space, broken

EVALUATOR = "evaluator"


class RecheckError(Exception):
    """An engine's result did not pass its re-check; the answer is withheld.

    Args:
        report: what failed, for the person who mends it.
    """

    def __init__(self, report: str) -> None:
        self.report = report
        super().__init__(report)


class StoppedError(Exception):
    """An engine reached its limit.

    Args:
        tried: what was tried, one sentence.
        cut: how far an optimisation came, if it was one.
    """

    def __init__(self, tried: str, cut: Cut | None = None) -> None:
        self.tried = tried
        self.cut = cut
        super().__init__(tried)


@dataclass(frozen=True, slots=True)
class Panel:
    """Engines by their part in an answer.

    Args:
        prover: finds builds and refusals.
        optimiser: finds the best of a total, and proves what the prover cannot in its time.
        patience: time the prover has for one step.
        patience_for_the_best: time the optimiser has to make an answer handy.
        limit: time for a step of whatever engine comes last.
        reason_sets: how many different minimal sets of reasons to look for.
    """

    prover: Engine
    optimiser: Engine
    patience: Limit = field(default_factory=lambda: Limit(0.5))
    patience_for_the_best: Limit = field(default_factory=lambda: Limit(3.0))
    limit: Limit = field(default_factory=lambda: Limit(20.0))
    reason_sets: int = 1


@runtime_checkable
class InOrder(Protocol):
    """An engine that takes several objectives in order."""

    def best_of(
        self,
        space: Space,
        objectives: Sequence[Objective],
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> Sequence[Optimum]:
        """Find the least of each objective, among the builds least in those before."""


class SpaceInquiry:
    """One question about spaces.

    Args:
        panel: the engines.
    """

    def __init__(self, panel: Panel) -> None:
        self.panel = panel
        self._prover = panel.prover
        self._start = time.perf_counter()
        self._aside: Deadline | None = None

    def possible(
        self, space: Space, without: frozenset[str] = frozenset()
    ) -> Mapping[str, int] | None:
        """Return a re-checked build, or ``None`` when none exists.

        Args:
            space: where it has to be legal.
            without: origins that do not have to hold.

        Raises:
            StoppedError: at the limit.
            RecheckError: when the engine's build breaks a law.
        """
        match self._prove(space, Assumptions(without=without)):
            case Possible(values):
                self.check(space.without(without) if without else space, values, self._prover)
                return values
            case _:
                return None

    def core(self, space: Space, without: frozenset[str] = frozenset()) -> frozenset[str]:
        """Return origin keys that suffice for a refusal already found; otherwise like that."""
        found = self._prove(space, Assumptions(without=without))
        core = found.core if isinstance(found, Impossible) else None
        return frozenset(space.origins) - without if core is None else core

    @contextmanager
    def aside(self, limit: Limit) -> Iterator[None]:
        """Do what makes an answer fuller in a time of its own, after which it is stopped.

        Who answers the question itself stays as it was.

        Args:
            limit: the time for all of it.
        """
        prover, self._aside = self._prover, Deadline(limit)
        try:
            yield
        finally:
            self._prover, self._aside = prover, None

    def _within(self, limit: Limit) -> Limit:
        """Return how long a step may take that has this limit.

        Raises:
            StoppedError: when the time of what is done aside is up.
        """
        if self._aside is None:
            return limit
        if not self._aside.left:
            raise StoppedError("The time for more than the answer was up")
        return Limit(min(limit.seconds, self._aside.left))

    def _prove(self, space: Space, assumptions: Assumptions) -> Possible | Impossible:
        first = self._prover is self.panel.prover
        limit = self._within(self.panel.patience if first else self.panel.limit)
        found = self._prover.prove(space, assumptions, limit)
        if not isinstance(found, Cut):
            return found
        if first:
            self._prover = self.panel.optimiser
            return self._prove(space, assumptions)
        raise StoppedError(f"{self._prover.name} worked for {limit.seconds:g} s without an answer")

    def best(self, space: Space, objective: Objective, limit: Limit | None = None) -> Best | None:
        """Return the re-checked least of an objective, or ``None`` when nothing is legal.

        Args:
            space: where it has to be legal.
            objective: what is made as small as possible.
            limit: time for it, that of the panel unless given.

        Raises:
            StoppedError: at the limit, with the best found so far.
            RecheckError: when the engine's build breaks a law.
        """
        engine, limit = self.panel.optimiser, self._within(limit or self.panel.limit)
        found = engine.best(space, objective, limit=limit)
        match found:
            case Best(_, values):
                self.check(space, values, engine)
                return found
            case Impossible():
                return None
            case _:
                raise StoppedError(f"{engine.name} worked for {limit.seconds:g} s", found)

    def best_of(self, space: Space, objectives: Sequence[Objective]) -> Iterator[Best]:
        """Yield the re-checked least of each objective, among the builds least in those before.

        When nothing is legal there is none.

        Args:
            space: where it has to be legal.
            objectives: what is made as small as possible, the first above all.

        Raises:
            StoppedError: at the limit, after those proven by then.
            RecheckError: when the engine's build breaks a law.
        """
        engine, limit = self.panel.optimiser, self._within(self.panel.limit)
        if not isinstance(engine, InOrder):
            raise Unsupported(f"{engine.name} takes one objective, not several in order")
        for found in engine.best_of(space, objectives, limit=limit):
            match found:
                case Best(_, values):
                    self.check(space, values, engine)
                    yield found
                case Impossible():
                    return
                case _:
                    raise StoppedError(f"{engine.name} worked for {limit.seconds:g} s", found)

    def good(self, space: Space, objective: Objective) -> Mapping[str, int] | None:
        """Return a re-checked build with a small objective, the least where that comes quickly.

        For what makes an answer handy but is no claim of it: the cheapest witness, the change
        nearest to what was asked.

        Raises:
            StoppedError: when the time passes without any build.
        """
        try:
            found = self.best(space, objective, self.panel.patience_for_the_best)
        except StoppedError as stopped:
            if stopped.cut is None or stopped.cut.values is None:
                raise
            self.check(space, stopped.cut.values, self.panel.optimiser)
            return stopped.cut.values
        return found.values if found else None

    def options(self, space: Space) -> Mapping[str, frozenset[int]]:
        """Return, for every choice, the values that some legal build has.

        Raises:
            StoppedError: at the limit.
        """
        engine, limit = self.panel.prover, self.panel.limit
        try:
            return engine.options(space, limit=limit)
        except OutOfTime as late:
            raise StoppedError(f"{engine.name} worked for {limit.seconds:g} s") from late

    def confirm_refusal(self, space: Space, refused_by: Engine | None = None) -> Engine:
        """Have an engine that did not refuse prove again that a space has no build.

        Args:
            space: the space.
            refused_by: the engine that refused; the one that finds refusals now unless given.

        Returns:
            The engine that proved it again.

        Raises:
            RecheckError: when it finds one.
            StoppedError: when it reaches its limit.
        """
        refuser = refused_by or self._prover
        judge = self._other(refuser)
        found = judge.prove(space, limit=self._within(self.panel.limit))
        if isinstance(found, Possible):
            self.check(space, found.values, judge)
            raise RecheckError(f"{judge.name} found a build where {refuser.name} refused")
        if isinstance(found, Cut):
            raise StoppedError(
                f"{refuser.name} refused, but {judge.name} could not prove it again in time"
            )
        return judge

    @property
    def prover(self) -> Engine:
        """The engine that finds builds and refusals now."""
        return self._prover

    def _other(self, engine: Engine) -> Engine:
        """Return the engine that proves again what this one has refused."""
        panel = self.panel
        return panel.optimiser if engine is panel.prover else panel.prover

    def check(self, space: Space, values: Mapping[str, int], engine: Engine) -> None:
        """Raise ``RecheckError`` when a build breaks a law of the space."""
        failed = broken(space, values)
        if failed:
            keys = ", ".join(sorted({law.origin.key for law in failed}))
            raise RecheckError(f"the build found by {engine.name} breaks {keys}")

    def proof(self, answered_by: Engine | None = None, *, refusal: bool = False) -> Proof:
        """Return who answered and who checked, with the time since the question was taken up."""
        elapsed = (time.perf_counter() - self._start) * 1000
        engine = answered_by or self._prover
        checker = self._other(engine).name if refusal else EVALUATOR
        return Proof(engine.name, checker, elapsed)


class Inquiry(SpaceInquiry):
    """One question about one machine.

    Args:
        machine: what is asked.
        panel: the engines.
    """

    def __init__(self, machine: Machine, panel: Panel) -> None:
        super().__init__(panel)
        self.machine = machine

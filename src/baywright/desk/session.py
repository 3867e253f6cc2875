"""A session: a build taking shape choice by choice, with everything that is left after each."""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass, field

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.answers.refused import Refusal, Refuser
from baywright.answers.verdicts import Witness
from baywright.answers.witnesses import witness
from baywright.desk.judging import Margin, margins
from baywright.desk.opening import Opened
from baywright.engines.contract import Assumptions, Engine, Impossible, OutOfTime, Possible
from baywright.laws.machine import Machine
from baywright.problems import problem, suggestion
from baywright.space import broken


@dataclass(frozen=True, slots=True)
class Left:
    """What is left after some choices.

    Args:
        options: by name of the choice, the values that some legal build has.
        witness: a legal build with the choices made.
        margins: its limits.
        answered_by: the engine.
        milliseconds: time it took.
    """

    options: Mapping[str, frozenset[int]]
    witness: Witness
    margins: tuple[Margin, ...]
    answered_by: str
    milliseconds: float


@dataclass
class Session:
    """Choices made on an open book. Without choices everything legal is left.

    Args:
        opened: the book, with day and site.
        engine: the engine that answers; one that compiles the space once is quickest.
        chosen: value index by name of the choice, for the choices made.
    """

    opened: Opened
    engine: Engine
    chosen: dict[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.machine: Machine = self.opened.machine

    def left(self) -> Left:
        """Return what is left.

        Raises:
            StoppedError: at the limit.
            RecheckError: when the engine's build breaks a law.
        """
        start = time.perf_counter()
        space, limit = self.machine.space, self.opened.panel.limit
        given = Assumptions({name: frozenset({at}) for name, at in self.chosen.items()})
        try:
            options = self.engine.options(space, given, limit)
        except OutOfTime as late:
            raise StoppedError(f"{self.engine.name} worked for {limit.seconds:g} s") from late
        found = self.engine.prove(space, given, limit)
        if not isinstance(found, Possible):
            raise StoppedError(f"{self.engine.name} showed no build")
        if broken(space, found.values):
            raise RecheckError(f"the build found by {self.engine.name} breaks a law")
        shown = witness(self.machine, found.values)
        spent = (time.perf_counter() - start) * 1000
        limits = tuple(margins(self.machine, shown))
        return Left(options, shown, limits, self.engine.name, spent)

    def choose(self, choice: str, label: str) -> Refusal | None:
        """Make a choice; when it is closed, leave everything as it is and return why.

        Raises:
            Problems: when there is no such choice or value.
        """
        value = self._value(choice, label)
        given = {**self.chosen, choice: value}
        found = self.engine.prove(
            self.machine.space,
            Assumptions({name: frozenset({at}) for name, at in given.items()}),
            self.opened.panel.limit,
        )
        if isinstance(found, Impossible):
            return self.refused(choice, label)
        self.chosen = given
        return None

    def refused(self, choice: str, label: str) -> Refusal:
        """Return why a value is closed; raises ``ValueError`` when it is not."""
        panel = self.opened.panel
        refuser = Refuser(self.machine.space, self.engine, panel.prover, panel.limit)
        return refuser.explain(self.chosen, choice, self._value(choice, label))

    def undo(self, choice: str) -> None:
        """Take a choice back."""
        self.chosen.pop(choice, None)

    def _value(self, choice: str, label: str) -> int:
        if choice not in self.machine.frame.fittings:
            hint = suggestion(choice, self.machine.frame.fittings)
            raise problem("unknown-choice", f"There is no choice {choice!r}.", hint=hint)
        labels = [option.label for option in self.machine.frame.options(choice)]
        if label not in labels:
            hint = suggestion(label, labels)
            raise problem("not-a-value", f"{choice} cannot be {label!r}.", hint=hint)
        return labels.index(label)

"""Judges: engines other than the one that wrote a statement, asked in turn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.desk.opening import Opened
from baywright.desk.statements.narrowing import Narrowed
from baywright.desk.statements.shared import Shared
from baywright.engines.contract import Assumptions, Cut, Engine, Limit, Possible
from baywright.space import Space

PATIENCE = Limit(2.0)
"""Time a judge has while there is another to ask."""


@dataclass
class Judges:
    """Engines that prove again what another has found.

    Args:
        engines: the engines, in the order in which they are asked.
        limit: time the last of them has.
        asked: names of those that gave an answer.
    """

    engines: tuple[Engine, ...]
    limit: Limit
    asked: dict[str, None] = field(default_factory=dict)

    def build(self, there: Narrowed) -> Mapping[str, int] | None:
        """Return a checked build of a narrowed space, or ``None`` when there is none.

        Raises:
            StoppedError: when no judge comes to an end.
            RecheckError: when a build breaks a law.
        """
        for engine in self.engines:
            last = engine is self.engines[-1]
            given, limit = Assumptions(there.allowed), self.limit if last else PATIENCE
            found = engine.prove(there.space, given, limit)
            if isinstance(found, Cut):
                continue
            self.asked[engine.name] = None
            if not isinstance(found, Possible):
                return None
            if there.broken(found.values):
                raise RecheckError(f"the build found by {engine.name} breaks a law")
            return found.values
        raise StoppedError(
            f"{', '.join(e.name for e in self.engines)} came to no end in their time"
        )

    def each(self, space: Space, over: tuple[str, ...]) -> Iterator[tuple[int, ...]]:
        """Yield each row of some choices that a legal build has, from the first judge that can.

        Raises:
            OutOfTime: at its limit.
        """
        engine = next(each for each in self.engines if "each" in each.can)
        self.asked[engine.name] = None
        yield from engine.each(space, over, limit=self.limit)

    @property
    def names(self) -> str:
        """Who gave answers, in words."""
        return ", ".join(self.asked)


def judges(shared: Shared, opened: Opened, writer: str) -> Judges:
    """Return the judges of what an engine wrote: every other, those that start quickest first."""
    panel = opened.panel
    every: tuple[Engine, ...] = (panel.prover, panel.optimiser, shared.diagram)
    return Judges(tuple(each for each in every if each.name != writer), panel.limit)

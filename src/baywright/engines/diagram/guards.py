"""Limits on the size and the time of a compilation, and what happens when one is reached."""

from __future__ import annotations

import time
from dataclasses import dataclass, field

from baywright.engines.contract import OutOfTime
from baywright.engines.preparation import Deadline


class TooHard(Exception):  # noqa: N818 - reads as the outcome it is
    """A compilation reached one of its limits; the message says which."""


@dataclass(frozen=True, slots=True)
class Guards:
    """How large a diagram may become while it is made, and how long that may take.

    Args:
        arcs: number of arcs of a whole tree of joins.
        pairs: number of pairs of groups of states that one join may look at.
        seconds: processor time of one compilation; another load on the machine changes nothing.
        totals: number of totals above which the widest sum is carried along the arcs as the budget,
            and not compiled.
        far: number of totals above which another sum is not compiled either.
        labels: number of partial builds that the search for a best one may keep.
    """

    arcs: int = 10_000_000
    pairs: int = 200_000_000
    seconds: float = 20.0
    totals: int = 512
    far: int = 4_096
    labels: int = 4_000_000


def in_time(deadline: Deadline, doing: str) -> None:
    """Raise ``OutOfTime`` at the deadline, saying what was being done."""
    if not deadline.left:
        raise OutOfTime(f"compiling: {doing}")


@dataclass(slots=True)
class Watch:
    """Keeps the limits of one compilation.

    Args:
        guards: the limits.
        deadline: when the answer is no longer waited for.
        arcs: the number of arcs allowed now; lower than in the guards when a tree is known that
            the next one has to beat.
        doing: what is being done, to be told at the deadline.
    """

    guards: Guards
    deadline: Deadline
    arcs: int = field(init=False)
    doing: str = field(default="numbering the values", init=False)
    _end: float = field(init=False)

    def __post_init__(self) -> None:
        self.arcs = self.guards.arcs
        self._end = time.thread_time() + self.guards.seconds

    def clock(self) -> None:
        """Raise ``TooHard`` when the time is used up, ``OutOfTime`` at the deadline."""
        in_time(self.deadline, self.doing)
        if time.thread_time() > self._end:
            raise TooHard(f"more than {self.guards.seconds:.1f} seconds of work")

    def pairs(self, count: int) -> None:
        """Raise ``TooHard`` when a join would look at too many pairs."""
        self.clock()
        if count > self.guards.pairs:
            raise TooHard(f"a join of {count:,} pairs, more than {self.guards.pairs:,}")

    def weigh(self, arcs: int) -> None:
        """Raise ``TooHard`` when a tree would have too many arcs."""
        if arcs > self.arcs:
            raise TooHard(f"{arcs:,} arcs, more than {self.arcs:,}")

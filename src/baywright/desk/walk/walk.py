"""The walkthrough of a machine: stations in their order, with what is done and said at each."""

from __future__ import annotations

from dataclasses import dataclass

from baywright.desk.opening import Opened
from baywright.desk.walk.acts import Act
from baywright.desk.walk.audience import Audience
from baywright.desk.walk.lines import Line
from baywright.desk.walk.pace import Pace
from baywright.desk.walk.positions import Where
from baywright.desk.walk.stations import Station
from baywright.desk.walk.tour import Cost, turns
from baywright.drawing.orientation import Stance
from baywright.facts.build import Build

OFF_BY = 0.05
"""Share of the minutes asked by which a walkthrough may be longer or shorter."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a walkthrough.

    Args:
        minutes: how long it takes, or the most of it where less is enough.
        audience: who listens.
        pace: speed of speech.
        stance: how the machine stands.
        at_most: whether less is enough, where there is less to say.
    """

    minutes: float
    audience: Audience
    pace: Pace
    stance: Stance
    at_most: bool = False


@dataclass(frozen=True, slots=True)
class Shot:
    """A station with what is done before it and said at it.

    Args:
        station: the station.
        acts: what is done before it, in order.
        opening: how it is come to.
        where: where its places are.
        lines: what is said, in order; where its places are is the first.
    """

    station: Station
    acts: tuple[Act, ...]
    opening: str
    where: tuple[Where, ...]
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Walk:
    """A walkthrough.

    Args:
        opened: the book.
        build: the build that is shown, or ``None``.
        asked: what was asked.
        shots: the stations in their order.
        cost: what the tour over them costs.
        closing: what is said at the end.
        left_out: stations there was no time for.
        unsaid: how many lines there was no time for.
    """

    opened: Opened
    build: Build | None
    asked: Asked
    shots: tuple[Shot, ...]
    cost: Cost
    closing: tuple[str, ...]
    left_out: tuple[Station, ...]
    unsaid: int

    @property
    def seconds(self) -> float:
        """How long it takes [s]."""
        pace = self.asked.pace
        last = sum(pace.sentence(says) for says in self.closing)
        return last + sum(seconds_of(shot, pace) for shot in self.shots)


def seconds_of(shot: Shot, pace: Pace) -> float:
    """Return how long a station takes with what is done before it [s]."""
    said = [shot.opening, *(line.says for line in shot.lines)]
    return (
        pace.look + sum(map(pace.sentence, said)) + sum(_of_act(each, pace) for each in shot.acts)
    )


def _of_act(act: Act, pace: Pace) -> float:
    said = [*(line.says for line in act.before), act.says]
    return sum(map(pace.sentence, said)) + act_pause(act, pace)


def act_pause(act: Act, pace: Pace) -> float:
    """Return the silence while something is done [s]."""
    return pace.cover if act.kind == "cover" else pace.turn * turns("front", "inside")

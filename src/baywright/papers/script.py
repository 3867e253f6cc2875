"""The script of a walkthrough: what is said and done, station by station, with its times."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

SaidKind: TypeAlias = Literal["caution", "act", "talk", "line"]


@dataclass(frozen=True, slots=True)
class Spoken:
    """A sentence as it is spoken.

    Args:
        text: the sentence as it is written.
        aloud: the same with its numbers in words.
        kind: caution, act, talk or line.
        start: when it starts [s].
        end: when it ends [s].
        stands_on: what it was proven from: an expression, or facts with their sources.
    """

    text: str
    aloud: str
    kind: SaidKind
    start: float
    end: float
    stands_on: str = ""


@dataclass(frozen=True, slots=True)
class CallOut:
    """A place on the drawing of a station.

    Args:
        number: its number on the drawing, 0 where it has none.
        name: its name.
        where: where it is, in words.
    """

    number: int
    name: str
    where: str


@dataclass(frozen=True, slots=True)
class Part:
    """A station of a script.

    Args:
        number: its number, counted from 1.
        title: what is shown.
        side: the side one looks at.
        covers: what is off by then.
        start: when it starts [s].
        end: when it ends [s].
        spoken: what is said, in order.
        callouts: the places on its drawing.
        svg: its drawing.
    """

    number: int
    title: str
    side: str
    covers: tuple[str, ...]
    start: float
    end: float
    spoken: tuple[Spoken, ...]
    callouts: tuple[CallOut, ...]
    svg: str

    @property
    def name(self) -> str:
        """The start of the names of its files, such as ``03-the-front-zones``."""
        words = "".join(sign if sign.isalnum() else "-" for sign in self.title.lower())
        return f"{self.number:02}-{words}"


@dataclass(frozen=True, slots=True)
class Answered:
    """A question that is likely, with its answer.

    Args:
        question: the question.
        answer: the answer, one sentence or a few.
        why: why it is likely.
        stands_on: the expression that was asked.
    """

    question: str
    answer: str
    why: str
    stands_on: str


@dataclass(frozen=True, slots=True)
class Script:
    """A walkthrough, ready to be written.

    Args:
        machine: name of the machine.
        maker: who makes it.
        standing: which book and day it holds for, and what the machine is on that day.
        build: name of the build that is shown, or empty.
        stance: how the machine stands, or empty for the usual way.
        audience: who listens.
        rate: words a minute.
        planning_aid: the line that stands on everything about service work.
        tour: what the tour costs, in words.
        parts: the stations.
        closing: what is said at the end.
        kit: what has to be there, each with what it is for.
        numbers: numbers as they are written and as they are spoken.
        questions: the likeliest questions.
        left_out: what there was no time for.
    """

    machine: str
    maker: str
    standing: str
    build: str
    stance: str
    audience: str
    rate: float
    planning_aid: str
    tour: str
    parts: tuple[Part, ...]
    closing: tuple[Spoken, ...]
    kit: tuple[tuple[str, str], ...]
    numbers: tuple[tuple[str, str], ...]
    questions: tuple[Answered, ...]
    left_out: tuple[str, ...]

    @property
    def seconds(self) -> float:
        """How long it takes [s]."""
        return self.closing[-1].end

    @property
    def spoken(self) -> tuple[Spoken, ...]:
        """Everything that is said, in order."""
        return (*(each for part in self.parts for each in part.spoken), *self.closing)

    @property
    def head(self) -> tuple[tuple[str, str], ...]:
        """What stands above the text, by name."""
        found = (
            ("holds for", self.standing),
            ("build", self.build),
            ("stands", self.stance),
            ("for", self.audience),
            ("length", f"{clock(self.seconds)} at {self.rate:g} words a minute"),
            ("tour", self.tour),
            ("left out", ", ".join(self.left_out)),
            ("note", self.planning_aid),
        )
        return tuple((name, said) for name, said in found if said)


def clock(seconds: float) -> str:
    """Return a time as minutes and seconds.

    >>> clock(724.6)
    '12:05'
    """
    whole = round(seconds)
    return f"{whole // 60}:{whole % 60:02}"


CAUTION_SENTENCES = 3
"""A caution is its hazard, its consequence and its avoidance."""


def paragraphs(part: Part) -> tuple[tuple[SaidKind, tuple[Spoken, ...]], ...]:
    """Return what is said at a station in paragraphs: a run of one kind is one of them.

    A caution starts a paragraph of its own, so that no two cautions run into each other.
    """
    found: list[tuple[SaidKind, list[Spoken]]] = []
    for each in part.spoken:
        kind: SaidKind = "line" if each.kind == "talk" else each.kind
        signal = each.text.startswith(("Warning", "Caution", "Note"))
        full = bool(found) and len(found[-1][1]) >= CAUTION_SENTENCES
        begins = kind == "caution" and (signal or full)
        if not found or found[-1][0] != kind or begins:
            found.append((kind, []))
        found[-1][1].append(each)
    return tuple((kind, tuple(held)) for kind, held in found)

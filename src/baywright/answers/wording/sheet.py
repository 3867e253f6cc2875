"""The sheet: a verdict in sentences and numbers, ready for a terminal, a page or paper.

Nothing here knows how it will look. Every text is complete: numbers carry their unit, bounds
their condition, facts their source and date.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Quote:
    """A fact as it is quoted.

    Args:
        value: the value as written.
        path: where the fact stands in its book.
        source: title of the source with its date, or how the fact came about.
        where: file and line, or empty for a derived fact.
    """

    value: str
    path: str
    source: str
    where: str


@dataclass(frozen=True, slots=True)
class Ground:
    """A reason in words.

    Args:
        key: its identity.
        kind: ``law``, ``rule`` or ``asked``.
        sentence: what it says.
        total: the numbers where it bounds a total, or empty.
        quotes: the facts it stands on.
    """

    key: str
    kind: str
    sentence: str
    total: str = ""
    quotes: tuple[Quote, ...] = ()


@dataclass(frozen=True, slots=True)
class OtherGrounds:
    """A further set of reasons in words.

    Args:
        title: which of the sets it is.
        grounds: the reasons.
        needed: that each reason is needed.
    """

    title: str
    grounds: tuple[Ground, ...]
    needed: str


@dataclass(frozen=True, slots=True)
class Row:
    """A label and what it says."""

    label: str
    says: str


@dataclass(frozen=True, slots=True)
class Group:
    """Rows that belong together, under a title."""

    title: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Segment:
    """A part of a load line."""

    label: str
    amount: Fraction


@dataclass(frozen=True, slots=True)
class Load:
    """A load against its bound.

    Args:
        title: what is drawn, with its unit.
        segments: what it is made of, in watts; their sum is the load.
        bound: what may be drawn, in watts.
        bound_words: what sets the bound.
        sentence: load, bound and margin in words.
        margin: what is left or over.
    """

    title: str
    segments: tuple[Segment, ...]
    bound: Fraction
    bound_words: str
    sentence: str
    margin: str

    @property
    def used(self) -> Fraction:
        """The whole load, in watts."""
        return sum((segment.amount for segment in self.segments), Fraction(0))


@dataclass(frozen=True, slots=True)
class Fitted:
    """A build for reading.

    Args:
        title: what it shows.
        groups: what is where, by subsystem.
        figures: its numbers.
    """

    title: str
    groups: tuple[Group, ...]
    figures: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Turn:
    """One change in words."""

    what: str
    asked: str
    instead: str

    def __str__(self) -> str:
        if self.asked == "asked":
            return f"{self.what}: {self.instead}"
        return f"{self.what}: {self.asked} becomes {self.instead}"


@dataclass(frozen=True, slots=True)
class Near:
    """A nearest build.

    Args:
        count: how many changes, in words.
        turns: the changes.
        fitted: the build.
        load: its load line, where one is drawn.
        summary: its load and price, one or two sentences.
    """

    count: str
    turns: tuple[Turn, ...]
    fitted: Fitted
    load: Load | None
    summary: str


@dataclass(frozen=True, slots=True)
class Rows:
    """A table: what tells its rows apart, and the rows."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Outcome:
    """How it comes out in one case."""

    case: str
    sheet: Sheet


@dataclass(frozen=True, slots=True)
class Sheet:
    """A verdict in words.

    Args:
        word: the verdict, such as ``No`` or ``At most 16``.
        kind: the type of verdict, in small letters.
        sentence: what it says, one or two sentences.
        reading: what was understood, or empty.
        grounds_title: what the reasons are reasons for.
        grounds: the reasons.
        needed: that each reason is needed, or empty.
        others: further sets of reasons, smallest first.
        complete: whether these sets of reasons are all, or empty where one was asked for.
        structure: why places allow no more.
        nearest: the nearest builds.
        notes: more about it, by title: what was asked, limits with their margins.
        fitted: builds shown, each with its title.
        table: combinations found.
        outcomes: how it comes out in each case, when it is not decided.
        load: a load line.
        proof: who answered and who checked.
        standing: the book, the day, and what the machine is on it.
        aid: the line on planning aids, or empty where neither power nor site is involved.
    """

    word: str
    kind: str
    sentence: str
    reading: str = ""
    grounds_title: str = "Reasons"
    grounds: tuple[Ground, ...] = ()
    needed: str = ""
    others: tuple[OtherGrounds, ...] = ()
    complete: str = ""
    structure: tuple[Quote, ...] = ()
    nearest: tuple[Near, ...] = ()
    notes: tuple[Group, ...] = ()
    fitted: tuple[Fitted, ...] = ()
    table: Rows | None = None
    outcomes: tuple[Outcome, ...] = ()
    load: Load | None = None
    proof: str = ""
    standing: str = ""
    aid: str = ""

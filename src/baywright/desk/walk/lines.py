"""Lines: the sentences that can be said at a station, each with what it stands on."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal, TypeAlias

from baywright.answers.figures import amount
from baywright.answers.inquiry import StoppedError
from baywright.desk.opening import Opened
from baywright.desk.proofreading.judging import STATUS_KINDS
from baywright.desk.proofreading.proofreading import Proofreader
from baywright.desk.proofreading.proving import NotSayable
from baywright.facts.book import Book
from baywright.facts.citation import Citation
from baywright.units.printing import Rounding

DIMENSIONS: Mapping[str, str] = {
    "load": "power", "memory": "memory", "memory_speed": "transfer_rate",
    "raw_capacity": "capacity",
}  # fmt: skip
"""Dimension of the amounts that are asked for."""

Rank: TypeAlias = Literal["must", "should", "may"]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A sentence that may be true, to be proven before it is said.

    Args:
        station: id of its station.
        topic: what it is about; audiences weigh topics.
        says: the sentence, and others to say in its place where it is not proven.
        bundle: what has to be said together bears the same name here.
    """

    station: str
    topic: str
    says: tuple[str, ...]
    bundle: str = ""


@dataclass(frozen=True, slots=True)
class Line:
    """A sentence that is said, with what it stands on.

    Args:
        station: id of its station.
        topic: what it is about.
        says: the sentence.
        rank: must, should or may.
        weight: how much it is wanted beside others of its rank.
        reading: the sentence as an expression that was proven, or empty where a book tells it.
        facts: the facts it stands on, where it was not proven by an expression.
        bundle: lines of one bundle are said together or not at all.
    """

    station: str
    topic: str
    says: str
    rank: Rank = "may"
    weight: int = 1
    reading: str = ""
    facts: tuple[Citation, ...] = ()
    bundle: str = ""


@dataclass
class Subject:
    """An open book, asked for what can be said of it.

    Args:
        opened: the book, with day and site.
    """

    opened: Opened

    @property
    def book(self) -> Book:
        """Its facts, unknown ones with the first value they could have."""
        return self.opened.machine.book

    @cached_property
    def _proofreader(self) -> Proofreader:
        return Proofreader.of(self.opened)

    def proven(self, candidate: Candidate) -> Line | None:
        """Return the first sentence of a candidate that is proven, or ``None``."""
        for says in candidate.says:
            remark = self._proofreader.sentence(says)
            if remark.kind in ("true", STATUS_KINDS.get(self.opened.status.word)):
                return Line(
                    candidate.station, candidate.topic, says,
                    reading=remark.reading, bundle=candidate.bundle,
                )  # fmt: skip
        return None

    def possible(self, *terms: str) -> bool:
        """Say whether some legal build has all of some terms; what the book cannot have is not."""
        try:
            return self._proofreader.possible(terms)
        except NotSayable:
            return False

    def usual(self, term: str) -> bool:
        """Say whether some legal build has a term with each setting at its first value."""
        settings = self.book.settings.items()
        usual = [f'{name} == "{next(iter(each.values))}"' for name, each in settings]
        return self.possible(term, *usual)

    def most(self, number: str, *given: str) -> int:
        """Return the most that a number can be, rounded down; 0 where none is found."""
        return math.floor(self._extreme("most", number, given) or 0)

    def least(self, number: str, *given: str) -> int:
        """Return the least that a number can be, rounded up; 0 where none is found."""
        return math.ceil(self._extreme("least", number, given) or 0)

    def most_text(self, number: str, *given: str, rounding: Rounding = "down") -> str:
        """Return the most that an amount can be with its unit; empty where none is found."""
        value = self._extreme("most", number, given)
        return amount(value, self._dimension(number), rounding) if value is not None else ""

    def least_text(self, number: str, *given: str) -> str:
        """Return the least that an amount can be with its unit; empty where none is found."""
        value = self._extreme("least", number, given)
        return amount(value, self._dimension(number)) if value is not None else ""

    def _dimension(self, number: str) -> str:
        if number == "price":
            return f"money:{self.book.book.currency}"
        return DIMENSIONS[number]

    def _extreme(self, side: str, number: str, given: tuple[str, ...]) -> Fraction | None:
        """Return a bound that one engine finds; the sentence that says it is proven afterwards."""
        try:
            return self._proofreader.judge.prover.extreme(side, number, given)
        except (NotSayable, StoppedError):
            return None

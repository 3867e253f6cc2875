"""How claims of facts are put together from what a book states."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from baywright.facts.book import Book
from baywright.language.claims import Claim, FactClaim, Mode
from baywright.language.frames import Frame
from baywright.language.shapes.items import NoItem
from baywright.language.stated import (
    Stated,
    stated,
)
from baywright.language.things import Measure, Thing

Builder = Callable[["Statings", Frame, "re.Match[str]"], Sequence[Claim]]


VAGUE = frozenset({"~", "most", "least", "between"})
"""Comparisons that claim no one value of a fact."""

ROUNDED = frozenset({"load", "mass", "price"})
"""Numbers that people round, so that no build is said to have just that one."""


@dataclass(frozen=True)
class Statings:
    """Builds claims about what a book states.

    Args:
        book: the book.
    """

    book: Book

    def field(self, name: str, owner: Thing | None, frame: Frame, wanted: Measure) -> Claim:
        """Return the claim that a field has a value.

        Raises:
            NoItem: when the book states no such field, or the claim is vague.
        """
        found = stated(self.book, name, owner, frame.condition)
        return self.fact(name, found, wanted, frame, owner.many if owner else "")

    def fact(
        self, name: str, found: Sequence[Stated], wanted: Measure, frame: Frame, whose: str = ""
    ) -> Claim:
        """Return the claim that what is stated has a value."""
        if not found or wanted.op in VAGUE or not wanted.values:
            raise NoItem
        op = wanted.op or "=="
        held = FactClaim(name, tuple(found), op, wanted.values, wanted.unit, whose=whose)
        given = tuple(text for text in frame.given if not _line_only(text, name))
        condition = frame.condition
        if condition.altitude or (condition.inlet and not _at_life(found, condition.inlet)):
            raise NoItem
        if frame.sides or frame.at or (given and not all("processors" in t for t in given)):
            raise NoItem
        return Claim("fact", facts=(held,))


def _line_only(text: str, name: str) -> bool:
    """Say whether a condition names a line, for which a rating was looked up."""
    return name == "rating" and text.startswith(("line ==", "voltage =="))


def _at_life(found: Sequence[Stated], inlet: str) -> bool:
    """Say whether a temperature is the one that a life is stated for."""
    texts = [each.note for each in found]
    return bool(texts) and all(text == inlet for text in texts)


def measure_of(frame: Frame, match: re.Match[str], name: str) -> Measure:
    """Return the one measure of a piece of a clause.

    Raises:
        NoItem: when it has several, or denies that there is any.
    """
    measures = frame.pieces[match.start(name)].value
    if len(measures) != 1 or measures[0].quant == "no":
        raise NoItem
    found: Measure = measures[0]
    return found


def of_number(name: str, wanted: Measure, frame: Frame, *, can: bool) -> Claim:
    """Return the claim that a number of builds has a value."""
    if name == "memory" and wanted.unit == "MT/s":
        name = "memory_speed"
    if wanted.op in ("~", "most", "least") or len(wanted.values) != 1 or frame.condition.state:
        raise NoItem
    altitude, inlet = frame.condition.altitude, frame.condition.inlet
    measure = Measure(Thing("number", name, "", ""), wanted.op, wanted.values, wanted.unit)
    if wanted.op in ("<=", ">=", "up"):
        mode: Mode = "least" if wanted.op == ">=" else "most"
        return Claim(
            mode, given=frame.given, number=name, value=wanted.values[0], unit=wanted.unit,
            measures=(measure,), altitude=altitude, inlet=inlet,
        )  # fmt: skip
    mode = "can" if can else "always"
    if name in ROUNDED and wanted.op in ("", "=="):
        if not can:
            raise NoItem
        measure = replace(measure, op=">=")
    return Claim(
        mode, measure.alternatives, frame.given, measures=(measure,), altitude=altitude, inlet=inlet
    )

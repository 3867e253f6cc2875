"""How claims about builds are put together from lists and conditions."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.facts.book import Book
from baywright.language.claims import Claim, Mode
from baywright.language.frames import Frame
from baywright.language.pieces import Piece
from baywright.language.shapes.items import (
    Item,
    Items,
    NoItem,
    condition_text,
    limit_value,
    number_of,
    open_scope,
)
from baywright.language.shapes.models import as_delivered
from baywright.language.things import Condition, Measure

LIST = r"[TANPcW](?:[&|][TANPcW])*"


Builder = Callable[["Builds", Frame, "re.Match[str]"], Sequence[Claim]]


@dataclass(frozen=True)
class Builds:
    """Builds claims about builds from clauses.

    Args:
        book: the book.
    """

    book: Book

    @property
    def items(self) -> Items:
        """What lists claim."""
        return Items(self.book)

    def claims(self, mode: Mode, items: Sequence[Item], frame: Frame, *, either: bool = False,
               given: Sequence[str] = ()) -> list[Claim]:  # fmt: skip
        """Return the claims of a list.

        Args:
            mode: can, always or never.
            items: the items.
            frame: the clause.
            either: whether each item is claimed alone, as in a list with or.
            given: further conditions.
        """
        condition = frame.condition
        _all_used(frame, items)
        if condition.state:
            items = [_filled(item) for item in items]
        taken = (*given, *frame.given)
        whole = Claim(
            mode,
            given=as_delivered(self.book, taken) if mode == "always" else taken,
            altitude=condition.altitude,
            inlet=condition.inlet,
            open_scope=any(i.measure and open_scope(self.book, i.measure) for i in items),
            absent=any(i.measure and i.measure.thing.absent for i in items),
            measures=tuple(i.measure for i in items if i.measure),
        )
        if self._reaches_outside(whole):
            raise NoItem
        if condition.only:
            return self._only(whole, items)
        found = self._claims(whole, items, either=either)
        if any(_two_settings(claim) for claim in found):
            raise NoItem
        return found

    def _reaches_outside(self, claim: Claim) -> bool:
        """Say whether drives are counted with a controller whose drives are outside."""
        outside = [n for n, p in self.book.parts.items() if getattr(p, "external", None)]
        drives = any(measure.thing.name == "drive" for measure in claim.measures)
        return drives and any(f'"{name}"' in text for name in outside for text in claim.given)

    def _claims(self, whole: Claim, items: Sequence[Item], *, either: bool) -> list[Claim]:
        if any(item.limit for item in items):
            return [_limit(whole, item) for item in items]
        if len(items) == 1 and items[0].apart and whole.mode != "always":
            return [replace(whole, terms=(term,)) for term in items[0].apart]
        if any(item.denied for item in items):
            return [replace(whole, mode="never", terms=item.terms) for item in items]
        many = any(len(item.terms) > 1 for item in items)
        if either or (many and len(items) == 1 and whole.mode != "always"):
            return [replace(whole, terms=(term,)) for item in items for term in item.terms]
        terms = tuple(
            f"({' or '.join(item.terms)})" if len(item.terms) > 1 else item.terms[0]
            for item in items
        )
        return [replace(whole, terms=terms)]

    def _only(self, whole: Claim, items: Sequence[Item]) -> list[Claim]:
        """Return what only under a condition means: wherever it is so, the condition holds."""
        if len(whole.given) != 1 or any(i.limit or i.denied or len(i.terms) > 1 for i in items):
            raise NoItem
        return [
            replace(whole, mode="always", given=item.terms, terms=whole.given) for item in items
        ]


def _two_settings(claim: Claim) -> bool:
    """Say whether a claim gives one setting two values: they are alternatives, then."""
    said = [text for text in (*claim.terms, *claim.given) if _SETTING.fullmatch(text)]
    return len({text.partition(" == ")[0] for text in said}) < len(set(said))


_SETTING = re.compile(r'[a-z]\w+ == "[^"]*"')


FILLED = frozenset({"memory", "drive", "processor", "accelerator", "card", "cores", "bays",
                    "raw_capacity", "controller", "supply", "fan"})  # fmt: skip
"""What a machine that is fully populated has as much of as there can be."""


def _filled(item: Item) -> Item:
    """Return what a machine that is fully populated has as the most there is."""
    measure = item.measure
    if measure is None or len(measure.values) != 1 or measure.thing.name not in FILLED:
        raise NoItem
    if item.denied or item.limit == "least":
        raise NoItem
    return replace(item, limit="most")


def _all_used(frame: Frame, items: Sequence[Item]) -> None:
    """See that everything that stands apart from a list is part of what is claimed.

    Raises:
        NoItem: when a date, a state, a side or a place goes with nothing in the
            list.
    """
    things = [item.measure.thing for item in items if item.measure is not None]
    if frame.dates or frame.condition.state not in ("", "loaded"):
        raise NoItem
    if frame.sides and not any(t.sort == "port" or t.name == "drive" for t in things):
        raise NoItem
    if frame.at and not any(thing.sort == "parts" for thing in things):
        raise NoItem


def _limit(whole: Claim, item: Item) -> Claim:
    """Return a limit as the extreme it claims."""
    if not item.limit:
        return replace(whole, terms=item.terms)
    if item.measure is None or len(item.measure.values) != 1:
        raise NoItem
    measure = item.measure
    value, unit = limit_value(measure)
    number = number_of(measure)
    mode: Mode = "most" if item.limit == "most" else "least"
    return replace(whole, mode=mode, number=number, value=value, unit=unit, terms=item.terms)


def pieces_of(frame: Frame, match: re.Match[str], name: str) -> tuple[Piece, ...]:
    """Return the pieces that a group of a pattern stands for."""
    return frame.pieces[match.start(name) : match.end(name)]


def subject_given(frame: Frame, match: re.Match[str]) -> tuple[str, ...]:
    """Return what a subject such as the fixed-drive variant or a model takes as given."""
    pieces = pieces_of(frame, match, "subject") if match["subject"] else ()
    return tuple(condition_text(piece) for piece in pieces if piece.letter in "WOc")


def denied(
    builds: Builds, items: Sequence[Item], frame: Frame, given: Sequence[str]
) -> Sequence[Claim]:
    """Return what is denied: there is no such build; not fewer than is a least."""
    if any(item.denied or item.limit for item in items):
        raise NoItem
    found = builds.claims("never", items, frame, given=given)
    return [replace(_least_of(claim), unsure=len(claim.terms) > 1) for claim in found]


def _least_of(claim: Claim) -> Claim:
    """Return never fewer than a number as the least, never more than as the most."""
    if len(claim.measures) != 1 or claim.measures[0].op not in ("<", ">"):
        return claim
    measure = claim.measures[0]
    value, unit = limit_value(measure)
    mode: Mode = "least" if measure.op == "<" else "most"
    return replace(claim, mode=mode, number=number_of(measure), value=value, unit=unit, terms=())


def subject_items(builds: Builds, frame: Frame, match: re.Match[str]) -> tuple[str, ...]:
    """Return what a subject such as one controller takes as given: just that many.

    Raises:
        NoItem: when it is no number of parts, or its drives are outside.
    """
    piece = frame.pieces[match.start("subject")]
    if piece.letter == "c":
        return (condition_text(piece),)
    found: list[str] = []
    for measure in piece.value:
        part = builds.book.parts.get(measure.thing.part)
        if part is not None and getattr(part, "external", None):
            raise NoItem
        if measure.thing.sort != "parts" or measure.op or measure.thing.absent:
            raise NoItem
        if measure.plural and not measure.values:
            found.append(measure.expression(None))
        else:
            found.append(
                Measure(measure.thing, "==", measure.values or (Fraction(1),)).alternatives[0]
            )
    return tuple(found)


def sited(claim: Claim, condition: Condition) -> Claim:
    """Return a claim with the site of a condition."""
    return replace(claim, altitude=condition.altitude, inlet=condition.inlet)


def builds_mode(frame: Frame) -> str:
    """Return what is said of which builds: always, can or never; empty where none are named."""
    return next((str(p.value) for p in frame.pieces if p.letter == "E"), "")

"""Clauses about builds whose pieces stand in no usual order.

A clause is read so where no pattern fits it. What counts is which pieces it has, not where they
stand: a verb, what it speaks of, at most one denial and at most one place. A clause with any piece
besides these is not read.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from baywright.language.claims import Claim, Mode
from baywright.language.frames import Frame
from baywright.language.named_places import how_of
from baywright.language.pieces import Piece
from baywright.language.shapes.building import Builds, denied
from baywright.language.shapes.builds import ABLE
from baywright.language.shapes.items import Item, NoItem
from baywright.language.things import Measure

_SAYING = frozenset("MmunKHBDZ&")
"""Letters of pieces that say how what is spoken of is meant."""

_SPOKEN_OF = frozenset("TAcW")
_VERBS = frozenset("KHBDZ")

_HOLDS = {
    "zone": frozenset({"drive", "cage", "display"}),
    "slot": frozenset({"accelerator", "card", "controller", "network", "display"}),
    "mount": frozenset({"pack"}),
    "bank": frozenset({"memory"}),
    "media": frozenset({"media"}),
}
"""What can be in a place by its type; what a place is only said to go with is not placed there."""


def unordered(builds: Builds, frame: Frame) -> Sequence[Claim]:
    """Return what a clause claims whatever the order of its pieces.

    Raises:
        NoItem: when it has pieces that this does not read.
    """
    letters = frame.letters
    spoken = [piece for piece in frame.pieces if piece.letter in _SPOKEN_OF]
    if not _readable(letters) or not spoken or frame.condition.only:
        raise NoItem
    held = _placed(builds, frame, spoken)
    mode = _mode(frame)
    items = [item for piece in spoken for item in _items(builds, piece, held, len(spoken))]
    if mode == "always" and len(items) > 1:
        raise NoItem
    if "n" in letters:
        return _denied(builds, mode, items, held)
    return _claimed(builds, mode, items, held)


def _readable(letters: str) -> bool:
    allowed = _SAYING | _SPOKEN_OF | {"P"}
    verbs = [letter for letter in letters if letter in _VERBS or letter == "m"]
    once = letters.count("n") <= 1 and letters.count("P") <= 1 and len(verbs) <= 4
    return bool(verbs) and set(letters) <= allowed and once


def _mode(frame: Frame) -> Mode:
    letters = frame.letters
    if "u" in letters:
        if "n" in letters or "m" in letters:
            raise NoItem
        return "always"
    able = "m" in letters or "K" in letters or "D" in letters
    fit = any(p.letter == "Z" and p.text.casefold() in ABLE for p in frame.pieces)
    return "can" if able or fit else "always"


def _placed(builds: Builds, frame: Frame, spoken: Sequence[Piece]) -> Frame:
    """Return a clause with the one place it names as the place of the one thing in it."""
    places = [piece for piece in frame.pieces if piece.letter == "P"]
    if not places:
        return frame
    free = [m for p in spoken if p.letter == "T" for m in p.value if not m.thing.at]
    if frame.at or len(free) != 1 or free[0].thing.sort != "parts":
        raise NoItem
    types = {builds.book.places[name].type for name in places[0].value}
    if any(free[0].thing.name not in _HOLDS.get(each, ()) for each in types):
        raise NoItem
    return replace(frame, at=places[0].value)


def _items(builds: Builds, piece: Piece, frame: Frame, spoken: int) -> Iterator[Item]:
    """Yield what a piece claims; of several things, one in the singular is just one."""
    if how_of(frame.at) == "any":
        raise NoItem
    if piece.letter == "T" and any(not _plain(measure) for measure in piece.value):
        raise NoItem
    if piece.letter != "T" or spoken == 1:
        yield from builds.items.of((piece,), frame)
        return
    single = tuple(_one(measure) for measure in piece.value)
    yield from builds.items.of((replace(piece, value=single),), frame)


def _plain(measure: Measure) -> bool:
    """Say whether a measure has no quantifier that says more than its number."""
    return measure.quant in ("", "both") and measure.thing.sort in ("parts", "number")


def _one(measure: Measure) -> Measure:
    bare = measure.thing.sort == "parts" and not (measure.values or measure.plural or measure.op)
    return replace(measure, values=(Fraction(1),), op="==") if bare else measure


def _denied(builds: Builds, mode: Mode, items: Sequence[Item], frame: Frame) -> Sequence[Claim]:
    if mode != "can" or len(items) != 1:
        raise NoItem
    return denied(builds, items, frame, ())


def _claimed(builds: Builds, mode: Mode, items: Sequence[Item], frame: Frame) -> Sequence[Claim]:
    """Return the claims; where one item is a limit, the others are what it is given."""
    if any(item.denied or len(item.terms) > 1 for item in items):
        raise NoItem
    limits = [item for item in items if _is_limit(item)]
    if len(limits) > 1 or (limits and mode == "always"):
        raise NoItem
    if not limits:
        found = builds.claims(mode, items, frame)
        return [replace(claim, unsure=_vague(claim, frame)) for claim in found]
    given = tuple(item.terms[0] for item in items if item is not limits[0])
    return builds.claims("can", limits, frame, given=given)


def _is_limit(item: Item) -> bool:
    return bool(item.limit) or (item.measure is not None and item.measure.op in ("up", "<", ">"))


def _vague(claim: Claim, frame: Frame) -> bool:
    """Say whether what can be may be meant of every build: without can and without a number."""
    return "m" not in frame.letters and not any(measure.values for measure in claim.measures)

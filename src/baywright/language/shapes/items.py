"""What the items of a list claim of a build."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.places import Zone
from baywright.language.conditions import given_of
from baywright.language.frames import Frame
from baywright.language.named_places import groups_of, how_of
from baywright.language.nouns import ANYTHING
from baywright.language.pieces import Piece
from baywright.language.things import Measure, Thing, written

RANGE = "range"
"""How an end of a range is marked, in place of a quantifier."""

LIMITS = {"<=": "most", ">=": "least"}


@dataclass(frozen=True, slots=True)
class Item:
    """One item of a list.

    Args:
        terms: the alternatives it claims, as expressions.
        measure: what is counted, if it is a count.
        limit: ``most`` or ``least`` where it claims an extreme.
        denied: whether it is said to be absent.
        apart: the same of each of several places, where no number is claimed of all of them.
    """

    terms: tuple[str, ...]
    measure: Measure | None = None
    limit: str = ""
    denied: bool = False
    apart: tuple[str, ...] = ()


class NoItem(Exception):  # noqa: N818 - a shape that does not fit, not an error
    """A piece claims nothing of a build."""


@dataclass(frozen=True)
class Items:
    """Turns the pieces of a list into claims.

    Args:
        book: the book.
    """

    book: Book

    def of(self, pieces: Sequence[Piece], frame: Frame) -> tuple[Item, ...]:
        """Return the items of a list.

        Raises:
            NoItem: when a piece claims nothing of a build.
        """
        listed = [piece for piece in pieces if piece.letter not in "&|Zq"]
        return tuple(item for piece in listed for item in self._of_piece(piece, frame))

    def _of_piece(self, piece: Piece, frame: Frame) -> Iterator[Item]:
        if piece.letter == "P":
            yield from (Item((f"{place} != empty",)) for place in piece.value)
        elif piece.letter in "cW":
            yield Item((condition_text(piece),))
        elif piece.letter in "TAN":
            yield from self._of_measures(piece.value, frame)
        else:
            raise NoItem

    def _of_measures(self, measures: Sequence[Measure], frame: Frame) -> Iterator[Item]:
        located = [self.located(measure, frame) for measure in measures]
        items = [self.item(each) for measure in located for each in _ends(measure)]
        if len(items) > 1 and not any(item.limit or item.denied for item in items):
            yield Item(tuple(term for item in items for term in item.terms), items[0].measure)
        else:
            yield from items

    def located(self, measure: Measure, frame: Frame) -> Measure:
        """Return a measure with the places and sides that stand apart from it.

        Raises:
            NoItem: when they do not go with it.
        """
        thing = measure.thing
        if thing.sort == "parts" and frame.at and not thing.at:
            thing = thing.placed(frame.at)
        elif thing.name == "drive" and frame.sides and not thing.at:
            thing = thing.placed(self._zones_seen(frame.sides))
        elif thing.sort == "port" and frame.sides is not None and not thing.sides:
            thing = replace(thing, sides=frame.sides)
        if frame.condition.per and thing.sort in ("parts", "number"):
            thing = self._per(thing, frame.condition.per)
        return replace(measure, thing=thing)

    def _zones_seen(self, sides: Sequence[str]) -> tuple[str, ...]:
        """Return the zones whose drives are on some sides of the machine.

        Raises:
            NoItem: when there are none.
        """
        zones = self.book.places_of(Zone)
        found = [n for n, zone in zones.items() for o in zone.at if o.view in sides]
        if not found:
            raise NoItem
        return tuple(dict.fromkeys(found))

    def _per(self, thing: Thing, per: str) -> Thing:
        """Return modules or memory per processor as those of the first bank."""
        banks = [name for name, place in self.book.places.items() if place.type == "bank"]
        if per == "processor" and thing.name == "memory" and banks:
            if thing.sort == "parts":
                return thing.placed((banks[0],))
            return replace(thing, name=f"total(size, memory, at={banks[0]})")
        raise NoItem

    def item(self, measure: Measure) -> Item:
        """Return what a measure claims.

        Raises:
            NoItem: when it claims nothing of a build.
        """
        thing = measure.thing
        if thing is ANYTHING:
            said = given_of(measure)
            if not said:
                raise NoItem
            return Item((said,), _named(measure), LIMITS.get(measure.op, ""))
        if _uncountable(measure) or self._made_of_several(measure):
            raise NoItem
        if measure.quant == "both":
            measure = replace(measure, values=(Fraction(2),), quant="")
        op = "<=" if measure.quant == "only" else measure.op
        denied = measure.quant == "no"
        terms = Measure(thing, "==" if denied else measure.op, measure.values, measure.unit)
        if denied:
            return Item((_some(thing, measure),), measure, denied=True)
        if thing.at and not (measure.values and not how_of(thing.at)):
            return _spread(replace(measure, thing=thing), op)
        return Item(terms.alternatives, measure, LIMITS.get(op, "") if measure.values else "")

    def _made_of_several(self, measure: Measure) -> bool:
        """Say whether a number may count the media of a part that has several: two boot drives."""
        media = getattr(self.book.parts.get(measure.thing.part), "media", None)
        several = media is not None and media.known > 1
        return several and any(value > 1 for value in measure.values)


def _uncountable(measure: Measure) -> bool:
    """Say whether a measure is vague, or counts nothing of a build."""
    thing = measure.thing
    if measure.op in ("~", "between", "most", "least"):
        return True
    if not thing.expression or thing.generation or thing.rate:
        return True
    if measure.values:
        return False
    return measure.quant in ("every", "only") or (thing.sort == "number" and bool(thing.dimension))


def _ends(measure: Measure) -> tuple[Measure, ...]:
    """Return a range as its two ends, the least and the most there is."""
    if measure.op != "between":
        return (measure,)
    if len(measure.values) != 2 or measure.values[0] >= measure.values[1]:
        raise NoItem
    low, high = measure.values
    ranged = replace(measure, quant=RANGE)
    least, most = (replace(ranged, op=op, values=(v,)) for op, v in ((">=", low), ("<=", high)))
    return (most,) if not low else (least, most)


def _spread(measure: Measure, op: str) -> Item:
    """Return what is claimed of several places: without a number of each, or of any one of them."""
    thing = measure.thing
    apart = [replace(measure, thing=thing.placed(group)) for group in groups_of(thing.at)]
    if how_of(thing.at) != "any":
        terms = [each.alternatives[0] for each in apart]
        return Item((" and ".join(terms),), measure, apart=tuple(terms))
    if op in LIMITS and measure.values:
        raise NoItem
    terms = [term for each in apart for term in each.alternatives]
    return Item((" or ".join(terms),), measure)


def _named(measure: Measure) -> Measure:
    """Return an amount alone with what it is of, where more than it has to be looked for."""
    if measure.op != "up":
        return measure
    return replace(measure, thing=replace(measure.thing, name=number_of(measure)))


def number_of(measure: Measure) -> str:
    """Return the number a measure speaks of; an amount alone is memory, or its rate."""
    return measure.thing.expression or ("memory_speed" if measure.unit == "MT/s" else "memory")


def _some(thing: Thing, measure: Measure) -> str:
    """Return what a phrase with no denies: any at all, or any beyond a number."""
    return Measure(thing, measure.op, measure.values, measure.unit).alternatives[0]


def condition_text(piece: Piece) -> str:
    """Return a setting or a condition as an expression."""
    if piece.letter == "W":
        key, _, value = piece.value.partition("=")
        return f'{key} == "{value}"'
    if piece.letter == "O":
        return f'from_model("{piece.value}")'
    return str(piece.value)


def mixed(book: Book, kind: str) -> str:
    """Return the expression for parts of a kind that are not all the same."""
    names = [name for name, part in book.parts.items() if part.kind == kind]
    pairs = itertools.combinations(names, 2)
    both = [f'(count("{a}") >= 1 and count("{b}") >= 1)' for a, b in pairs]
    return " or ".join(both)


def open_scope(book: Book, measure: Measure) -> bool:
    """Say whether ports are counted without a side though they are on several."""
    thing = measure.thing
    if thing.sort != "port" or thing.sides:
        return False
    ports = [*book.chassis.ports, *(port for part in book.parts.values() for port in part.ports)]
    return len({str(port.scope) for port in ports if port.type == thing.name}) > 1


def limit_value(measure: Measure) -> tuple[Fraction, str]:
    """Return the number of a limit with its unit."""
    return measure.values[0], measure.unit


__all__ = [
    "RANGE",
    "Item",
    "Items",
    "NoItem",
    "condition_text",
    "limit_value",
    "mixed",
    "number_of",
    "open_scope",
    "written",
]

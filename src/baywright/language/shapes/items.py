"""What the items of a list claim of a build."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.facts.book import Book
from baywright.language.conditions import given_of
from baywright.language.frames import Frame
from baywright.language.nouns import ANYTHING
from baywright.language.pieces import Piece
from baywright.language.things import Measure, Thing, written

LIMITS = {"<=": "most", ">=": "least"}


@dataclass(frozen=True, slots=True)
class Item:
    """One item of a list.

    Args:
        terms: the alternatives it claims, as expressions.
        measure: what is counted, if it is a count.
        limit: ``most`` or ``least`` where it claims an extreme.
        denied: whether it is said to be absent.
    """

    terms: tuple[str, ...]
    measure: Measure | None = None
    limit: str = ""
    denied: bool = False


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
        items = [self.item(self.located(measure, frame)) for measure in measures]
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
        elif thing.sort == "port" and frame.sides is not None and not thing.sides:
            thing = replace(thing, sides=frame.sides)
        if thing.sort == "parts" and frame.condition.per:
            thing = self._per(thing, frame.condition.per)
        return replace(measure, thing=thing)

    def _per(self, thing: Thing, per: str) -> Thing:
        """Return modules per processor as those of the first bank."""
        banks = [name for name, place in self.book.places.items() if place.type == "bank"]
        if per == "processor" and thing.name == "memory" and banks:
            return thing.placed((banks[0],))
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
            return Item((said,), measure, LIMITS.get(measure.op, ""))
        if measure.op == "~" or not thing.expression or thing.generation or thing.rate:
            raise NoItem
        if measure.quant == "every" and not measure.values:
            raise NoItem
        if measure.op in ("most", "least"):
            raise NoItem
        if thing.sort == "number" and not measure.values and thing.dimension:
            raise NoItem
        if measure.quant == "both":
            measure = replace(measure, values=(Fraction(2),), quant="")
        if measure.quant == "only" and not measure.values:
            raise NoItem
        op = "<=" if measure.quant == "only" else measure.op
        denied = measure.quant == "no"
        terms = Measure(thing, "==" if denied else measure.op, measure.values, measure.unit)
        if denied:
            return Item((_some(thing, measure),), measure, denied=True)
        return Item(terms.alternatives, measure, LIMITS.get(op, "") if measure.values else "")


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
    "Item",
    "Items",
    "NoItem",
    "condition_text",
    "limit_value",
    "mixed",
    "open_scope",
    "written",
]

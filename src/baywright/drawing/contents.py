"""What a build has in each place, position by position."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

from baywright.facts.book import Book
from baywright.facts.build import Build, Fitted, Item
from baywright.facts.parts import Cage
from baywright.facts.parts.base import Card
from baywright.facts.places import AnyPlace, Bank, Slot, Zone


class State(Enum):
    """What is said of a place, or of a position in it."""

    FITTED = "fitted"
    OPEN = "open"
    EMPTY = "empty"
    BLANK = "blank"
    TAKEN = "taken"


@dataclass(frozen=True, slots=True)
class Unit:
    """One position.

    Args:
        id: id of the place, or of the place with the name of the position.
        label: name of the position, as written on a drawing; empty where the place is one.
        state: whether it is filled.
        part: id of what is in it, or empty.
    """

    id: str
    label: str
    state: State
    part: str = ""


@dataclass(frozen=True, slots=True)
class Content:
    """What a place has.

    Args:
        place: id of the place.
        state: whether anything is in it; ``TAKEN`` by a wide card next to it.
        items: the parts in it with their numbers, the cage included.
        units: its positions; a zone without a cage is one.
        controller: the slot whose controller drives it, or empty.
        by: the place whose card takes its room, or empty.
        over: parts stated for it that no position is left for.
    """

    place: str
    state: State
    items: tuple[Item, ...]
    units: tuple[Unit, ...]
    controller: str = ""
    by: str = ""
    over: tuple[str, ...] = ()


def contents(book: Book, build: Build | None) -> dict[str, Content]:
    """Return what each place has, in the order of the book.

    A place of which the build says nothing is open, unless something is always there.

    Args:
        book: the facts.
        build: the build, or ``None`` for the machine with nothing decided.
    """
    told = build.places if build is not None else {}
    found = {
        name: _content(book, name, place, told.get(name)) for name, place in book.places.items()
    }
    return {**found, **dict(_neighbours(book, found))}


def _content(book: Book, name: str, place: AnyPlace, fitted: Fitted | None) -> Content:
    always = getattr(place, "always", None)
    bare = State.BLANK if place.blank is not None else State.EMPTY
    items: tuple[Item, ...] = (Item(str(always), 1),) if always is not None else ()
    if fitted is not None:
        items = fitted.items
    row = _row(book, place, items, bare if fitted is not None else State.OPEN)
    state = State.FITTED if items else row.bare
    controller = str(fitted.controller or "") if fitted is not None else ""
    return Content(name, state, items, row.units(name), controller, over=row.over)


@dataclass(frozen=True, slots=True)
class _Row:
    """The positions of a place: their names, the order they are filled in, and what fills them."""

    labels: tuple[str, ...]
    order: tuple[str, ...]
    parts: tuple[str, ...]
    bare: State

    @property
    def over(self) -> tuple[str, ...]:
        return self.parts[len(self.labels) :]

    def units(self, name: str) -> tuple[Unit, ...]:
        filled = dict(zip(self.order, self.parts, strict=False))
        alone = len(self.labels) == 1
        return tuple(
            Unit(
                name if alone else f"{name}.{label}",
                "" if alone else label,
                State.FITTED if label in filled else self.bare,
                filled.get(label, ""),
            )
            for label in self.labels
        )


def _row(book: Book, place: AnyPlace, items: tuple[Item, ...], bare: State) -> _Row:
    parts = tuple(str(item.part) for item in items for _ in range(item.count))
    if isinstance(place, Zone):
        return _zone_row(book, parts, bare)
    if isinstance(place, Bank):
        sockets = [(c, s) for c in range(place.channels.known) for s in range(_sockets(place))]
        labels = tuple(_socket(*each) for each in sockets)
        # Each channel gets one module before any gets a second.
        order = tuple(_socket(*each) for each in sorted(sockets, key=lambda each: each[::-1]))
        return _Row(labels, order, parts, bare)
    positions = getattr(place, "positions", None)
    numbers = tuple(str(i + 1) for i in range(positions.known if positions is not None else 1))
    return _Row(numbers, numbers, parts, bare)


def _zone_row(book: Book, parts: tuple[str, ...], bare: State) -> _Row:
    """Return the bays of the cage in a zone, or the zone as one where it has none."""
    cages = [name for name in parts if isinstance(book.parts.get(name), Cage)]
    cage = book.parts.get(cages[0]) if cages else None
    if not isinstance(cage, Cage):
        return _Row(("1",), ("1",), parts, bare)
    bays = tuple(str(i + 1) for i in range(cage.bays.known))
    inside = State.BLANK if cage.blank is not None else State.EMPTY
    if bare is State.OPEN:
        inside = bare
    return _Row(bays, bays, tuple(part for part in parts if part not in cages[:1]), inside)


def _sockets(bank: Bank) -> int:
    return bank.per_channel.known


def _socket(channel: int, socket: int) -> str:
    letters = "abcdefghijklmnopqrstuvwxyz"
    first = letters[channel // 26 - 1] if channel >= 26 else ""
    return f"{first}{letters[channel % 26]}{socket + 1}"


def _neighbours(book: Book, found: Mapping[str, Content]) -> Iterator[tuple[str, Content]]:
    """Yield the places whose room the wide card of a neighbour takes."""
    for name, place in book.places_of(Slot).items():
        beside = str(place.neighbour or "")
        if beside in found and _is_wide(book, found[name]) and not found[beside].items:
            unit = Unit(beside, "", State.TAKEN)
            yield beside, Content(beside, State.TAKEN, (), (unit,), by=name)


def _is_wide(book: Book, content: Content) -> bool:
    parts = [book.parts.get(str(item.part)) for item in content.items]
    return any(
        isinstance(part, Card) and part.slots is not None and (part.slots.value or 1) > 1
        for part in parts
    )

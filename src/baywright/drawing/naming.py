"""What places and parts are called on a drawing: in full, shorter, and by their ids."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.drawing.contents import Content, State, Unit
from baywright.facts.book import Book
from baywright.facts.parts import Cage, Drive, MemoryModule

WORDS = {
    State.FITTED: "fitted",
    State.OPEN: "open",
    State.EMPTY: "empty",
    State.BLANK: "blank",
    State.TAKEN: "taken",
}


def part_name(book: Book, part: str) -> str:
    """Return the name of a part, or its id where the book has no such part."""
    return str(book.parts[part].name) if part in book.parts else part


def short_name(book: Book, part: str) -> str:
    """Return what tells a part from its like: a capacity or size, or else its id."""
    held = book.parts.get(part)
    if isinstance(held, Drive):
        return held.capacity.text
    if isinstance(held, MemoryModule):
        return held.size.text
    return part


def place_name(book: Book, place: str) -> str:
    """Return the name of a place."""
    return str(book.places[place].name)


def named_with_id(book: Book, place: str) -> str:
    """Return the name of a place with its id, unless the name has it already."""
    name = place_name(book, place)
    return name if place in name.split() else f"{place} {name}"


def says(book: Book, content: Content) -> str:
    """Return what a place holds, in words."""
    if content.state is State.TAKEN:
        return f"taken by the card in {place_name(book, content.by)}"
    if not content.items:
        return {State.BLANK: "closed with a blank"}.get(content.state, WORDS[content.state])
    return "; ".join(_pieces(book, content))


def _pieces(book: Book, content: Content) -> Iterator[str]:
    for item in content.items:
        name = part_name(book, item.part)
        alone = item.count == 1 and not isinstance(book.parts.get(item.part), Drive)
        yield name if alone else f"{item.count} × {name}"
    left = [unit for unit in content.units if unit.state is not State.FITTED]
    if left and len(content.units) > 1:
        yield f"{len(left)} {WORDS[left[0].state]}"
    if content.controller:
        slot = content.controller
        yield f"driven from {place_name(book, slot) if slot in book.places else slot}"


def unit_words(book: Book, place: str, unit: Unit) -> str:
    """Return one position in words."""
    where = place_name(book, place)
    if unit.label:
        where = f"{where}, {_noun(book, place)} {unit.label}"
    held = part_name(book, unit.part) if unit.part else WORDS[unit.state]
    return f"{where}: {held}"


def _noun(book: Book, place: str) -> str:
    return {"zone": "bay", "bank": "socket"}.get(book.places[place].type, "position")


def place_letters(book: Book, content: Content) -> tuple[tuple[str, ...], ...]:
    """Return what may be written in a place that is one position, the fullest first."""
    place, name = content.place, place_name(book, content.place)
    parts = [str(item.part) for item in content.items]
    if not parts:
        word = WORDS[content.state]
        return ((name, word), (place, word), (f"{place} {word}",), (place,))
    full = ", ".join(part_name(book, part) for part in parts)
    short = ", ".join(short_name(book, part) for part in parts)
    return ((name, full), (name, short), (place, full), (place, short), (place,))


def unit_letters(book: Book, unit: Unit) -> tuple[tuple[str, ...], ...]:
    """Return what may be written in one of several positions, the fullest first."""
    if not unit.part:
        return ((WORDS[unit.state],),)
    return ((part_name(book, unit.part),), (short_name(book, unit.part),))


def cage_name(book: Book, content: Content) -> str:
    """Return the id of the cage in a zone, or nothing."""
    cages = [i.part for i in content.items if isinstance(book.parts.get(i.part), Cage)]
    return cages[0] if cages else ""

"""From labels of a record to places of a book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from baywright.facts.book import Book
from baywright.facts.naming import matches
from baywright.facts.places import AnyPlace
from baywright.facts.record import Entry

KINDS: Mapping[str, tuple[str, ...]] = {
    "socket": ("processor",),
    "bank": ("memory",),
    "zone": ("module", "drive"),
    "slot": ("controller", "accelerator", "network", "device", "slot"),
    "supplies": ("supply",),
    "fans": ("fan",),
    "mount": ("pack", "module"),
    "position": ("module", "drive", "device", "controller"),
}
"""Kinds of entry that can be in each type of place."""

_ALONE = ("supplies", "fans")
"""Types of place that need no label where the book has one of them."""


@dataclass(frozen=True, slots=True)
class Located:
    """Where an entry is.

    Args:
        places: ids of the places its label fits; one where it is certain.
        label: the label that decided, or empty where the book has no other place for it.
    """

    places: tuple[str, ...]
    label: str


def locate(book: Book, entry: Entry) -> Located:
    """Find the place of an entry by the first of its labels that fits any."""
    takers = {name: place for name, place in book.places.items() if entry.kind in KINDS[place.type]}
    for label in entry.locators:
        fitting = tuple(name for name, place in takers.items() if _fits(book, name, place, label))
        if fitting:
            return Located(fitting, label)
    alone = [name for name, place in takers.items() if place.type in _ALONE]
    return Located(tuple(alone) if len(alone) == 1 else (), "")


def _fits(book: Book, name: str, place: AnyPlace, label: str) -> bool:
    return any(matches(pattern, label) for pattern in _patterns(book, name, place))


def _patterns(book: Book, name: str, place: AnyPlace) -> Iterator[str]:
    """Yield the labels of a place: those the book gives, else its id and its name."""
    if name in book.record.places:
        yield from book.record.places[name].locators
        return
    for word in (name, place.name):
        yield word
        yield f"{word} *"

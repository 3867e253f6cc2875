"""Blanks: the parts that close empty bays and places, which follow from the rest of a build.

Nobody chooses them, so they are no choices of the space; what a parts list needs is counted here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from baywright.facts.book import Book
from baywright.facts.parts import Cage
from baywright.laws.machine import Machine
from baywright.space import Assignment


def blank_parts(book: Book) -> frozenset[str]:
    """Return the ids of the parts that close something empty."""
    cages = (part.blank for part in book.parts.values() if isinstance(part, Cage))
    places = (place.blank for place in book.places.values())
    return frozenset(str(blank) for blank in (*cages, *places) if blank is not None)


def blanks(machine: Machine, assignment: Assignment) -> dict[str, int]:
    """Return how many of each blank a complete build needs."""
    found: Counter[str] = Counter()
    for place in machine.book.places:
        for blank, number in _at(machine, place, assignment):
            found[blank] += number
    return {name: found[name] for name in machine.book.parts if found[name]}


def _at(machine: Machine, place: str, assignment: Assignment) -> Iterator[tuple[str, int]]:
    """Yield the blanks of a place: of the place itself, and of the empty bays of its cage."""
    frame, held = machine.frame, machine.book.places[place]
    fitted = [
        (machine.book.parts[name], count)
        for choice in frame.at(place)
        for name, count in frame.options(choice)[assignment[choice]].parts
    ]
    cages = [part for part, _ in fitted if isinstance(part, Cage)]
    pieces = sum(count for part, count in fitted if not isinstance(part, Cage))
    for cage in cages:
        if cage.blank is not None:
            yield str(cage.blank), cage.bays.known - pieces
    if held.blank is not None and not cages:
        positions = getattr(held, "positions", None)
        yield str(held.blank), max(0, (positions.known if positions else 1) - pieces)

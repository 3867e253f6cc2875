"""Blanks: the parts that close empty bays and places, which follow from the rest of a build.

Nobody chooses them, so they are no choices of the space; what a parts list needs is counted here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.parts import Cage, Drive
from baywright.laws.frame import Option
from baywright.laws.linear import Linear
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


def blank_totals(machine: Machine) -> dict[str, Linear]:
    """Return how many of each blank a legal build needs, as a total over its choices.

    A zone whose cages are closed by different blanks is left out: what its drives leave empty is
    no total there. ``blanks`` counts it all the same.
    """
    found: dict[str, Linear] = {}
    for place in machine.book.places:
        for blank, total in _totals_at(machine, place):
            found[blank] = found.get(blank, Linear()).plus(total)
    return found


def _totals_at(machine: Machine, place: str) -> Iterator[tuple[str, Linear]]:
    held, choices = machine.book.places[place], machine.frame.at(place)
    options = {choice: machine.frame.options(choice) for choice in choices}
    cages = [cage for each in options.values() for o in each for cage in _cages(machine, o)]
    # A cage that always comes filled leaves no bay empty.
    closing = {cage.blank for cage in cages if cage.filled is None or not cage.filled.known}
    if len(closing) == 1:
        bays = {
            choice: tuple(Fraction(_bays_left(machine, option)) for option in each)
            for choice, each in options.items()
        }
        yield from ((str(blank), Linear(bays)) for blank in closing if blank is not None)
    if held.blank is not None:
        positions = getattr(held, "positions", None)
        most = positions.known if positions else 1
        filling = choices[0]
        empty = tuple(
            Fraction(0 if _cages(machine, option) else max(0, most - option.count))
            for option in options[filling]
        )
        yield str(held.blank), Linear({filling: empty})


def _cages(machine: Machine, option: Option) -> list[Cage]:
    parts = (machine.book.parts[name] for name, _ in option.parts)
    return [part for part in parts if isinstance(part, Cage)]


def _bays_left(machine: Machine, option: Option) -> int:
    """Return the bays that an option brings to its zone, less those that it fills."""
    cages = _cages(machine, option)
    if cages:
        return cages[0].bays.known
    drives = (number for name, number in option.parts if _is_drive(machine, name))
    return -sum(drives)


def _is_drive(machine: Machine, part: str) -> bool:
    return isinstance(machine.book.parts[part], Drive)

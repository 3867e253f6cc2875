"""Positions and settings: boot media, media bays, and choices that fit no part."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from baywright.facts.book import Book
from baywright.facts.places import Position
from baywright.laws.frame import Fitting, Frame, Option, alternatives, numbered, structure
from baywright.laws.subsystem import Subsystem
from baywright.laws.wording import listed
from baywright.space import Law


def _choices(book: Book) -> Iterator[Fitting]:
    for name, place in book.places_of(Position).items():
        most = place.positions.known if place.positions is not None else 1
        parts = book.taken(place.takes)
        why = structure(book, name, f"{place.name} has room for {most}.", place.positions)
        options = alternatives(parts) if most == 1 else numbered(parts, most)
        yield Fitting(name, name, options, why)
    for name, setting in book.settings.items():
        options = tuple(Option(value, value=value) for value in setting.values)
        sentence = f"{setting.name} is {listed(setting.values, 'or')}."
        yield Fitting(name, name, options, structure(book, name, sentence))


def _laws(frame: Frame) -> Iterable[Law]:
    for name, place in frame.book.places_of(Position).items():
        if place.always is not None:
            origin = frame.law(
                f"positions.always/{name}", f"{place.name} always holds {place.always}."
            )
            yield from frame.table(
                origin, (name,), lambda option, kept=place.always: option.part == kept
            )


SUBSYSTEM = Subsystem("positions", _choices, _laws)

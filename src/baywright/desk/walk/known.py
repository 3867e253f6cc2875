"""Sentences of walkthroughs that can be known again: told by the book, of positions, of talk."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.desk.opening import Opened
from baywright.desk.walk.positions import POSITIONS, outlines_of, position_sentence
from baywright.desk.walk.stations import PORTS, stations
from baywright.desk.walk.talk import talk_of
from baywright.drawing.orientation import Stance, stances
from baywright.language.told.registry import told_by
from baywright.language.told.telling import Told, key_of


def told_of(opened: Opened) -> tuple[Told, ...]:
    """Return what an open book tells; sentences about facts nobody has stated are left out."""
    told = told_by(opened.machine.book)
    return tuple(
        each for each in told if not any(fact.path in opened.unknown for fact in each.facts)
    )


def known_sentences(opened: Opened) -> Mapping[tuple[str, ...], Told]:
    """Return every sentence that is known word for word, by what is the same in all its forms."""
    return {key_of(told.says): told for told in _known(opened)}


def _known(opened: Opened) -> Iterator[Told]:
    book = opened.machine.book
    for says in talk_of(book):
        yield Told("talk", says)
    for name in (str(place.name) for place in book.places.values()):
        yield Told("talk", name)
    for words in (*POSITIONS, *PORTS.values(), "interlock"):
        yield Told("talk", words)
    for station in stations(book):
        cited = outlines_of(book, station)
        for stance in (*stances(book).values(), Stance()):
            for again in (False, True):
                says = position_sentence(book, station, stance, again=again)
                if says:
                    yield Told("where", says, cited)
    if opened.status.note:
        about = book.book
        yield Told("status", opened.status.note, book.cite(about.announced, about.ships))
    yield from told_of(opened)

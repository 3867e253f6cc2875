"""What is done between stations, and the cautions that come before it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from baywright.desk.walk.lines import Line
from baywright.desk.walk.stations import Station, covers
from baywright.facts.book import Book
from baywright.facts.cautions import CAUTIONS
from baywright.facts.parts import Part
from baywright.facts.places import AnyPlace, Bank, Fans, Mount, Socket, Supplies
from baywright.language.told.of_rules import caution_sentences
from baywright.language.told.registry import told_by
from baywright.language.told.telling import Told
from baywright.language.word_forms import stem, stems

POWER_OFF = "Stop the system in good order, and pull every cord."
"""What is done before anything that is not done while the machine runs."""

USUAL: Mapping[str, tuple[str, ...]] = {
    "processor": ("static", "hot-surface"), "memory": ("static",), "fan": ("moving-fan",),
    "pack": ("stored-energy",), "supply": ("stored-energy",), "accelerator": ("hot-surface",),
    "boot": ("static",), "controller": ("static",),
}  # fmt: skip
"""Cautions of work on a kind of part, where a book names none of its own."""

_KINDS: Sequence[tuple[type[AnyPlace], str]] = (
    (Socket, "processor"),
    (Bank, "memory"),
    (Fans, "fan"),
    (Mount, "pack"),
    (Supplies, "supply"),
)


@dataclass(frozen=True, slots=True)
class Act:
    """Something that is done on camera.

    Args:
        kind: ``turn`` or ``cover``.
        what: the side that is turned to, or the cover that comes off.
        before: the cautions said before it.
        says: what is said while it is done.
    """

    kind: str
    what: str
    before: tuple[Line, ...]
    says: str


def cover_acts(book: Book, station: Station, off: int) -> Iterator[Act]:
    """Yield the taking off of covers before a station.

    Args:
        book: the book.
        station: the station that asks for it.
        off: how many covers are off already.
    """
    for at in range(off, station.off):
        name = covers(book)[at]
        before = tuple(
            Line(station.key, "caution", says, "must", facts=told.facts)
            for told in _cautions_of(book, at, name)
            for says in [told.says]
        )
        yield Act("cover", name, before, cover_said(at, name))


def cover_said(at: int, name: str) -> str:
    """Return what is said when a cover comes off.

    Args:
        at: its place in the order; the first are the cords.
        name: its name.
    """
    if at == 0:
        return POWER_OFF
    verb = "open" if name in ("cover", "lid") else "take out"
    return f"Now {verb} the {name}."


def turn_said(side: str) -> str:
    """Return what is said when one turns to another side."""
    return {
        "front": "Back to the front.",
        "rear": "Let us go to the rear.",
        "inside": "Let us look inside.",
    }[side]


def _cautions_of(book: Book, at: int, name: str) -> Iterator[Told]:
    """Yield what has to be said before a cover comes off."""
    if at == 0:
        yield from _sentences("several-cords")
        return
    words = set(stems(name))
    for told in told_by(book):
        if told.topic == "cover" and at == 1:
            yield told
        if told.topic == "interlock" and told.says.startswith("Caution") and _names(told, words):
            yield told
    if at == 1:
        yield from _sentences("no-airflow")
    for kind, cautions in USUAL.items():
        if stem(kind) in words and book.parts_of(kind):
            for each in cautions:
                yield from _sentences(each)


def _names(told: Told, words: set[str]) -> bool:
    """Say whether an interlock is about a cover: all its words stand in what is done."""
    done = told.says.rpartition(" when ")[2] or told.says
    done = told.says.rpartition(" after ")[2] if " after " in told.says else done
    return words <= set(stems(done))


def station_cautions(book: Book, station: Station) -> Iterator[Line]:
    """Yield what has to be said before anything of a station is touched."""
    for kind in _kinds(book, station):
        work = book.service.work.get(kind)
        for name in tuple(map(str, work.cautions)) if work is not None else USUAL.get(kind, ()):
            for told in _sentences(name):
                yield Line(station.key, f"caution {name}", told.says, "must", facts=told.facts)
    if station.key == "supplies":
        for told in _sentences("redundancy"):
            yield Line(station.key, "caution redundancy", told.says, "must")
    if station.side == "inside":
        for told in told_by(book):
            thing = told.topic.partition(" ")[2]
            if told.topic.startswith("wait") and _belongs(thing, station):
                yield Line(station.key, "caution", told.says, "must", facts=told.facts)


def _belongs(thing: str, station: Station) -> bool:
    """Say whether a wait is one before work at a station; heat sinks are on processors."""
    words = set(stems(thing)) | ({"processor"} if "sink" in thing else set())
    return bool(words & set(stems(station.title)))


def _kinds(book: Book, station: Station) -> list[str]:
    found = []
    for name in station.places:
        place = book.places[name]
        found += [kind for model, kind in _KINDS if isinstance(place, model)]
        if station.side == "inside" and not found:
            found += [part.kind for part in _taken(book, place)]
    return list(dict.fromkeys(found))


def _taken(book: Book, place: AnyPlace) -> list[Part]:
    takes = getattr(place, "takes", None)
    return list(book.taken(list(takes)).values()) if takes else []


def _sentences(name: str) -> Iterator[Told]:
    caution = CAUTIONS.get(name)
    for says in caution_sentences(caution) if caution else ():
        yield Told(f"caution {name}", says)

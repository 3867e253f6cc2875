"""What a build has in its places, as lines that show it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace

from baywright.desk.walk.lines import Candidate, Line, Subject
from baywright.desk.walk.stations import stations
from baywright.facts.book import Book
from baywright.facts.build import Build
from baywright.facts.parts import MemoryModule, Part
from baywright.facts.places import Fans
from baywright.language.told.telling import few


def build_lines(subject: Subject, build: Build) -> Iterator[Line]:
    """Yield a line that must be said for what is in the places of a build.

    Parts of one kind at one station are counted together; drives are told zone by zone.
    """
    held = stations(subject.book)
    home = {name: station.key for station in reversed(held) for name in station.places}
    for station, says in _said(subject.book, build, home):
        shorter = f"{says.partition(' with ')[0].rstrip('.')}."
        line = subject.proven(Candidate(station, "build", (says, shorter)))
        if line is not None:
            yield replace(line, rank="must")


def _said(book: Book, build: Build, home: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    together: Counter[tuple[str, str]] = Counter()
    for name, fitted in build.places.items():
        place, station = book.places.get(name), home.get(name, "machine")
        if place is None or isinstance(place, Fans):
            continue
        for item in fitted.items:
            part = book.parts.get(str(item.part))
            if part is None or part.kind in UNTOLD:
                continue
            if part.kind == "drive":
                yield station, f"Here we fit {counted(part, item.count)} in {place.name}."
            else:
                together[station, str(item.part)] += item.count
    for (station, part_id), count in together.items():
        yield station, f"Here we fit {counted(book.parts[part_id], count)}."


UNTOLD = ("cage", "blank", "kit")
"""Kinds of part that are not told by themselves."""


def counted(part: Part, count: int) -> str:
    """Return a number of a part as it is said, such as ``32 modules of 64 GB``."""
    if count == 1:
        return f"{'an' if part.name[0] in 'aeio' else 'a'} {part.name}"
    if isinstance(part, MemoryModule):
        return f"{few(count)} modules of {part.size.text}"
    noun, of, rest = part.name.partition(" with ")
    many = f"{noun[:-1]}ies" if noun.endswith("y") else f"{noun}s"
    return f"{few(count)} {many}{of}{rest}"

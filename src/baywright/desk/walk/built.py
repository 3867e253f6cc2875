"""What a build has in its places, as lines that show it."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.walk.lines import Candidate, Line, Subject
from baywright.desk.walk.stations import stations
from baywright.facts.build import Build, Item
from baywright.facts.places import Bank, Fans, Socket
from baywright.language.told.telling import few


def build_lines(subject: Subject, build: Build) -> Iterator[Line]:
    """Yield a line for what is in each place; processors and memory are counted together."""
    held = stations(subject.book)
    home = {name: station.key for station in reversed(held) for name in station.places}
    for station, says in _said(subject, build, home):
        line = subject.proven(Candidate(station, "build", (says,)))
        if line is not None:
            yield line


def _said(subject: Subject, build: Build, home: dict[str, str]) -> Iterator[tuple[str, str]]:
    book = subject.book
    together: dict[tuple[str, str], int] = {}
    for name, fitted in build.places.items():
        place, station = book.places.get(name), home.get(name, "machine")
        if place is None or isinstance(place, Fans):
            continue
        for item in _items(fitted):
            part = book.parts.get(str(item.part))
            if part is None or part.kind in ("cage", "blank", "kit"):
                continue
            if isinstance(place, Socket | Bank):
                key = (station, str(item.part))
                together[key] = together.get(key, 0) + item.count
            elif part.kind == "drive":
                number = few(item.count)
                yield (
                    station,
                    f"Here we fit {number} {_many(part.name, item.count)} in {place.name}.",
                )
            else:
                yield station, f"Here we fit {_some(part.name, item.count)}."
    for (station, part_id), count in together.items():
        yield station, f"Here we fit {_some(book.parts[part_id].name, count)}."


def _items(fitted: object) -> tuple[Item, ...]:
    return tuple(getattr(fitted, "items", ()))


def _some(name: str, count: int) -> str:
    article = "an" if name[0] in "aeio" else "a"
    return f"{article} {name}" if count == 1 else f"{few(count)} {_many(name, count)}"


def _many(name: str, count: int) -> str:
    if count == 1:
        return name
    return f"{name[:-1]}ies" if name.endswith("y") else f"{name}s"

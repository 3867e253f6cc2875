"""Headings of a table and the fields they stand for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from baywright.desk.capture.targets import ID, Leaf, Target, leaves
from baywright.facts.book import Book
from baywright.problems import nearest
from baywright.units import dimension_of

SAME: Mapping[str, tuple[str, ...]] = {
    ID: ("part", "part number", "part no", "model", "model number", "item", "number", "place",
        "label"),
    "name": ("description", "designation", "title"),
    "mass": ("weight",),
    "price": ("list price", "cost", "unit price", "list"),
    "power": ("watts", "wattage", "peak power", "peak", "draw", "operating power max",
        "power max", "max power", "maximum power", "power peak"),
    "idle": ("idle power",),
    "typical": ("typical power",),
    "tdp": ("thermal design power",),
    "cores": ("core count",),
    "size": ("module size",),
    "flow": ("airflow", "air flow"),
    "failure rate": ("annual failure rate", "yearly failure rate"),
    "ships": ("ships from", "available from"),
    "last order": ("last order date",),
    "note": ("remark", "remarks", "comment", "comments", "notes"),
    "scope": ("side",),
    "count": ("quantity", "number of ports"),
    "owner": ("processor socket",),
    "per channel": ("sockets per channel",),
    "rating": ("rated power", "output"),
}  # fmt: skip
"""Other words of the trade for fields: common practice, no source."""

_UNIT = (
    re.compile(r"(?P<words>.+?)\s*[(\[]\s*(?:in\s+)?(?P<unit>[^()\[\]]+?)\s*[)\]]"),
    re.compile(r"(?P<words>.+?)\s*[,/:]\s*(?P<unit>\S+)"),
    re.compile(r"(?P<words>.+?)\s+(?:in\s+)?(?P<unit>\S+)"),
)
_REMARK = re.compile(r"(?P<words>.+?)[,\s]\s*(?P<unit>\S+)\s*[(\[](?P<remark>[^()\[\]]+)[)\]]")


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table.

    Args:
        at: its number, from 0.
        heading: what stands above it.
        path: the field it fills, ``id`` for the name of an entry, or nothing when not understood.
        unit: unit that its heading gives, or empty.
        why: why it fills nothing, with what to do.
    """

    at: int
    heading: str
    path: tuple[str, ...] = ()
    unit: str = ""
    why: str = ""


def columns(
    headings: Sequence[str], target: Target, book: Book, mapped: Mapping[str, str]
) -> tuple[Column, ...]:
    """Return the columns of a table.

    Args:
        headings: what stands above them.
        target: what the table is about.
        book: the book, whose lines of power and parts name some fields.
        mapped: fields by heading, as somebody said; an empty one leaves the column out.
    """
    words = _words(target, book)
    found: list[Column] = []
    for at, heading in enumerate(headings):
        column = _column(at, heading, words, mapped)
        twice = next((each for each in found if column.path and each.path == column.path), None)
        if twice is not None:
            why = f"{twice.heading!r} gives {'.'.join(column.path)} already."
            column = Column(at, heading, why=why)
        found.append(column)
    return tuple(found)


def known_headings(headings: Iterable[str], target: Target, book: Book) -> int:
    """Return how many headings are understood."""
    found = columns(list(headings), target, book, {})
    return sum(bool(column.path) for column in found)


def _column(
    at: int, heading: str, words: Mapping[str, tuple[str, ...]], mapped: Mapping[str, str]
) -> Column:
    if heading in mapped:
        path = mapped[heading]
        if not path:
            return Column(at, heading, why="left out as asked")
        unit = next((unit for _, unit in _readings(heading) if unit), "")
        found = words.get(_plain(path))
        return Column(at, heading, found or tuple(path.split(".")), unit)
    for said, unit in _readings(heading):
        path_of = words.get(_plain(said))
        if path_of:
            return Column(at, heading, path_of, unit)
    return Column(at, heading, why=_not_understood(heading, words))


def _readings(heading: str) -> Iterator[tuple[str, str]]:
    """Yield the ways to read a heading: as it is, and as words with a unit."""
    yield heading, ""
    for pattern in _UNIT:
        match = pattern.fullmatch(heading.strip())
        if match and (match["unit"] == "%" or dimension_of(match["unit"])):
            yield match["words"], match["unit"]
    match = _REMARK.fullmatch(heading.strip())
    if match and dimension_of(match["unit"]):
        yield f"{match['words']} {match['remark']}", match["unit"]
    yield re.sub(r"[()\[\]]", " ", heading), ""


def _not_understood(heading: str, words: Mapping[str, tuple[str, ...]]) -> str:
    if not heading:
        return "It has no heading."
    close = nearest(_plain(heading), words)
    meant = ".".join(words[close]) if close else "FIELD"
    return f"No field goes by that; --map {heading!r}={meant} says which, an empty one none."


def _words(target: Target, book: Book) -> dict[str, tuple[str, ...]]:
    """Return the fields of a target by each of the words they go by."""
    named = (ID, target.name, target.steps[0].removesuffix("s")) if target.keyed else ()
    found: dict[str, tuple[str, ...]] = {_plain(word): (ID,) for word in named}
    if target.tag:
        found[target.tag] = (target.tag,)
    for model in target.models.values():
        for leaf in leaves(model):
            for said, path in _spelled(leaf, book):
                found.setdefault(_plain(said), path)
    for meant, others in SAME.items():
        for said, path in list(found.items()):
            if said == meant or (len(path) > 1 and said.startswith(f"{meant} ")):
                for word in others:
                    found.setdefault(said.replace(meant, word, 1), path)
    return found


def _spelled(leaf: Leaf, book: Book) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield the ways to spell a field; some for each key where the book gives the keys."""
    if leaf.path[-1] != "*":
        yield " ".join(leaf.path), leaf.path
        return
    field = leaf.path[0]
    for said, key in _keys(field, book):
        yield f"{field} {said}", (field, key)
        yield f"{field.removesuffix('s')} {said}", (field, key)


def _keys(field: str, book: Book) -> Iterator[tuple[str, str]]:
    """Yield the keys a mapping of a part can have, as said and as written."""
    match field:
        case "ratings":
            for key, line in book.power.lines.items():
                yield from ((str(key), str(key)), (line.name, str(key)))
        case "efficiency":
            yield from ((f"{load} %", f"{load} %") for load in range(5, 101, 5))
        case "brings":
            yield from ((str(part), str(part)) for part in book.parts)
        case _:
            return


def _plain(text: str) -> str:
    """Return words as headings are compared: small letters, one space, no marks."""
    said = re.sub(r"[\s_.\-:*]+", " ", text.casefold()).strip()
    return re.sub(r"\s*%", " %", said)

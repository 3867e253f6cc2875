"""Attributes of parts as people say them, turned into conditions on their fields."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.parts import Part, Processor, Supply
from baywright.language.things import Thing, written
from baywright.units import Quantity, UnitError

FIELDS: dict[tuple[str, str], tuple[str, str]] = {
    ("drive", "capacity"): ("capacity", "capacity"),
    ("memory", "capacity"): ("size", "memory"),
    ("memory", "transfer_rate"): ("speed", "transfer_rate"),
    ("processor", "power"): ("tdp", "power"),
    ("accelerator", "power"): ("power", "power"),
    ("card", "power"): ("power", "power"),
    ("network", "data_rate"): ("speed", "data_rate"),
    ("fan", "flow"): ("flow", "flow"),
    ("supply", "power"): ("rating", "power"),
}
"""The field an amount before a kind of part speaks of, and its dimension."""

CARD_LENGTH = {"full": "312 mm", "half": "167 mm"}


def known_kind(book: Book, kind: str) -> bool:
    """Say whether the book has parts of a kind."""
    return any(part.kind == kind for part in book.parts.values())


def with_amount(book: Book, thing: Thing, number: Fraction, unit: str) -> Thing | None:
    """Return a thing with an amount as its attribute, or ``None`` when it has no such field."""
    if thing.sort == "port":
        return replace(thing, rate=(number, unit))
    try:
        dimension = Quantity(number, unit).dimension
    except UnitError:
        return None
    entry = FIELDS.get((thing.name, dimension))
    if thing.sort != "parts" or entry is None:
        return None
    wanted = Quantity(number, unit, entry[1])
    matching = [name for name in _parts(book, thing) if wanted in _values(book, name, entry[0])]
    condition = f"{entry[0]} == {written(number, unit)}"
    numbers = {v.magnitude for name in _parts(book, thing) for v in _values(book, name, entry[0])}
    slip = not matching and number in numbers
    return replace(_narrowed(thing, matching, condition), slip=slip)


def with_cores(book: Book, thing: Thing, cores: Fraction) -> Thing | None:
    """Return processors of a number of cores."""
    if thing.name != "processor":
        return None
    parts = {n: p for n, p in book.parts.items() if isinstance(p, Processor)}
    matching = [n for n in _parts(book, thing) if n in parts and parts[n].cores.value == cores]
    return _narrowed(thing, matching, f"cores == {written(cores, '')}")


def with_filter(book: Book, thing: Thing, text: str) -> Thing | None:
    """Return a thing with an attribute such as ``drive.interface=sas``."""
    if text == "any":
        return thing
    path, _, value = text.partition("=")
    kind, _, field = path.partition(".")
    if kind == "slots" and thing.name in ("slots", "accelerator", "card"):
        return replace(thing, filters=(*thing.filters, f'{field}="{value}"'))
    if kind != thing.name:
        return None
    if field == "state":
        if value == "data":
            return replace(thing, one=f"data {thing.one}", many=f"data {thing.many}")
        return thing if value == "hot" else None
    if field == "external":
        return _external(book, thing)
    if field == "slots":
        matching = [n for n in _parts(book, thing) if _slots(book.parts[n]) == int(value)]
        return _narrowed(thing, matching, f"slots == {value}")
    held = {str(getattr(book.parts[name], field, "")) for name in _parts(book, thing)}
    filters = (*thing.filters, f'{field}="{value}"')
    one, many = (f"{_adjective(value)} {noun}" for noun in (thing.one, thing.many))
    return replace(thing, filters=filters, absent=value not in held, one=one, many=many)


def _external(book: Book, thing: Thing) -> Thing | None:
    found = [n for n in _parts(book, thing) if getattr(book.parts[n], "external", None)]
    return _narrowed(thing, found, "") if found else None


def _adjective(value: str) -> str:
    return value.upper() if value in ("sas", "sata") else value


def _narrowed(thing: Thing, matching: list[str], condition: str) -> Thing:
    if len(matching) == 1:
        return replace(thing, part=matching[0], filters=())
    if not matching:
        return replace(thing, filters=(*thing.filters, condition), absent=True)
    return replace(thing, filters=(*thing.filters, condition))


def _parts(book: Book, thing: Thing) -> Iterator[str]:
    """Yield the ids of the parts a thing stands for so far."""
    for name, part in book.parts.items():
        if part.kind == thing.name and thing.part in ("", name) and _passes(part, thing.filters):
            yield name


def parts_of(book: Book, thing: Thing) -> tuple[str, ...]:
    """Return the ids of the parts a thing stands for."""
    return tuple(_parts(book, thing)) if thing.sort == "parts" else ()


def _passes(part: Part, filters: tuple[str, ...]) -> bool:
    for condition in filters:
        field, _, value = condition.partition("=")
        if value.startswith('"') and str(getattr(part, field, "")) != value.strip('"'):
            return False
    return True


def _values(book: Book, name: str, field: str) -> list[Quantity]:
    part = book.parts[name]
    if field == "rating":
        ratings = [fact.known for fact in part.ratings.values()] if isinstance(part, Supply) else []
        return [max(ratings)] if ratings else []
    value = _known(getattr(part, field, None))
    return [value] if isinstance(value, Quantity) else []


def _slots(part: Part) -> object:
    return _known(getattr(part, "slots", None)) or 1


def _known(value: object) -> object:
    return value.value if isinstance(value, Fact) else value

"""From what a record says of a part to the part of a book."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.naming import matches
from baywright.facts.parts import Controller, Drive, Part, Supply
from baywright.facts.record import Entry, Reading, Value
from baywright.laws.wording import listed
from baywright.units import Quantity

CAPACITY_TOLERANCE = Fraction(1, 100)
"""Share by which a drive may differ from the capacity it is sold by; common practice, no source."""

Says = Callable[[Book, Part, Value], bool | None]
"""Whether a part is as recorded, or ``None`` where the book does not say."""


@dataclass(frozen=True, slots=True)
class Match:
    """Which part an entry is.

    Args:
        part: id of the part, or ``None`` when it is not certain.
        could_be: the parts that are left.
        grounds: what decided, one short sentence.
    """

    part: str | None
    could_be: tuple[str, ...]
    grounds: str


def match(book: Book, entry: Entry, allowed: Iterable[str]) -> Match:
    """Find the part of an entry among those that its place takes.

    Each value recorded leaves out the parts that differ from it; a part of which the book does
    not say the value stays only where no other part agrees. A name decides between what is left.
    """
    left = list(allowed)
    if not left:
        return Match(None, (), f"its place takes no {entry.kind}")
    compared: list[str] = []
    for field, reading in entry.values.items():
        agrees = _COMPARISONS.get(field)
        if agrees is None or reading.value is None:
            continue
        said = {name: agrees(book, book.parts[name], reading.value) for name in left}
        fitting = [name for name in left if said[name]] or [
            name for name in left if said[name] is None
        ]
        if not fitting:
            return Match(None, (), f"nothing that fits there has {_told(field, reading)}")
        compared += [_told(field, reading)] if any(said.values()) else []
        left = fitting
    return _decided(book, entry, left, compared)


def _decided(book: Book, entry: Entry, left: list[str], compared: list[str]) -> Match:
    because = f"it has {listed(compared)}" if compared else ""
    named = [name for name in left if _is_named(book, name, entry)]
    if len(named) == 1 and (len(left) > 1 or not because):
        said = f"it goes by the name {entry.names[0]}"
        return Match(named[0], tuple(named), " and ".join(filter(None, (because, said))))
    if len(left) == 1:
        return Match(left[0], tuple(left), because or "no other part fits there")
    return Match(None, tuple(left), f"it could be {listed(left, 'or')}")


def _is_named(book: Book, name: str, entry: Entry) -> bool:
    """Say whether an entry goes by a name of a part."""
    given = book.record.parts.get(name)
    patterns = given.names if given else (name, book.parts[name].name)
    return any(matches(pattern, word) for pattern in patterns for word in entry.names)


def _told(field: str, reading: Reading) -> str:
    """Return a value as a sentence has it."""
    value = reading.value
    if isinstance(value, Quantity) and value.dimension == "capacity":
        return f"about {float(value.to('GB')):,.0f} GB"
    shown = listed(sorted(value), "or") if isinstance(value, frozenset) else str(value)
    return _PHRASES.get(field, "{}").format(shown)


_PHRASES = {
    "check_bits": "{} check bits",
    "cores": "{} cores",
    "generation": "generation {}",
    "holds": "drives of {}",
    "interface": "interface {}",
    "lanes": "{} lanes",
    "ports": "{} ports",
    "ranks": "a rank count of {}",
    "rating": "a rating of {}",
    "tdp": "{} TDP",
}


def _same(name: str) -> Says:
    """Compare with a field of the part for equality."""

    def says(book: Book, part: Part, value: Value) -> bool | None:
        own = _own(part, name)
        return None if own is None else bool(own == value)

    return says


def _own(part: Part, name: str) -> Any:  # noqa: ANN401 - a fact of any sort
    own = getattr(part, name, None)
    return own.value if isinstance(own, Fact) else own


def _near_capacity(book: Book, part: Part, value: Value) -> bool | None:
    own = _own(part, "capacity")
    if not isinstance(own, Quantity) or not isinstance(value, Quantity):
        return None
    return abs(value.canonical - own.canonical) <= CAPACITY_TOLERANCE * own.canonical


def _interface(book: Book, part: Part, value: Value) -> bool | None:
    return words_of(book, part.interface, value) if isinstance(part, Drive) else None


def _holds(book: Book, part: Part, value: Value) -> bool | None:
    if not isinstance(part, Controller) or not part.holds or not isinstance(value, frozenset):
        return None
    return any(words_of(book, each, word) for each in part.holds for word in value)


def words_of(book: Book, interface: str, value: Value) -> bool:
    """Say whether a word of a record stands for an interface of a book."""
    words = book.record.interfaces.get(interface, [interface])
    return isinstance(value, str) and any(matches(each, value) for each in words)


def _rating(book: Book, part: Part, value: Value) -> bool | None:
    if not isinstance(part, Supply):
        return None
    return any(rating.value == value for rating in part.ratings.values())


def _ports(book: Book, part: Part, value: Value) -> bool | None:
    counts = [port.count.value for port in part.ports if port.type == "network"]
    known = [count for count in counts if count is not None]
    return sum(known) == value if known and len(known) == len(counts) else None


_COMPARISONS: Mapping[str, Says] = {
    "capacity": _near_capacity,
    "check_bits": _same("check_bits"),
    "cores": _same("cores"),
    "generation": _same("generation"),
    "holds": _holds,
    "interface": _interface,
    "lanes": _same("lanes"),
    "ports": _ports,
    "power": _same("power"),
    "ranks": _same("ranks"),
    "rating": _rating,
    "size": _same("size"),
    "speed": _same("speed"),
    "tdp": _same("tdp"),
    "type": _same("type"),
}
"""How each value is compared; values of the moment, such as the speed now, tell no part."""

"""Exact amounts of what is always there, counted from a book."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from baywright.facts.book import Book
from baywright.facts.citation import Citation
from baywright.facts.fact import Fact
from baywright.facts.places import Bank, Fans, Slot, Socket, Supplies, Zone
from baywright.language.findings.grounds import Amounts, Exact
from baywright.language.word_forms import stems

PORT_NAMES = {"usb": "USB", "video": "video", "management": "management"}
SCOPES = {"front": "at the front", "rear": "at the rear", "inside": "inside"}


@dataclass(frozen=True, slots=True)
class _Amount:
    """An amount under the words for its thing."""

    words: tuple[str, ...]
    says: str
    facts: tuple[Citation, ...]


def amounts_of(book: Book) -> Amounts:
    """Return a function that tells the exact amount of what some words start with.

    Numbers of what is fitted by choice are left out; they are no amount of the machine.
    """
    known = {tuple(stems(" ".join(each.words))): each for each in _amounts(book)}

    def amount(words: Sequence[str]) -> Exact | None:
        held = stems(" ".join(words))
        for taken in range(len(words), 0, -1):
            found = known.get(tuple(held[:taken]))
            if found is not None:
                return Exact(found.says, taken, found.facts)
        return None

    return amount


def _amounts(book: Book) -> Iterator[_Amount]:
    banks = book.places_of(Bank).values()
    sockets = [(bank.channels, bank.per_channel) for bank in banks]
    if sockets and all(channels.value and each.value for channels, each in sockets):
        number = sum(channels.known * each.known for channels, each in sockets)
        facts = book.cite(*(fact for pair in sockets for fact in pair))
        for words in ("memory sockets", "memory slots", "module sockets", "DIMM sockets"):
            yield _Amount(tuple(words.split()), _counted(number, words), facts)
        channels = sum(channels.known for channels, _ in sockets)
        yield _Amount(("memory", "channels"), _counted(channels, "memory channels"), facts)
    yield from _counted_places(book)
    yield from _ports(book)


def _counted_places(book: Book) -> Iterator[_Amount]:
    slots = {name: slot for name, slot in book.places_of(Slot).items() if _is_for_cards(slot)}
    numbers: Mapping[tuple[str, ...], tuple[int, tuple[Fact[Any] | str | None, ...]]] = {
        ("processor sockets",): (len(book.places_of(Socket)), tuple(book.places_of(Socket))),
        ("slots", "card slots", "expansion slots"): (_positions(slots.values()), tuple(slots)),
        ("front zones", "zones", "drive zones"): (
            len(book.places_of(Zone)),
            tuple(book.places_of(Zone)),
        ),
        ("supply bays",): _bays(book.places_of(Supplies).values()),
        ("fan positions",): _bays(book.places_of(Fans).values()),
    }
    for names, (number, facts) in numbers.items():
        for name in names:
            if number:
                cited = book.cite(*facts)
                yield _Amount(tuple(name.split()), _counted(number, name), cited)


def _bays(places: Iterable[Supplies | Fans]) -> tuple[int, tuple[Fact[Any] | str | None, ...]]:
    facts = tuple(place.positions for place in places)
    return sum(fact.value or 0 for fact in facts), facts


def _is_for_cards(slot: Slot) -> bool:
    return "network" not in slot.takes and not slot.always


def _positions(slots: Iterable[Slot]) -> int:
    return sum((slot.positions.value or 1) if slot.positions else 1 for slot in slots)


def _ports(book: Book) -> Iterator[_Amount]:
    """Yield the ports that are always there, each with its scope: a total alone says little."""
    for port_type, name in PORT_NAMES.items():
        held = [port for port in book.chassis.ports if port.type == port_type]
        if not held or any(port.count.value is None for port in held):
            continue
        parts = [f"{port.count.known} {SCOPES.get(port.scope, port.scope)}" for port in held]
        total = sum(port.count.known for port in held)
        says = f"{_counted(total, f'{name} ports')} ({' and '.join(parts)})"
        facts = book.cite(*(port.count for port in held))
        yield _Amount((name, "ports"), says, facts)


def _counted(number: int, plural: str) -> str:
    return f"{number} {plural.removesuffix('s') if number == 1 else plural}"

"""Words for facts that stand in a book itself: steps, locks, tools, feeds, systems, machines."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.facts.book import Book
from baywright.facts.places import Socket, Supplies
from baywright.language.glossary import plural

Entry = tuple[str, str, str]
"""A phrase, the sort of term it is and its value."""

ROLES = {
    "predecessor": (
        "predecessor, forerunner, old machine, older machine, previous machine, precursor, "
        "previous generation"
    ),
    "successor": "successor, newer machine, follow up",
}
"""What the machine before and the one after are called."""

STEPS = {
    "cords": (
        "power cord, power cords, mains cords, cable, cables, power cables, mains leads, power "
        "cable, mains lead"
    ),
    "cover": "top cover, hood",
    "lid": "top lid",
    "board": "system board, main board, mainboard",
    "fan wall": "wall of fans, fan assembly, fans",
    "management": "management controller, management firmware, management processor",
    "air guide": "air duct, air baffle, baffle, guide",
    "accelerator guide": "guide, card guide",
}
"""Other words for steps of service that are general in the trade."""

ITEMS = {
    "supplies": "power supply, power supplies, PSU, PSUs, supply",
    "cords": "cord, power cord, power cords, power cables, mains cords",
    "remote power-off": (
        "remote off, remote switching off, switching off remotely, powering off remotely, remote "
        "power off, being switched off remotely, remote shutdown, powered off remotely, switched "
        "off remotely, remote switch off, switch it off remotely"
    ),
    "power button": "on button, on off button, power switch, button",
    "everything inside": (
        "inside, all inside, everything within, all that is inside, what is inside, all parts "
        "inside, the inside"
    ),
    "rear ports": "ports at the rear, rear port, ports on the rear, ports at the back",
    "drives": "drive, disks, drive bays",
    "front ports of the fault display": (
        "front ports, ports of the display, front port, ports at the front, display ports, ports "
        "of the fault display, USB ports at the front"
    ),
}
"""Other words for what locks cover and leave."""


def entries(book: Book, related: Mapping[str, Book]) -> Iterator[Entry]:
    """Yield the phrases that stand in the facts of a book.

    Args:
        book: the book.
        related: books of the machines it is compared with, by id.
    """
    yield from _machines(book, related)
    yield from _steps(book)
    yield from _locks(book)
    yield from _sockets(book)
    yield from _work(book)
    maker = book.book.maker
    for name in (maker, maker.split()[0]):
        yield from ((form, "stop", "") for form in (name, f"{name}'s"))
    for place in book.places_of(Supplies).values():
        yield from ((f"feed {feed}", "feed", feed) for feed in place.feeds)
    system = book.settings.get("system")
    for value in system.values.values() if system else ():
        yield value.known.rpartition(" ")[0] or value.known, "system", value.known


def _machines(book: Book, related: Mapping[str, Book]) -> Iterator[Entry]:
    for name, other in related.items():
        role = "predecessor" if book.book.predecessor == name else "successor"
        for phrase in (*ROLES[role].split(", "), other.book.id, other.book.name):
            yield phrase, "other", name


def _steps(book: Book) -> Iterator[Entry]:
    for fact in (*book.service.order, *book.firmware.update_order):
        step = fact.known
        one = step.removesuffix("s")
        for phrase in (step, one, plural(one), *_split(STEPS, step)):
            yield phrase, "step", step


def _locks(book: Book) -> Iterator[Entry]:
    for lock in book.locks.values():
        yield lock.name.known, "lock", ""
        for fact in (*lock.covers, *lock.leaves):
            yield from ((p, "item", fact.known) for p in (fact.known, *_split(ITEMS, fact.known)))


def _sockets(book: Book) -> Iterator[Entry]:
    words = ("first", "second", "third", "fourth")
    for at, name in enumerate(book.places_of(Socket)):
        for noun in ("processor", "CPU"):
            yield f"{noun} {at + 1}", "place", name
            if at < len(words):
                yield f"{words[at]} {noun}", "place", name


def _work(book: Book) -> Iterator[Entry]:
    for mark in book.service.marks:
        yield str(mark), "mark", str(mark)
    for wait in book.service.waits:
        yield from ((phrase, "wait_of", str(wait)) for phrase in (str(wait), plural(wait)))
    for work in book.service.work.values():
        for tool in work.tools:
            yield from ((p, "tool", tool.known) for p in (tool.known, plural(tool.known)))


def _split(table: Mapping[str, str], key: str) -> list[str]:
    return table[key].split(", ") if key in table else []

"""The most of everything, each proven, and what cannot be had together."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from baywright.desk.guide.writer import Writer, rows_of, shown
from baywright.desk.statements.query import Query
from baywright.desk.statements.statement import Statement
from baywright.desk.statements.values import figure_of
from baywright.facts.parts import Drive
from baywright.papers.document import Block, Column, Line, Run, Table
from baywright.problems import Problems
from baywright.units import DIMENSIONS
from baywright.units.printing import plain_number

COUNTED = {
    "controller": "storage controller",
    "accelerator": "accelerator",
    "network": "network module",
    "card": "card",
    "media": "removable-media unit",
    "pack": "energy pack",
    "display": "fault display",
}
"""Kinds of part of which one asks how many there can be, and what one is called."""


MOST_FILLINGS = 12
"""A place with more fillings than this is not named among what a maximum takes."""


@dataclass(frozen=True, slots=True)
class Item:
    """Something of which one asks the most.

    Args:
        one: what one of it is called, or what an amount of it is an amount of.
        expression: the number.
        amount: whether it is an amount and not a number of things.
        part: the part, where it is a single one.
    """

    one: str
    expression: str
    amount: bool = False
    part: str = ""

    @property
    def words(self) -> str:
        """What it is called in a table."""
        return self.one if self.amount else f"{self.one}s"

    def counted(self, shown: str) -> str:
        """Return the words that follow a number of it."""
        if self.amount:
            return f" of {self.one}"
        return f" {self.one}" if shown == "1" else f" {self.one}s"


@dataclass(frozen=True, slots=True)
class Maximum:
    """An item with its proven most.

    Args:
        item: the item.
        number: number of the statement.
        statement: the statement.
    """

    item: Item
    number: int
    statement: Statement

    @property
    def shown(self) -> str:
        """The most in words."""
        return shown(self.statement)

    @property
    def reached(self) -> str:
        """The condition that it is reached."""
        figure = figure_of(self.statement.value)
        unit = DIMENSIONS[figure.dimension].canonical if figure.dimension else ""
        return f"{self.item.expression} >= {plain_number(figure.value)} {unit}".rstrip()


def items(writer: Writer) -> Iterator[Item]:
    """Yield everything of which the most is told, in the order of the table."""
    book = writer.book
    yield Item("processor", "processors")
    yield Item("core", "cores")
    yield Item("memory", "memory", amount=True)
    yield Item("drive bay", "bays")
    yield Item("drive", "count(drive)")
    interfaces = interfaces_of(writer)
    if len(interfaces) > 1:
        for interface in interfaces:
            yield Item(f"{spoken(interface)} drive", f'count(drive, interface="{interface}")')
    yield Item("raw drive capacity", "raw_capacity", amount=True)
    for kind, words in COUNTED.items():
        parts = book.parts_of(kind)
        if parts:
            yield Item(words, f"count({kind})")
        if len(parts) > 1 and kind in ("accelerator", "controller", "card"):
            yield from (
                Item(str(p.name), f'count("{name}")', part=name) for name, p in parts.items()
            )
    for port in port_types(writer):
        yield Item(f"{PORTS.get(port, port)} port", f'ports("{port}")')


def interfaces_of(writer: Writer) -> list[str]:
    """Return the interfaces of the drives of the book."""
    drives = [part for part in writer.book.parts.values() if isinstance(part, Drive)]
    return list(dict.fromkeys(str(drive.interface) for drive in drives))


def spoken(interface: str) -> str:
    """Return an interface as it is written in a sentence.

    >>> spoken("sas"), spoken("fast")
    ('SAS', 'fast')
    """
    return interface.upper() if interface in ("sas", "sata") else interface


PORTS = {"usb": "USB", "video": "video", "network": "network", "management": "management"}


def port_types(writer: Writer) -> list[str]:
    """Return the types of port of the book."""
    book = writer.book
    ports = [*book.chassis.ports, *(port for part in book.parts.values() for port in part.ports)]
    return list(dict.fromkeys(str(port.type) for port in ports))


def most_of(writer: Writer, item: Item, given: str = "") -> Maximum | None:
    """Return the most of an item, or ``None`` where a book has no such number."""
    condition = f", given={given}" if given else ""
    query = Query("cell" if given else "bound", f"most({item.expression}{condition})")
    try:
        number, statement = writer.state(query)
    except Problems:
        return None
    return Maximum(item, number, statement) if statement.verdict == "most" else None


def maxima(writer: Writer) -> list[Maximum]:
    """Return the most of every item that is more than nothing."""
    found = [most_of(writer, item) for item in items(writer)]
    return [each for each in found if each is not None and each.statement.value["value"] != "0"]


def make(writer: Writer) -> Iterable[Block]:
    """Yield the table of maxima, with the sign at those that exclude each other."""
    found = maxima(writer)
    apart = list(_apart(writer, found))
    daggers = {each.item for pair in apart for each in pair}
    columns = (Column("item"), Column("at most", right=True), Column("then always"))
    rows = tuple(
        (
            _named(each.item),
            (Run(each.shown, "plain", each.number, dagger=each.item in daggers),),
            _forced(writer, each),
        )
        for each in found
    )
    notes = tuple(_notes(writer, apart))
    yield Table("Most at once, each proven by a complete build", columns, rows, notes)


def _apart(writer: Writer, found: Sequence[Maximum]) -> Iterator[tuple[Maximum, Maximum]]:
    """Yield pairs of maxima that no build reaches together."""
    for one, other in itertools.combinations(found, 2):
        if one.item.part or other.item.part:
            continue
        _, statement = writer.state(Query("cell", f"can({one.reached} and {other.reached})"))
        if statement.verdict == "no":
            yield one, other


def _notes(writer: Writer, apart: Sequence[tuple[Maximum, Maximum]]) -> Iterator[Line]:
    """Yield a line for each item with all that it excludes at its most."""
    if apart:
        yield (
            Run("† Not together.", "strong"),
            Run(" With the first at its most, of the other there is at most what stands here."),
        )
    for first, pairs in itertools.groupby(apart, key=lambda pair: pair[0]):
        runs = [Run(f"{first.shown}{first.item.counted(first.shown)}: ", "strong")]
        for at, (_, other) in enumerate(pairs):
            left = writer.cell(f"most({other.item.expression}, given={first.reached})")
            runs.append(Run(", " if at else ""))
            runs += _left(left, other.item)
        yield (*runs, Run("."))


def _named(item: Item) -> Line:
    return (
        (Run("of these "), Run(item.one, "strong")) if item.part else (Run(item.words, "strong"),)
    )


def _left(left: Run, item: Item) -> Line:
    if left.text == "0":
        return (Run("no ", "plain", left.statement), Run(item.one))
    return (Run("at most "), left, Run(item.counted(left.text)))


def _forced(writer: Writer, each: Maximum) -> Line:
    """Return what every build with a maximum has: places of the skeleton with one value left."""
    names = [name for name in writer.book.book.skeleton if _is_short(writer, name)]
    least = writer.cell(f"least({each.item.expression})")
    if not names or least.text == each.shown:
        return (Run("every build" if least.text == each.shown else "–", "plain", least.statement),)
    listed = ", ".join(names)
    _, everything = writer.state(Query("listing", listed))
    query = Query("listing", f"{listed}, given={each.reached}")
    number, there = writer.state(query)
    said = []
    for at, name in enumerate(names):
        before = {row[at] for row in rows_of(everything)}
        after = {row[at] for row in rows_of(there)}
        if len(after) == 1 < len(before):
            said.append(_place(writer, name, after.pop()))
    return (Run("; ".join(said) or "–", "plain", number),)


def _is_short(writer: Writer, name: str) -> bool:
    """Say whether a place has few enough fillings to be listed."""
    fittings = writer.opened.machine.frame.fittings
    return name not in fittings or len(fittings[name].options) <= MOST_FILLINGS


def _place(writer: Writer, name: str, label: str) -> str:
    if name == "processors":
        return f"{label} processor{'' if label == '1' else 's'}"
    place = writer.names.place(name)
    if label == "empty":
        return f"{place} empty"
    part = writer.book.parts.get(label)
    return f"{place}: {part.name if part else label}"

"""The parts list of a build: what is where, with watts, masses and prices, ready to be ordered.

Watts, masses and prices of the rows add up to the numbers of the build; blanks, which no law
counts, are rows beside them and are said.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from baywright.answers.as_json import Json, amount_json, verdict_json
from baywright.answers.figures import amount
from baywright.answers.verdicts import Verdict, Witness, Yes
from baywright.answers.wording import AID, Group, Names, Row, Rows, Sheet, Voice, told
from baywright.desk.judging import asks_redundancy, judge_build, setting_of, wishes_of_build
from baywright.desk.opening import Opened, open_book
from baywright.desk.request import Request
from baywright.desk.worlds import mattering
from baywright.exchange.lists.sheets import Cell, Column, PartsTable
from baywright.facts.book import Book
from baywright.facts.build import Build
from baywright.facts.fact import Fact
from baywright.facts.parts import Part, Processor, Supply
from baywright.files.books import read_build
from baywright.laws.blanks import blanks
from baywright.laws.machine import Machine
from baywright.laws.power import LINE, draw_of
from baywright.laws.wording import capitalised, counted, listed
from baywright.units import Quantity, show

POWER, MASS = "power", "mass"


@dataclass(frozen=True, slots=True)
class Listed:
    """A row of a parts list.

    Args:
        kind: kind of part, or ``machine``, ``setting``, ``cable`` or ``site``.
        part: id of the part, or empty.
        name: its name.
        count: how many, or ``None`` where nothing is counted.
        place: id of its place, or name of the setting.
        value: value of a setting or cable, or empty.
        watts: peak draw of one, or ``None`` where it is not stated.
        mass: mass of one in kilograms, or ``None`` where it is not stated.
        price: list price of one, or ``None`` where it is not stated.
    """

    kind: str
    part: str
    name: str
    count: int | None
    place: str = ""
    value: str = ""
    watts: Fraction | None = None
    mass: Fraction | None = None
    price: Fraction | None = None


@dataclass(frozen=True)
class PartsList:
    """The parts list of a build.

    Args:
        name: what the build is called.
        opened: the book.
        verdict: whether it can be built; only then there are rows.
        rows: its rows.
        decided: what the build left open and the list has nevertheless, by choice.
        redundant: whether the build asks for redundant supplies.
    """

    name: str
    opened: Opened
    verdict: Verdict
    rows: tuple[Listed, ...] = ()
    decided: tuple[str, ...] = ()
    redundant: bool = False

    @property
    def currency(self) -> str:
        """The dimension of its prices."""
        return f"money:{self.opened.book.book.currency}"

    def total(self, field: str) -> Fraction:
        """Return the total of ``watts``, ``mass`` or ``price``; what is not stated adds nothing."""
        held = ((row.count, getattr(row, field)) for row in self.rows)
        return sum((each * count for count, each in held if count and each), Fraction(0))

    def unstated(self, field: str) -> tuple[str, ...]:
        """Return the parts whose watts, mass or price nobody has stated."""
        rows = (row for row in self.rows if row.count and getattr(row, field) is None)
        return tuple(dict.fromkeys(row.part or row.name for row in rows))


def parts_list(book: str, path: Path, request: Request) -> PartsList:
    """Return the parts list of a build file.

    Args:
        book: the book.
        path: the build file.
        request: the day.

    Raises:
        Problems: for what is wrong with the build or the book.
    """
    build = read_build(path)
    opened = open_book(book, setting_of(build, request.setting()), request.panel())
    return list_of(opened, build)


def list_of(opened: Opened, build: Build) -> PartsList:
    """Return the parts list of a build on an open book; otherwise like ``parts_list``."""
    verdict = judge_build(opened, build, nearby=3).verdict
    if not isinstance(verdict, Yes):
        asked_for = asks_redundancy(build.must)
        return PartsList(build.name.known, opened, verdict, redundant=asked_for)
    machine = opened.machine
    asked = {choice for wish in wishes_of_build(machine, build) for choice, _ in wish.asked}
    rows = [*rows_of(machine, verdict.witness), *_site(build)]
    open_ones = [line for line in verdict.witness.lines if line.choice not in asked | {LINE}]
    decided = tuple(f"{line.choice}: {line.label}" for line in open_ones)
    return PartsList(build.name.known, opened, verdict, tuple(rows), decided)


def rows_of(machine: Machine, shown: Witness) -> Iterator[Listed]:
    """Yield the rows of a build: the machine, its parts by place, blanks, cables, settings."""
    book, chassis = machine.book, machine.book.chassis
    yield Listed(
        "machine",
        "",
        book.book.name,
        1,
        watts=book.power.base.known.canonical,
        mass=chassis.mass_empty.known.to("kg"),
        price=chassis.price.known.canonical,
    )
    for line in shown.lines:
        option = machine.frame.options(line.choice)[shown.values[line.choice]]
        for name, _, number in machine.frame.parts_in(option):
            yield _part(machine, name, number, line.place)
    for name, number in blanks(machine, shown.values).items():
        yield _part(machine, name, number, "")
    yield from _stated(machine, shown)


def _part(machine: Machine, name: str, number: int, place: str) -> Listed:
    part = machine.book.parts[name]
    return Listed(
        part.kind,
        name,
        part.name,
        number,
        place,
        watts=_watts(machine.book, part),
        mass=_in(part.mass, "kg"),
        price=_in(part.price, ""),
    )


def _watts(book: Book, part: Part) -> Fraction | None:
    """Return the peak draw of a part; what supplies lose themselves is no DC draw."""
    stated = part.power is not None or isinstance(part, Processor | Supply)
    return draw_of(book, part) if stated else None


def _in(fact: Fact[Quantity] | None, unit: str) -> Fraction | None:
    if fact is None:
        return None
    return fact.known.to(unit) if unit else fact.known.canonical


def _stated(machine: Machine, shown: Witness) -> Iterator[Listed]:
    names = Names(machine.book)
    for line in shown.lines:
        if line.choice in machine.book.settings:
            label = names.label(line.choice, line.label)
            yield Listed("setting", "", label, None, line.choice, line.label)
        elif line.choice.endswith(" controller"):
            yield Listed("cable", "", "cabled to", None, line.choice, line.label)


def _site(build: Build) -> Iterator[Listed]:
    if build.site.voltage is not None:
        yield Listed("site", "", "voltage of the feeds", None, "voltage", build.site.voltage.text)


def table_of(found: PartsList) -> PartsTable:
    """Return a parts list as a table to write; reading it as an order gives the same build."""
    money = found.opened.book.book.currency
    columns = (
        *(Column(head) for head in ("Kind", "Part", "Name")),
        Column("Count", total=False, pattern="0"),
        Column("Place"),
        Column("Value"),
        Column("Watts each", pattern="#,##0.0"),
        Column("Watts", total=True, pattern="#,##0.0"),
        Column("Mass each (kg)", pattern="#,##0.000"),
        Column("Mass (kg)", total=True, pattern="#,##0.000"),
        Column(f"Price each ({money})", pattern="#,##0.00"),
        Column(f"Price ({money})", total=True, pattern="#,##0.00"),
    )
    about = {"title": f"{found.name}: parts", "subject": found.opened.book.book.name}
    rows = tuple(_cells(row) for row in found.rows)
    return PartsTable("Parts", columns, rows, (*remarks(found), AID), about)


def _cells(row: Listed) -> tuple[Cell, ...]:
    said: list[Cell] = [row.kind, row.part, row.name, row.count, row.place, row.value]
    for each in (row.watts, row.mass, row.price):
        if each is None or row.count is None:
            said += [None, None]
        else:
            said += [_number(each), _number(each * row.count)]
    return tuple(said)


def _number(value: Fraction) -> float | int:
    return value.numerator if value.denominator == 1 else round(float(value), 6)


def remarks(found: PartsList) -> Iterator[str]:
    """Yield sentences that belong to a parts list."""
    about = found.opened.book.book
    yield f"{found.name}: {about.name} (book {about.id}), as of {found.opened.as_of}."
    yield f"{capitalised(found.opened.status.word)}. {found.opened.status.note}".strip()
    for field, what in (("watts", "peak draw"), ("mass", "mass"), ("price", "price")):
        missing = found.unstated(field)
        if missing:
            yield f"Nobody has stated the {what} of {listed(missing)}; the total leaves it out."
    for path, value in mattering(found.opened.supposed, {row.part for row in found.rows}).items():
        yield f"{path} is not stated yet; the list takes it as {value}."
    if found.decided:
        yield f"The build leaves open, and the list has at least price: {listed(found.decided)}."
    yield from _blank_remark(found)
    yield "Watts are the peak draw, DC; the total is rounded up to whole watts."


def _blank_remark(found: PartsList) -> Iterator[str]:
    if isinstance(found.verdict, Yes):
        priced = next((f for f in found.verdict.witness.figures if f.name == "price"), None)
        if priced is not None and priced.value != found.total("price"):
            left = amount(found.total("price") - priced.value, found.currency)
            said = amount(priced.value, found.currency)
            yield f"The list price of the build, {said}, leaves out blanks of {left}."


def parts_sheet(found: PartsList) -> Sheet:
    """Return a parts list in words; why not, when the build cannot be built."""
    if not isinstance(found.verdict, Yes):
        voice = Voice(
            "It can be built.",
            "It cannot be built, so there is no parts list.",
            redundant=found.redundant,
        )
        return told(found.verdict, found.opened.machine, voice)
    parts = [row for row in found.rows if row.count is not None]
    heads = ("Part", "Count", "Place", "Watts", "Mass", "Price")
    stated = [Row(row.place, row.value) for row in found.rows if row.count is None]
    return Sheet(
        counted(sum(row.count or 0 for row in parts if row.part), "part"),
        "parts",
        f"{found.name}: {_totals(found)}.",
        table=Rows(heads, tuple(_row(row, found) for row in parts)),
        notes=(
            *((Group("Cables and settings", tuple(stated)),) if stated else ()),
            Group("Remarks", tuple(Row("", each) for each in remarks(found))),
        ),
        aid=AID,
    )


def _totals(found: PartsList) -> str:
    return listed(
        (
            f"{amount(found.total('watts'), POWER)} at peak",
            _kilograms(found.total("mass")),
            amount(found.total("price"), found.currency),
        )
    )


def _row(row: Listed, found: PartsList) -> tuple[str, ...]:
    count = row.count or 0
    return (
        row.part or row.name,
        str(count),
        row.place,
        "not stated" if row.watts is None else _exact_watts(row.watts * count),
        "not stated" if row.mass is None else _kilograms(row.mass * count),
        "not stated" if row.price is None else amount(row.price * count, found.currency),
    )


def _exact_watts(value: Fraction) -> str:
    # Rounded up to whole watts, as totals are, the rows would add up to more than the total.
    return show(value, "W", "nearest", 0 if value.denominator == 1 else 1)


def _kilograms(value: Fraction) -> str:
    return amount(Quantity(value, "kg", MASS).canonical, MASS)


def parts_json(found: PartsList) -> Json:
    """Return a parts list as plain JSON values."""
    fields: Mapping[str, str] = {"watts": POWER, "mass": MASS, "price": found.currency}
    return {
        "name": found.name,
        "book": found.opened.book.book.id,
        "as_of": found.opened.as_of.isoformat(),
        "answer": verdict_json(found.verdict),
        "rows": [_row_json(row, fields) for row in found.rows],
        "totals": {
            field: amount_json(_canonical(found.total(field), field), dimension)
            for field, dimension in fields.items()
        },
        "remarks": list(remarks(found)),
    }


def _row_json(row: Listed, fields: Mapping[str, str]) -> Json:
    said: Json = {
        "kind": row.kind,
        "part": row.part or None,
        "name": row.name,
        "count": row.count,
        "place": row.place or None,
        "value": row.value or None,
    }
    for field, dimension in fields.items():
        each = getattr(row, field)
        known = each is not None
        said[field] = amount_json(_canonical(each, field), dimension) if known else None
    return said


def _canonical(value: Fraction, field: str) -> Fraction:
    return Quantity(value, "kg", MASS).canonical if field == "mass" else value

"""Memory: modules, every population, every way to a size."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.desk.guide.tables.making import Field, by_processors, parts_of, parts_table
from baywright.desk.guide.writer import Writer, rows_of
from baywright.desk.statements.query import Query
from baywright.desk.statements.values import figure_of
from baywright.facts.places import Bank
from baywright.papers.document import Block, Column, Line, Run, Table

FIELDS = (
    Field("size", "size"),
    Field("generation", "generation", right=False),
    Field("type", "type", right=False),
    Field("ranks", "ranks"),
    Field("own rate", "speed"),
    Field("peak draw", "power"),
    Field("list price", "price"),
)
_LABEL = re.compile(r"(\d+) x (\S+)")


def modules(writer: Writer) -> Iterable[Block]:
    """Yield the memory modules of the book."""
    yield from parts_table(writer, "Memory modules", parts_of(writer, "memory"), FIELDS)


@dataclass(frozen=True, slots=True)
class _Filled:
    """One way to fill the memory of a machine.

    Args:
        count: modules on each processor.
        part: the module.
        given: the condition that it is so, but for the number of processors.
    """

    count: int
    part: str
    given: str


def _populations(writer: Writer) -> Iterator[_Filled]:
    """Yield how the first bank can be filled with one module."""
    bank = next(iter(writer.book.places_of(Bank)), "")
    if not bank:
        return
    _, statement = writer.state(Query("listing", bank))
    labels = [match for row in rows_of(statement) if (match := _LABEL.fullmatch(row[0]))]
    order = list(writer.book.parts)
    for match in sorted(labels, key=lambda each: (order.index(each[2]), int(each[1]))):
        yield _Filled(int(match[1]), match[2], f'count("{match[2]}", at={bank}) == {match[1]}')


def populations(writer: Writer) -> Iterable[Block]:
    """Yield size and speed of each population, for each number of processors."""
    filled = list(_populations(writer))
    numbers = by_processors(writer)
    if not filled:
        return
    rows = []
    for way in filled:
        sizes = [
            writer.cell(f"most(memory, given={way.given} and {given})") for _, given in numbers
        ]
        speed = writer.cell(f"most(memory_speed, given={way.given})")
        slowest = writer.cell(f"least(memory_speed, given={way.given})")
        speeds = (speed,) if speed.text == slowest.text else (slowest, Run(" to "), speed)
        name = (Run(str(writer.book.parts[way.part].name), "strong"), *writer.standing(way.part))
        rows.append((name, (Run(str(way.count)),), *((size,) for size in sizes), speeds))
    heads = [Column(f"{n} processor{'' if n == 1 else 's'}", right=True) for n, _ in numbers]
    columns = (
        Column("module"),
        Column("on each processor", right=True),
        *heads,
        Column("data rate", right=True),
    )
    yield Table("Populations: size and data rate", columns, tuple(rows))


@dataclass(frozen=True, slots=True)
class _Way:
    """One way to a size.

    Args:
        filled: how each processor's memory is filled.
        processors: number of processors.
        size: the size, as it is said.
        amount: the size as a number.
        speed: the data rate.
    """

    filled: _Filled
    processors: int
    size: Run
    amount: Fraction
    speed: Run

    def row(self, writer: Writer, *, first: bool) -> tuple[Line, ...]:
        """Return it as a row; the size stands in the first row of those that reach it."""
        module = writer.book.parts[self.filled.part].name
        each = "the processor" if self.processors == 1 else "each processor"
        return (
            (replace(self.size, style="strong"),) if first else (Run(""),),
            (Run(f"{self.filled.count} × {module} on {each}"),),
            (Run(str(self.filled.count * self.processors)),),
            (Run(str(self.processors)),),
            (self.speed,),
        )


def _ways(writer: Writer) -> Iterator[_Way]:
    for filled in _populations(writer):
        for count, given in by_processors(writer):
            question = f"most(memory, given={filled.given} and {given})"
            _, statement = writer.state(Query("cell", question))
            if statement.verdict == "most":
                amount = figure_of(statement.value).value
                speed = writer.cell(f"most(memory_speed, given={filled.given})")
                yield _Way(filled, count, writer.cell(question), amount, speed)


def ways(writer: Writer) -> Iterable[Block]:
    """Yield every way to each size that can be reached in more than one way."""
    found = sorted(_ways(writer), key=lambda way: way.amount)
    rows = []
    for _, group in itertools.groupby(found, key=lambda way: way.amount):
        those = list(group)
        if len(those) > 1:
            rows += [way.row(writer, first=at == 0) for at, way in enumerate(those)]
    if rows:
        columns = (
            Column("size", right=True),
            Column("way"),
            Column("modules", right=True),
            Column("processors", right=True),
            Column("data rate", right=True),
        )
        yield Table("Sizes that can be reached in several ways", columns, tuple(rows))

"""Supplies: ratings, efficiency, and what is redundant at which load and voltage."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from baywright.desk.guide.tables.making import Field, parts_of, parts_table
from baywright.desk.guide.tables.models import builds, figure_on, runs_on, sites
from baywright.desk.guide.writer import NOT_DECIDED, Writer, rows_of
from baywright.desk.statements.query import Query
from baywright.desk.statements.values import figure_of
from baywright.facts.places import Supplies
from baywright.papers.document import Block, Column, Run, Table
from baywright.units.printing import number

STEPS = (50, 100, 200, 250, 500, 1000)
"""Steps of the load in the table of loads [W]; the smallest that gives few enough rows is taken."""

MOST_ROWS = 12

FIELDS = (
    Field("inlet", "inlet"),
    Field("most current of the inlet", "inlet_current"),
    Field("power factor", "power_factor"),
    Field("inrush", "inrush"),
    Field("for", "inrush_time"),
    Field("to earth", "leakage"),
    Field("hold-up", "hold_up"),
    Field("list price", "price"),
)


def supplies(writer: Writer) -> Iterable[Block]:
    """Yield ratings by kind of input power, and what else there is to say of each supply."""
    found = parts_of(writer, "supply")
    lines = writer.book.power.lines
    ratings = [Field(f"on {line.name}", f"ratings.{name}") for name, line in lines.items()]
    yield from parts_table(writer, "Ratings of the supplies", found, ratings)
    yield from parts_table(writer, "Supplies at their inlet", found, FIELDS)
    yield from _efficiency(writer, found)


def _efficiency(writer: Writer, found: list[str]) -> Iterator[Block]:
    start = "parts.{}.efficiency."
    loads = dict.fromkeys(
        path.removeprefix(start.format(part))
        for part in found
        for path in writer.shared.facts
        if path.startswith(start.format(part))
    )
    fields = [Field(load, f"efficiency.{load}") for load in loads]
    if fields:
        yield from parts_table(writer, "Efficiency by share of the rating", found, fields)


def lines(writer: Writer) -> Iterable[Block]:
    """Yield the kinds of input power."""
    rows = tuple(
        (
            (Run(str(line.name), "strong"),),
            (writer.fact(f"power.lines.{name}.volts_from"),),
            (writer.fact(f"power.lines.{name}.volts_to"),),
            (Run(line.current),),
        )
        for name, line in writer.book.power.lines.items()
    )
    columns = (
        Column("input power"),
        Column("from", right=True),
        Column("to", right=True),
        Column("current"),
    )
    yield Table("Kinds of input power", columns, rows)


def redundancy(writer: Writer) -> Iterable[Block]:
    """Yield up to which draw each set of supplies is redundant, and the most that is legal."""
    rows = tuple(
        (
            (Run(label, "strong"),),
            (Run(words),),
            (writer.cell(f"most(supplies_carry_redundant, given={given})"),),
            (writer.cell(f"most(supplies_carry, given={given})"),),
            (writer.cell(f"most(load, given={given} and supplies_redundant)"),),
            (writer.cell(f"most(load, given={given})"),),
        )
        for label, words, given in _sets(writer)
    )
    columns = (
        Column("supplies"),
        Column("input power"),
        Column("redundant up to", right=True),
        Column("runs up to", right=True),
        Column("most a redundant build draws", right=True),
        Column("most a legal build draws", right=True),
    )
    yield Table("Redundancy of the supplies", columns, rows)


def _sets(writer: Writer) -> Iterator[tuple[str, str, str]]:
    """Yield each set of supplies on each kind of power: its words, and the condition for it."""
    bays = next(iter(writer.book.places_of(Supplies)), "")
    if not bays:
        return
    _, statement = writer.state(Query("listing", f"{bays}, line"))
    for label, line in rows_of(statement):
        count, _, part = label.partition(" x ")
        names = {str(each.name): name for name, each in writer.book.power.lines.items()}
        name = writer.book.parts[part].name if part in writer.book.parts else label
        given = f'count("{part}", at={bays}) == {count} and line == "{names.get(line, line)}"'
        yield f"{count} × {name}", line, given


@dataclass(frozen=True, slots=True)
class _Carried:
    """What a set of supplies carries on one kind of power.

    Args:
        head: the set and the power in words.
        redundant: the most it carries with redundancy, with its statement.
        runs: the most it carries at all, with its statement.
    """

    head: str
    redundant: tuple[Fraction | None, int]
    runs: tuple[Fraction | None, int]

    def does(self, load: int) -> Run:
        """Return what it does at a load [W]."""
        for (carried, stated), word in ((self.redundant, "redundant"), (self.runs, "runs")):
            if carried is None:
                return Run(NOT_DECIDED, "plain", stated)
            if load <= carried:
                return Run(word, "plain", stated)
        return Run("not legal", "plain", self.runs[1])


def _carried(writer: Writer, question: str) -> tuple[Fraction | None, int]:
    number, statement = writer.state(Query("cell", question))
    known = statement.verdict == "most"
    return figure_of(statement.value).value if known else None, number


def loads(writer: Writer) -> Iterable[Block]:
    """Yield what each set of supplies does at loads in even steps, by what it carries."""
    sets = [
        _Carried(
            f"{label}, {words}",
            _carried(writer, f"most(supplies_carry_redundant, given={given})"),
            _carried(writer, f"most(supplies_carry, given={given})"),
        )
        for label, words, given in _sets(writer)
    ]
    highest, _ = _carried(writer, "most(load)")
    if not sets or highest is None:
        return
    step = next((each for each in STEPS if highest / each <= MOST_ROWS), STEPS[-1])
    rows = tuple(
        ((Run(f"{number(load)} W", "strong"),), *((each.does(load),) for each in sets))
        for load in range(step, math.ceil(highest / step) * step + 1, step)
    )
    columns = (Column("peak draw", right=True), *(Column(each.head) for each in sets))
    yield Table("What the supplies do at a peak draw", columns, rows)


def by_model(writer: Writer) -> Iterable[Block]:
    """Yield draw, current and heat of each ready-made model on each kind of power."""
    keys = (
        "power.dc.peak",
        "power.input.peak",
        "power.current.peak",
        "power.heat_by_hour.peak",
        "power.efficiency.peak",
    )
    rows = tuple(
        (
            (Run(title, "strong"),),
            (Run(site[1]),),
            *((figure_on(writer, key, name, site),) for key in keys),
        )
        for name, title in builds(writer)
        for site in sites(writer)
        if runs_on(writer, name, site[0])
    )
    if rows:
        columns = (
            Column("build"),
            Column("input power"),
            Column("peak draw", right=True),
            Column("taken in", right=True),
            Column("current", right=True),
            Column("heat", right=True),
            Column("efficiency", right=True),
        )
        yield Table("Draw, current and heat at peak, at the least voltage", columns, rows)

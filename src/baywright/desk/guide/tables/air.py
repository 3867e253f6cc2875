"""Air: fans, inlet limits and what altitude takes away."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.tables.making import Field, facts_table, parts_of, parts_table
from baywright.desk.guide.writer import Writer
from baywright.papers.document import Block, Column, Run, Table
from baywright.terms import parse, wording

FANS = (
    Field("flow at full speed", "flow"),
    Field("full speed", "speed"),
    Field("peak draw", "power"),
    Field("mass", "mass"),
    Field("list price", "price"),
)
RULES = (
    ("rise of the air that is allowed", "air.rise"),
    ("the inlet limit falls above", "air.derating.above"),
    ("by", "air.derating.by"),
    ("for each further", "air.derating.per"),
    ("highest altitude of use", "air.derating.up_to"),
    ("longest time without the cover while running", "air.cover_off"),
    ("area of the intake grille", "air.grille"),
    ("open share of it", "air.grille_open"),
    ("noise at idle", "air.noise_idle"),
    ("noise at full speed", "air.noise_full"),
    ("distance at which noise is stated", "air.noise_distance"),
)


def fans(writer: Writer) -> Iterable[Block]:
    """Yield the fans and what holds for the air."""
    yield from parts_table(writer, "Fans", parts_of(writer, "fan"), FANS)
    yield from facts_table(writer, "Air", RULES, ("what", "value"))


def inlet(writer: Writer) -> Iterable[Block]:
    """Yield the inlet limits by build; the first that applies counts."""
    rows = []
    for at, each in enumerate(writer.book.air.inlet_limits):
        rows.append(
            ((Run(_when(writer, each.when)),), (writer.fact(f"air.inlet_limits.{at}.limit"),))
        )
    columns = (Column("build"), Column("highest inlet temperature", right=True))
    title = "Inlet limits at low altitude; the first line that applies counts"
    yield Table(title, columns, tuple(rows))


def _when(writer: Writer, condition: str | None) -> str:
    if condition is None:
        return "every build" if len(writer.book.air.inlet_limits) == 1 else "every other build"
    machine = writer.opened.machine
    return wording(machine.condition(parse(condition)), machine.vocabulary)

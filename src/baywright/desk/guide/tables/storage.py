"""Storage: cages, drives, controllers, packs."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.tables.making import Field, parts_of, parts_table
from baywright.desk.guide.writer import Writer
from baywright.desk.statements.query import Query
from baywright.facts.parts import Controller
from baywright.papers.document import Block, Column, Run, Table

CAGES = (
    Field("bays", "bays"),
    Field("lanes to each bay", "lanes_per_bay"),
    Field("connectors on a controller", "connectors"),
    Field("rate of a drive lane", "link_rate"),
    Field("changed while running", "hot_swap"),
    Field("list price", "price"),
)
DRIVES = (
    Field("capacity", "capacity"),
    Field("reading", "read_rate"),
    Field("writing", "write_rate"),
    Field("endurance", "endurance"),
    Field("peak draw", "power"),
    Field("list price", "price"),
)
CONTROLLERS = (
    Field("most drives inside", "drives_most"),
    Field("connectors", "connectors"),
    Field("lanes of one", "connector_lanes"),
    Field("most data", "rate_most"),
    Field("most in one machine", "at_most"),
    Field("peak draw", "power"),
    Field("list price", "price"),
)
EXTERNAL = (
    Field("chains", "external.chains"),
    Field("enclosures on a chain", "external.enclosures"),
    Field("drives in an enclosure", "external.drives"),
    Field("rate of a lane", "external.link_rate"),
)
PACKS = (
    Field("capacitance", "capacitance"),
    Field("charged", "full"),
    Field("usable down to", "empty"),
    Field("usable share", "usable"),
    Field("life", "life"),
    Field("at", "life_temperature"),
    Field("halved for each", "halved_per"),
)


def cages(writer: Writer) -> Iterable[Block]:
    """Yield the cages."""
    yield from parts_table(writer, "Cages", parts_of(writer, "cage"), CAGES)


def drives(writer: Writer) -> Iterable[Block]:
    """Yield the drives."""
    yield from parts_table(writer, "Drives", parts_of(writer, "drive"), DRIVES)


def controllers(writer: Writer) -> Iterable[Block]:
    """Yield the controllers, and what those with a reach outside reach."""
    found = writer.book.parts_of("controller")
    yield from parts_table(writer, "Storage controllers", list(found), CONTROLLERS)
    outside = [
        name for name, part in found.items() if isinstance(part, Controller) and part.external
    ]
    yield from parts_table(writer, "Reach outside the machine", outside, EXTERNAL)


def by_controllers(writer: Writer) -> Iterable[Block]:
    """Yield the most drives behind each number of controllers, and without any."""
    if not writer.book.parts_of("controller"):
        return
    _, statement = writer.state(Query("cell", "most(count(controller))"))
    if statement.verdict != "most":
        return
    rows = []
    for number in range(int(statement.value["value"]) + 1):
        given = f"count(controller) == {number}"
        rows.append(
            (
                (Run(str(number), "strong"),),
                (writer.cell(f"most(count(drive), given={given})"),),
                (writer.cell(f"least(processors, given={given})"),),
                (writer.cell(f"most(raw_capacity, given={given})"),),
            )
        )
    columns = (
        Column("controllers", right=True),
        Column("most drives", right=True),
        Column("least processors", right=True),
        Column("most raw capacity", right=True),
    )
    yield Table("Drives by number of controllers", columns, tuple(rows))


def packs(writer: Writer) -> Iterable[Block]:
    """Yield the energy packs."""
    yield from parts_table(writer, "Energy packs", parts_of(writer, "pack"), PACKS)

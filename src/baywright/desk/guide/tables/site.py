"""Rack and site: rails, mass, lifting, kits for other orientations."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.tables.making import facts_table
from baywright.desk.guide.writer import Writer
from baywright.papers.document import Block, Column, Run, Table

RACK = (
    ("height", "chassis.height"),
    ("depth", "chassis.depth"),
    ("shortest rails", "chassis.rails_from"),
    ("longest rails", "chassis.rails_to"),
    ("travel of the slides", "chassis.slide_travel"),
    ("machines side by side in a tray", "chassis.side_by_side"),
    ("height of that tray", "chassis.tray_height"),
    ("mass without parts", "chassis.mass_empty"),
    ("most it can weigh", "chassis.mass_most"),
    ("centre of the empty mass behind the front", "chassis.centre_depth"),
)


def rack(writer: Writer) -> Iterable[Block]:
    """Yield what a rack has to give."""
    yield from facts_table(writer, "In the rack", RACK, ("what", "value"))


def masses(writer: Writer) -> Iterable[Block]:
    """Yield the least and the most mass, draw and price of a legal build."""
    rows = tuple(
        (
            (Run(words, "strong"),),
            (writer.cell(f"least({name})"),),
            (writer.cell(f"most({name})"),),
        )
        for words, name in (("mass", "mass"), ("peak draw", "load"), ("list price", "price"))
    )
    columns = (Column("of a legal build"), Column("least", right=True), Column("most", right=True))
    yield Table("Least and most of a legal build", columns, rows)


def orientations(writer: Writer) -> Iterable[Block]:
    """Yield how the machine can stand, and the kit each way takes."""
    found = writer.book.chassis.orientations
    rows = tuple(
        (
            (Run(str(each.name), "strong"),),
            (writer.fact(f"chassis.orientations.{name}.turn"),),
            (Run(writer.names.part(each.needs) if each.needs else "–"),),
        )
        for name, each in found.items()
    )
    if rows:
        columns = (Column("stands"), Column("turned", right=True), Column("by the kit"))
        yield Table("Ways it can stand", columns, rows)

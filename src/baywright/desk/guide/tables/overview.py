"""The machine at a glance: its facts and its dates."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.tables.making import facts_table
from baywright.desk.guide.writer import Writer
from baywright.papers.document import Block, Column, Run, Table


def key_facts(writer: Writer) -> Iterable[Block]:
    """Yield size and mass."""
    rows = (
        ("form", "chassis.form"),
        ("height", "chassis.height"),
        ("width of the body", "chassis.width"),
        ("width over the rack ears", "chassis.width_over_ears"),
        ("depth", "chassis.depth"),
        ("mass without parts", "chassis.mass_empty"),
        ("most it can weigh", "chassis.mass_most"),
        ("list price without parts", "chassis.price"),
    )
    yield from facts_table(writer, "Size, mass and price", rows, ("what", "value"))


def dates(writer: Writer) -> Iterable[Block]:
    """Yield the dates of the machine and of parts that come later or go earlier."""
    rows = [
        ("announced", "book.announced"),
        ("ships", "book.ships"),
        ("last day to order", "book.last_order"),
    ]
    for name, part in writer.book.parts.items():
        rows += [
            (f"{part.name}: {words}", f"parts.{name}.{field}")
            for words, field in (
                ("announced", "announced"),
                ("ships", "ships"),
                ("last day to order", "last_order"),
            )
        ]
    yield from facts_table(writer, "Dates; the first day of the new state", rows, ("what", "day"))


def sources(writer: Writer) -> Iterable[Block]:
    """Yield the documents that the facts come from."""
    rows = tuple(
        (
            (Run(str(source.title.known)),),
            (writer.fact(f"sources.{name}.date"),),
        )
        for name, source in writer.book.sources.items()
    )
    if rows:
        yield Table("Sources of the facts", (Column("document"), Column("issued")), rows)

"""Processors, and what the further ones open."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.tables.making import Field, by_processors, parts_of, parts_table
from baywright.desk.guide.tables.maxima import items, most_of
from baywright.desk.guide.writer import Writer
from baywright.papers.document import Block, Column, Run, Table

FIELDS = (
    Field("cores", "cores"),
    Field("thermal design power", "tdp"),
    Field("lanes", "lanes"),
    Field("generation", "lane_generation"),
    Field("fastest memory", "memory_speed"),
    Field("mass", "mass"),
    Field("list price", "price"),
)


def processors(writer: Writer) -> Iterable[Block]:
    """Yield the processors of the book."""
    yield from parts_table(writer, "Processors", parts_of(writer, "processor"), FIELDS)


def by_number(writer: Writer) -> Iterable[Block]:
    """Yield what the machine has at most with each number of processors."""
    counts = by_processors(writer)
    if len(counts) < 2:
        return
    rows = []
    for item in items(writer):
        found = [most_of(writer, item, given) for _, given in counts]
        cells = [Run(each.shown, "plain", each.number) if each else Run("–") for each in found]
        if len({cell.text for cell in cells}) > 1:
            rows.append(((Run(item.words, "strong"),), *((cell,) for cell in cells)))
    heads = [
        Column(f"with {count} processor{'' if count == 1 else 's'}", right=True)
        for count, _ in counts
    ]
    yield Table("At most, by number of processors", (Column("item"), *heads), tuple(rows))

"""Ready-made models side by side, figure by figure."""

from __future__ import annotations

from collections.abc import Sequence

from baywright.desk.guide.tables.models import builds
from baywright.desk.sheets.asked import Desk
from baywright.desk.statements.query import Query
from baywright.papers.document import Column, Line, Run, Table

ROWS = (
    ("figure", "memory.modules", "memory modules"),
    ("figure", "memory.capacity", "memory"),
    ("figure", "memory.core", "memory for each core"),
    ("figure", "memory.speed", "memory speed"),
    ("figure", "memory.free", "memory sockets left"),
    ("figure", "slots.cards", "cards"),
    ("figure", "slots.free", "slots left"),
    ("figure", "power.dc.idle", "idle draw"),
    ("figure", "power.dc.typical", "usual draw"),
    ("figure", "power.dc.peak", "peak draw"),
    ("figure", "air.inlet_limit", "warmest air taken in"),
    ("figure", "air.altitude_most", "highest site"),
    ("figure", "air.noise_full", "noise with fans at full speed"),
    ("figure", "rack.mass", "mass"),
    ("figure", "availability.failures", "failures a year, expected"),
    ("parts", "price", "its parts at list price, blanks included"),
)
"""What is told of each model: kind and text of the query, and its words."""


def side_by_side(desk: Desk) -> str:
    """Return a table with a column for each model; figures that none has are left out."""
    found = builds(desk.writer)
    rows = [_row(desk, each, [name for name, _ in found]) for each in ROWS]
    columns = (Column("what"), *(Column(title, right=True) for _, title in found))
    kept = tuple(row for row in rows if any(cell[0].text != "not decided" for cell in row[1:]))
    title = "Ready-made models side by side" if desk.writer.book.models else "Examples side by side"
    return desk.blocks(Table(title, columns, kept)) if found else ""


def _row(desk: Desk, each: tuple[str, str, str], names: Sequence[str]) -> tuple[Line, ...]:
    kind, text, words = each
    cells = ((desk.writer.said(Query(kind, text, name)),) for name in names)
    return ((Run(words, "strong"),), *cells)

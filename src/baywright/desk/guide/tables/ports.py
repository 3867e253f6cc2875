"""Ports by type and side; a total always with its side."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.tables.maxima import PORTS, port_types
from baywright.desk.guide.writer import Writer
from baywright.papers.document import Block, Column, Line, Run, Table


def ports(writer: Writer) -> Iterable[Block]:
    """Yield how many ports of each type there are on each side."""
    sides = _sides(writer)
    types = port_types(writer)
    rows = tuple(
        (
            (Run(PORTS.get(port, port), "strong"),),
            *(_between(writer, f'ports("{port}", at="{side}")') for side in sides),
            _between(writer, f'ports("{port}")'),
        )
        for port in types
    )
    if rows:
        heads = (Column(side, right=True) for side in sides)
        columns = (Column("port"), *heads, Column("all sides", right=True))
        yield Table("Ports by side", columns, rows)


def _sides(writer: Writer) -> list[str]:
    book = writer.book
    found = [*book.chassis.ports, *(port for part in book.parts.values() for port in part.ports)]
    return list(dict.fromkeys(str(port.scope) for port in found))


def _between(writer: Writer, number: str) -> Line:
    """Return a number that every build has, or the least and the most."""
    least, most = writer.cell(f"least({number})"), writer.cell(f"most({number})")
    if least.text == most.text:
        return (Run("–" if most.text == "0" else most.text, "plain", most.statement),)
    return (least, Run(" to "), most)

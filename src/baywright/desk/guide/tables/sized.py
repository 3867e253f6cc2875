"""Tables that sizing makes of a build, taken over as they are; equal ones stand once."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.tables.models import builds, runs_on, sites
from baywright.desk.guide.writer import Writer
from baywright.desk.statements.query import Query
from baywright.papers.document import Block, Column, Run, Table
from baywright.problems import Problems


def altitudes(writer: Writer) -> Iterable[Block]:
    """Yield what the fans of each build carry by altitude, and the inlet limit there."""
    yield from _tables(writer, "air.altitudes", "What the fans carry by altitude: {}")


def classes(writer: Writer) -> Iterable[Block]:
    """Yield the classes of air that each build bears."""
    yield from _tables(writer, "air.classes", "Equipment classes for air: {}")


def grades(writer: Writer) -> Iterable[Block]:
    """Yield the efficiency of supplies beside the rows of the public scheme."""
    yield from _tables(writer, "energy.grades", "Efficiency beside public grades: {}")


def idle(writer: Writer) -> Iterable[Block]:
    """Yield the idle limit of the Regulation."""
    yield from _tables(writer, "energy.idle-limit", "Idle limit of the Regulation: {}")


def noise(writer: Writer) -> Iterable[Block]:
    """Yield the noise of several machines."""
    yield from _tables(writer, "air.noise_rooms", "Noise of several machines, dB(A): {}")


def losses(writer: Writer) -> Iterable[Block]:
    """Yield what is left when supplies fail."""
    yield from _tables(writer, "power.losses", "What is left when supplies fail: {}", "volts_from")


def _tables(writer: Writer, key: str, title: str, end: str = "volts_to") -> Iterable[Block]:
    found: dict[str, tuple[list[str], int, dict[str, list[list[str]]]]] = {}
    for name, words in builds(writer):
        try:
            number, statement = writer.state(Query("table", key, name, _site(writer, name, end)))
        except Problems:  # sizing makes no such table of this build
            continue
        if statement.value["rows"]:
            held = found.setdefault(repr(statement.value["rows"]), ([], number, statement.value))
            held[0].append(words)
    for names, number, value in found.values():
        yield _table(title.format(", ".join(names)), number, value)


def _table(title: str, number: int, value: dict[str, list[list[str]]]) -> Table:
    heads = [str(head) for head in value["header"]]
    rows = tuple(tuple((Run(cell, "plain", number),) for cell in row) for row in value["rows"])
    right = [all(_numeric(row[at]) for row in value["rows"]) for at in range(len(heads))]
    columns = tuple(Column(head, right=side) for head, side in zip(heads, right, strict=True))
    notes = ((Run(f"{value['note']}".rstrip(".") + "."),),) if value["note"] else ()
    return Table(title, columns, rows, notes)


def _numeric(cell: str) -> bool:
    return cell[:1].isdigit() or cell in ("", "not decided") or cell.startswith("-")


def _site(writer: Writer, build: str, end: str) -> str:
    """Return a site at sea level, at one end of the last kind of power that the build runs on."""
    lines = [name for name, _, _ in sites(writer) if runs_on(writer, build, name)]
    volts = writer.shared.facts[f"power.lines.{lines[-1]}.{end}"].text
    return f"altitude=0 m; voltage={volts}"

"""The maxima in short, for one page and for slides."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from baywright.desk.guide.tables.maxima import Item, Maximum, items, most_of
from baywright.desk.guide.writer import Writer
from baywright.desk.sheets.asked import Desk
from baywright.desk.statements.query import Query
from baywright.papers.document import Bullets, Column, Line, Run, Table

MOST_ROWS = 10
"""Maxima that are shown in short."""

FIRST = ("processor", "core", "memory", "drive", "raw drive capacity", "accelerator")
"""What comes first where not everything has room."""


def brief_items(writer: Writer) -> list[Item]:
    """Return what is told in short: no single parts, what counts most first, in usual order."""
    found = [item for item in items(writer) if not item.part and " port" not in item.one]
    bays_apart = [item for item in found if item.one != "drive bay"]
    ranked = sorted(bays_apart, key=lambda item: (item.one not in FIRST, found.index(item)))
    kept = ranked[:MOST_ROWS]
    return [item for item in found if item in kept]


def brief_maxima(writer: Writer) -> list[Maximum]:
    """Return the most of each item that is told in short."""
    found = [most_of(writer, item) for item in brief_items(writer)]
    return [each for each in found if each is not None and each.statement.value["value"] != "0"]


def apart(writer: Writer, found: Sequence[Maximum]) -> list[tuple[Maximum, Maximum]]:
    """Return the pairs of maxima that no build reaches together."""
    pairs = itertools.combinations(found, 2)
    return [pair for pair in pairs if not _together(writer, *pair)]


def _together(writer: Writer, one: Maximum, other: Maximum) -> bool:
    _, statement = writer.state(Query("cell", f"can({one.reached} and {other.reached})"))
    return statement.verdict != "no"


def maxima_table(desk: Desk) -> str:
    """Return the table of maxima in short, with the sign at those that exclude each other."""
    writer = desk.writer
    found = brief_maxima(writer)
    excluded = excluded_by(apart(writer, found))
    rows = tuple(_row(writer, each, excluded.get(each.item, [])) for each in found)
    heads = (Column("what", share=4), Column("at least", right=True, share=2))
    columns = (*heads, Column("at most", right=True, share=2), Column("then", share=8))
    kept = columns if excluded else columns[:-1]
    title = "At least and at most, each proven by a complete build"
    return desk.blocks(Table(title, kept, tuple(row[: len(kept)] for row in rows)))


def excluded_by(pairs: Sequence[tuple[Maximum, Maximum]]) -> dict[Item, list[Maximum]]:
    """Return by item the maxima that it excludes at its most."""
    found: dict[Item, list[Maximum]] = {}
    for one, other in pairs:
        found.setdefault(one.item, []).append(other)
        found.setdefault(other.item, []).append(one)
    return found


def _row(writer: Writer, each: Maximum, excluded: Sequence[Maximum]) -> tuple[Line, ...]:
    least = writer.cell(f"least({each.item.expression})")
    most = Run(each.shown, "plain", each.number, dagger=bool(excluded))
    return ((Run(each.item.words, "strong"),), (least,), (most,), _then(writer, each, excluded))


def _then(writer: Writer, first: Maximum, others: Sequence[Maximum]) -> Line:
    """Return what is left of others with one at its most."""
    runs: list[Run] = []
    for at, other in enumerate(others):
        runs.append(Run(", " if at else ""))
        runs += left(writer, first, other)
    return tuple(runs)


def apart_list(desk: Desk) -> str:
    """Return what is left of each maximum beside those it excludes, as a list; or nothing."""
    writer = desk.writer
    excluded = excluded_by(apart(writer, brief_maxima(writer)))
    lines = tuple(
        (
            Run("With "),
            Run(each.shown, "strong", each.number, dagger=True),
            Run(f"{each.item.counted(each.shown)}: "),
            *_then(writer, each, excluded[each.item]),
        )
        for each in brief_maxima(writer)
        if each.item in excluded
    )
    return desk.blocks(Bullets(lines)) if lines else ""


def left(writer: Writer, first: Maximum, other: Maximum) -> Line:
    """Return what is left of one maximum with another at its most."""
    run = writer.cell(f"most({other.item.expression}, given={first.reached})")
    if run.text == "0":
        return (Run("no ", "plain", run.statement), Run(other.item.one))
    return (Run("at most "), run, Run(other.item.counted(run.text)))

"""Sheets in a terminal: rules and indents, bold and dim, nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from rich.console import RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from baywright.answers.wording import (
    Fitted,
    Ground,
    Group,
    Near,
    Quote,
    Row,
    Rows,
    Sheet,
)
from baywright.facts.cautions import Caution

MOST_ROWS = 200
"""A longer table of combinations is cut in a terminal; JSON has all of it."""


def sheet(told: Sheet) -> Iterator[RenderableType]:
    """Yield the parts of a sheet from top to bottom."""
    yield Text(told.word, style="bold")
    yield Text(told.sentence)
    if told.reading:
        yield Text(told.reading, style="dim")
    yield from _grounds(told)
    yield from _quotes("What stands behind it", told.structure)
    yield from _outcomes(told)
    yield from _nearest(told.nearest)
    if told.table is not None:
        yield ""
        yield table(told.table)
        yield from _cut(told.table)
    for note in told.notes:
        yield from _group(note)
    for fitted in told.fitted:
        yield from _fitted(fitted)
    yield from _load(told)
    yield from _foot(told)


def caution(said: Caution, indent: int = 2) -> Iterator[RenderableType]:
    """Yield a caution: its word, then hazard, consequence and what avoids it."""
    yield Text(f"\N{WHITE UP-POINTING TRIANGLE} {said.word}", style="bold")
    told = f"{said.hazard} {said.consequence} {said.avoidance}"
    yield Padding(Text(told), (0, 0, 0, indent))


def heading(title: str) -> Iterator[RenderableType]:
    """Yield an empty line and a title."""
    yield ""
    yield Text(title, style="bold")


def columns(rows: Iterable[Sequence[RenderableType]]) -> Table:
    """Return rows in columns without lines; the last takes the rest of the width."""
    grid = Table.grid(padding=(0, 2, 0, 0))
    held = [list(row) for row in rows]
    for _ in range(max((len(row) for row in held), default=0)):
        grid.add_column(overflow="fold")
    for row in held:
        grid.add_row(*row)
    return grid


def table(rows: Rows) -> Table:
    """Return combinations as a table with a line under its heads."""
    grid = Table(box=None, padding=(0, 2, 0, 0), show_edge=False, header_style="bold")
    for head in rows.heads:
        grid.add_column(Text(head), overflow="fold")
    for row in rows.rows[:MOST_ROWS]:
        grid.add_row(*(Text(cell) for cell in row))
    return grid


def _cut(rows: Rows) -> Iterator[RenderableType]:
    left = len(rows.rows) - MOST_ROWS
    if left > 0:
        yield Text(f"{left:,} more; --json gives all of them.", style="dim")


def _grounds(told: Sheet) -> Iterator[RenderableType]:
    yield from _set(told.grounds_title, told.grounds, told.needed)
    for other in told.others:
        yield from _set(other.title, other.grounds, other.needed)
    if told.complete:
        yield ""
        yield Text(told.complete)


def _set(title: str, grounds: Sequence[Ground], needed: str) -> Iterator[RenderableType]:
    """Yield one set of reasons."""
    if not grounds:
        return
    yield from heading(title)
    yield columns(
        (Text(str(number)), Text(ground.kind), _ground(ground))
        for number, ground in enumerate(grounds, 1)
    )
    if needed:
        yield Text(needed)


def _ground(ground: Ground) -> RenderableType:
    said = Text(ground.sentence)
    if ground.total:
        said.append(f" {ground.total}", style="bold")
    for fact in ground.quotes:
        said.append(f"\n{_quote(fact)}", style="dim")
    return said


def _quote(fact: Quote) -> str:
    """A value is followed by where it stands; a sentence has that in brackets behind it."""
    stands = "; ".join(filter(None, (fact.path, fact.source, fact.where)))
    if fact.value.endswith("."):
        return f"{fact.value} ({stands})"
    return f"{fact.value}: {stands}" if fact.value else stands


def _quotes(title: str, quotes: Sequence[Quote]) -> Iterator[RenderableType]:
    if quotes:
        yield from heading(title)
        for fact in quotes:
            yield Text(_quote(fact))


def _outcomes(told: Sheet) -> Iterator[RenderableType]:
    for outcome in told.outcomes:
        yield from heading(f"If {outcome.case}")
        yield Padding(Text(f"{outcome.sheet.word}. {outcome.sheet.sentence}"), (0, 0, 0, 2))


def _nearest(nearest: Sequence[Near]) -> Iterator[RenderableType]:
    if nearest:
        yield from heading("Nearest builds")
        yield columns(
            (Text(str(number)), Text(near.count), _near(near))
            for number, near in enumerate(nearest, 1)
        )


def _near(near: Near) -> RenderableType:
    said = Text("\n".join(str(turn) for turn in near.turns))
    return said.append(f"\n{near.summary}", style="dim")


def _group(group: Group) -> Iterator[RenderableType]:
    yield from heading(group.title)
    yield columns(_row(row) for row in group.rows)


def _row(row: Row) -> tuple[RenderableType, RenderableType]:
    return Text(row.label), Text(row.says)


def _fitted(fitted: Fitted) -> Iterator[RenderableType]:
    yield from heading(fitted.title)
    for group in fitted.groups:
        yield Text(group.title, style="dim")
        yield Padding(columns(_row(row) for row in group.rows), (0, 0, 0, 2))
    yield Text("Numbers", style="dim")
    yield Padding(columns(_row(row) for row in fitted.figures), (0, 0, 0, 2))


def _load(told: Sheet) -> Iterator[RenderableType]:
    """The load is not said twice where the verdict says it already."""
    load = told.load
    if load is not None:
        yield ""
        said = "" if load.sentence in told.sentence else f"{load.sentence} "
        yield Text(f"{said}Bound: {load.bound_words}.")


def _foot(told: Sheet) -> Iterator[RenderableType]:
    yield ""
    for line in (told.proof, told.standing, told.aid):
        if line:
            yield Text(line, style="dim")

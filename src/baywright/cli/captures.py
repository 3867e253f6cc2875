"""The commands capture and missing: tables into books, and what books leave out."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from rich.console import RenderableType
from rich.text import Text

from baywright.cli.guarding import ANSWERED, BAD_INPUT, guarded
from baywright.cli.output import show, show_json, show_problems
from baywright.cli.sheets import columns, heading
from baywright.desk.capture import missing as lacking
from baywright.desk.capture.as_json import capture_json, missing_json
from baywright.desk.capture.captured import Cell, How
from baywright.desk.capture.cells import Mark
from baywright.desk.capture.writing import Looked, counts, look, write
from baywright.desk.request import Request, opened
from baywright.laws.wording import counted
from baywright.problems import problem

__all__ = ["Request", "Taken", "capture", "missing"]

STANDARD_INPUT = "-"
MOST_NAMED = 4
"""More entries or questions than this are counted in a terminal; JSON has all of them."""


@dataclass(frozen=True, slots=True)
class Taken:
    """How a table is to be taken, as typed.

    Args:
        about: what its rows are about, or empty.
        mapped: headings with their fields, each ``HEADING=FIELD``.
        decimal: the sign before decimals, or empty.
        source: id of the source of new facts, or empty.
        replace: whether it goes over what the book says.
        write: whether to write.
        leave_rest: whether cells may be left out in writing.
    """

    about: str
    mapped: tuple[str, ...]
    decimal: Mark
    source: str
    replace: bool
    write: bool
    leave_rest: bool

    def how(self) -> How:
        """Return it read.

        Raises:
            Problems: kind ``unknown-heading``.
        """
        pairs = {}
        for text in self.mapped:
            head, sign, path = text.rpartition("=")
            if not sign:
                hint = "Write --map 'Heading=field'; nothing after = leaves the column out."
                raise problem("unknown-heading", f"{text!r} maps nothing.", None, hint)
            pairs[head] = path
        return How(self.about, pairs, self.decimal, self.source, self.replace)


@guarded
def capture(book: str, table: str, taken: Taken, *, as_json: bool) -> int:
    """Take a table into a book, or show what would come of it."""
    text = sys.stdin.read() if table == STANDARD_INPUT else None
    looked = look(book, "pasted" if text is not None else table, text, taken.how())
    if taken.write:
        write(looked, leave_rest=taken.leave_rest)
    if as_json:
        show_json(capture_json(looked, written=taken.write))
    else:
        show(_sheet(looked, written=taken.write))
        show_problems(looked.problems, as_json=False)
    return BAD_INPUT if looked.problems else ANSWERED


def _sheet(looked: Looked, *, written: bool) -> Iterator[RenderableType]:
    captured = looked.captured
    yield Text(f"{looked.table}: {captured.about}", style="bold")
    yield Text(f"{counted(len(captured.cells), 'cell')}: {', '.join(counts(captured))}.")
    yield from heading("Columns")
    yield columns(
        (Text(column.heading or "no heading"), _meant(column.path, column.unit, column.why))
        for column in captured.columns
    )
    yield from _cells("Written" if written else "To be written", captured.of("new"))
    yield from _cells("In the book with another value", captured.of("differs"))
    yield from _cells("Not understood", captured.of("not understood"))
    yield ""
    yield Text(_end(looked, written=written))


def _meant(path: Sequence[str], unit: str, why: str) -> Text:
    return Text(f"{'.'.join(path)}{f' in {unit}' if unit else ''}" if path else why)


def _cells(title: str, cells: Sequence[Cell]) -> Iterator[RenderableType]:
    if cells:
        yield from heading(title)
        yield columns(
            (Text(f"line {line}", style="dim"), Text(named), said)
            for line, named, said in _lines(cells)
        )


def _lines(cells: Sequence[Cell]) -> Iterator[tuple[str, str, Text]]:
    """Yield a line for each cell; one for cells of a row that share a reason."""
    for _, alike in groupby(cells, lambda cell: (cell.line, cell.why or cell.path)):
        same = list(alike)
        first, refused = same[0], same[0].outcome == "not understood"
        named = f"{first.heading or 'no heading'}: {first.text}" if refused else first.path
        yield (
            first.line,
            named if len(same) == 1 else " | ".join(c.text for c in same),
            _said(first),
        )


def _said(cell: Cell) -> Text:
    said = Text(cell.value)
    if cell.why:
        said.append(f"{'; ' if cell.value else ''}{cell.why}", style="dim")
    return said


def _end(looked: Looked, *, written: bool) -> str:
    if looked.problems:
        return "The book would not be sound with it, so it cannot be written as it stands:"
    if not looked.files:
        return "The book would stay as it is."
    files = ", ".join(looked.files)
    return f"Written to {files}." if written else f"Nothing was written; --write changes {files}."


@guarded
def missing(book: str, about: str, request: Request, *, as_json: bool) -> int:
    """Say which facts a book leaves out, and what cannot be answered without them."""
    held = opened(book, request)
    found = lacking.missing(held, about)
    if as_json:
        show_json(missing_json(found, held.book.book.id))
    else:
        show(missing_sheet(found, held.book.book.name))
    return ANSWERED


def missing_sheet(found: Sequence[lacking.Missing], name: str) -> Iterator[RenderableType]:
    """Yield what a book leaves open, by kind of question."""
    yield Text(f"What {name} leaves open", style="bold")
    if not found:
        yield Text("Nothing that laws, sizing, drawings or service ask for.")
    for each in found:
        yield from heading(each.title)
        yield Text(each.says, style="dim")
        yield columns((Text(_lacks(gap)), _for(gap)) for gap in each.gaps)


def _lacks(gap: lacking.Gap) -> str:
    if gap.values:
        return gap.entries[0]
    owners = [entry or "the book" for entry in gap.entries]
    return f"{gap.field} of {_some(owners)}"


def _for(gap: lacking.Gap) -> Text:
    said = Text(f"could be {' or '.join(gap.values)}" if gap.values else "")
    if gap.questions:
        said.append(f"{'; ' if gap.values else ''}for {_some(gap.questions, '; ')}", style="dim")
    return said


def _some(names: Sequence[str], between: str = ", ") -> str:
    more = len(names) - MOST_NAMED
    return between.join(names[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")

"""What the commands do with a space file in place of a book, and a book as a space file."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from rich.console import RenderableType
from rich.text import Text

from baywright.answers.wording.ranges import ranges
from baywright.cli.guarding import ANSWERED, code_of, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import columns, sheet
from baywright.desk import space_telling as telling
from baywright.desk import spaces as desk
from baywright.desk.request import Request, opened
from baywright.files.spaces import space_text, write_space


@guarded
def ask(path: Path, question: str, request: Request, *, as_json: bool) -> int:
    """Answer a question about a space file."""
    with progress(f"Asking {path}", as_json=as_json):
        found = desk.ask(desk.open_space(path, request), question)
    if as_json:
        show_json(telling.answer_json(found))
    else:
        show(sheet(telling.answer_sheet(found)))
    return code_of(found.verdict)


@guarded
def count(
    path: Path,
    chosen: Sequence[str],
    given: str,
    request: Request,
    *,
    without_budget: bool,
    as_json: bool,
) -> int:
    """Count the builds of a space file."""
    with progress(f"Counting {path}", as_json=as_json):
        held = desk.open_space(path, request)
        found = desk.count(held, chosen, given, without_budget=without_budget)
    if as_json:
        show_json(telling.count_json(found))
    else:
        show(sheet(telling.count_sheet(found)))
    return ANSWERED


@guarded
def options(
    path: Path, chosen: Sequence[str], given: str, request: Request, *, as_json: bool
) -> int:
    """Show what every choice of a space file can still be."""
    with progress(f"Asking {path}", as_json=as_json):
        found = desk.options(desk.open_space(path, request), chosen, given)
    if as_json:
        show_json(telling.options_json(found))
    else:
        show(_options(found))
    return ANSWERED


def _options(found: desk.SpaceOptions) -> Iterator[RenderableType]:
    for each in found.choices:
        yield Text(each.choice)
        rows = [("can be", each.free), ("cannot be", each.closed)]
        yield columns(
            (Text(f"  {word}"), Text(", ".join(ranges(labels)))) for word, labels in rows if labels
        )
    free = sum(len(each.free) for each in found.choices)
    values = free + sum(len(each.closed) for each in found.choices)
    yield ""
    yield Text(f"{free:,} of {values:,} values are left.")
    yield Text(telling.proof_words(found.proof), style="dim")


@guarded
def export(book: str, out: Path | None, request: Request, *, as_json: bool) -> int:
    """Write the space of a book to a file, or to standard output."""
    with progress(f"Compiling {book}", as_json=as_json):
        held = opened(book, request)
        space = held.machine.space
    note = f"{held.book.book.name} (book {held.book.book.id}), as of {held.as_of.isoformat()}."
    if out is None:
        sys.stdout.write(space_text(space, note=note))
        return ANSWERED
    write_space(space, out, note=note)
    size = {"choices": len(space.choices), "tables": len(space.tables), "sums": len(space.sums)}
    if as_json:
        show_json({"written": str(out), **size})
    else:
        said = ", ".join(f"{number:,} {name}" for name, number in size.items())
        show([Text(f"{said}. Written to {out}.")])
    return ANSWERED

"""The command sheet: short papers about a machine or a build, each with its proof."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import console, progress, show_json
from baywright.desk.request import Request, opened
from baywright.desk.sheets.asked import Asked, length_of
from baywright.desk.sheets.files import form_of, sheet_files
from baywright.desk.sheets.making import kind_of, make_sheet
from baywright.files.folders import check_folder, write_files
from baywright.problems import problem

__all__ = ["Request", "Wanted", "sheet"]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of a sheet, as typed.

    Args:
        kind: the kind of sheet.
        out: the file or folder to write.
        build: the build it is about, or empty.
        other: the book to compare with, or empty.
        length: how long answers are.
        seed: which quiz it is.
        count: how many questions a quiz has.
    """

    kind: str
    out: Path
    build: str = ""
    other: str = ""
    length: str = "full"
    seed: int = 1
    count: int = 10


@guarded
def sheet(book: str, request: Request, wanted: Wanted, *, as_json: bool) -> int:
    """Write a sheet."""
    kind_of(wanted.kind)
    asked = Asked(
        wanted.kind,
        wanted.build,
        wanted.other,
        length_of(wanted.length),
        wanted.seed,
        _count(wanted.count),
    )
    check_folder(wanted.out.parent if form_of(wanted.out) else wanted.out)
    with progress(f"Writing the {wanted.kind} sheet of {book}", as_json=as_json) as tell:
        held = opened(book, request)
        made = make_sheet(held, asked)
        tell("laying it out")
        folder, files = sheet_files(made, held, book, wanted.kind, wanted.out)
        write_files(files, folder)
    _say(
        {"written": str(wanted.out), "files": list(files), "statements": len(made.statements)},
        as_json=as_json,
    )
    return ANSWERED


MOST = 200
"""Questions of one quiz."""


def _count(count: int) -> int:
    if not 1 <= count <= MOST:
        message = f"A quiz cannot have {count} questions."
        raise problem("no-count", message, None, f"Give 1 to {MOST}; another seed gives others.")
    return count


def _say(told: dict[str, object], *, as_json: bool) -> None:
    if as_json:
        show_json(told)
        return
    out = console()
    for name, value in told.items():
        shown = ", ".join(map(str, value)) if isinstance(value, list) else str(value)
        out.print(Text(f"{name}: {shown}"), soft_wrap=True)

"""What a captured table makes of a book, looked at first and written only when all is well."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from baywright.desk.capture.captured import Captured, How, Outcome
from baywright.desk.capture.capturing import capture
from baywright.exchange.lists.pasted import pasted_rows
from baywright.exchange.lists.rows import read_rows
from baywright.files.books import BUNDLED, find_book, label_of, read_book
from baywright.files.extending import Extended, extended, write_extended
from baywright.laws.wording import counted
from baywright.problems import Problem, Problems, problem

_MOST_TEXT = 4_000_000


@dataclass(frozen=True)
class Looked:
    """A captured table, and the book as it would be with it.

    Args:
        folder: folder of the book.
        table: name of the table.
        captured: what became of each cell.
        change: the book with it, or ``None`` when it would not be sound.
        problems: what would be wrong with it.
    """

    folder: Path
    table: str
    captured: Captured
    change: Extended | None
    problems: tuple[Problem, ...] = ()

    @property
    def files(self) -> tuple[str, ...]:
        """Names of the files that change."""
        return tuple(label_of(path) for path in self.change.new) if self.change else ()


def look(book: str, table: str, text: str | None, how: How) -> Looked:
    """Take a table apart and see what the book would be; nothing is written.

    Args:
        book: folder or bundled name of the book.
        table: path of the table, or the name of a pasted one.
        text: the pasted table, or ``None`` to read the file.
        how: how to take it.

    Raises:
        Problems: for the book, the table, or how it is to be taken.
    """
    folder = find_book(book)
    held = read_book(folder)
    path = Path(table)
    if text is None and path.suffix.lower() == ".xlsx":
        rows = read_rows(path)
    else:
        rows = pasted_rows(_text_of(path) if text is None else text, table)
    captured = capture(rows, held, how)
    try:
        change = extended(folder, captured.additions)
    except Problems as found:
        return Looked(folder, table, captured, None, found.problems)
    return Looked(folder, table, captured, change)


def write(looked: Looked, *, leave_rest: bool) -> None:
    """Write what a table brings into its book: all of it or nothing.

    Args:
        looked: the table as looked at.
        leave_rest: whether cells that were not understood, or that say something else than the
            book, may be left out.

    Raises:
        Problems: kinds ``not-captured`` and ``bundled``, those of the book as it would be, and
            those of writing.
    """
    if looked.folder.is_relative_to(BUNDLED):
        message = f"{looked.folder.name} came with the program."
        raise problem("bundled", message, None, f"Copy {looked.folder} and give the copy.")
    left = looked.captured.of("not understood", "differs")
    if left and not leave_rest:
        message = f"{counted(len(left), 'cell')} would be left out, so nothing was written."
        hint = "Mend them, say --map or --replace, or leave them out with --leave-rest."
        raise problem("not-captured", message, None, hint)
    if looked.change is None:
        raise Problems(looked.problems)
    write_extended(looked.change)


def counts(captured: Captured) -> Iterator[str]:
    """Yield how many cells there are of each outcome, in words; outcomes without any left out."""
    said: dict[Outcome, str] = {
        "new": "new",
        "same": "in the book already",
        "differs": "otherwise in the book",
        "not understood": "not understood",
        "blank": "blank",
    }
    for outcome, words in said.items():
        number = len(captured.of(outcome))
        if number:
            yield f"{number} {words}"


def _text_of(path: Path) -> str:
    try:
        if path.stat().st_size > _MOST_TEXT:
            raise problem("too-large", f"{path} is too large for a table.", None, "Give a part.")
        data = path.read_bytes()
    except OSError as error:
        why = error.strerror or type(error).__name__
        raise problem("no-list", f"{path} cannot be read: {why}.", None, "Check it.") from error
    encoding = "utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig"
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        hint = "Save it as UTF-8 text."
        raise problem("not-text", f"{path} is not text in UTF-8.", None, hint) from error

"""Two versions of a book as people name them: folders, revisions, change notes, days."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from baywright.desk.opening import Opened, Setting, open_book
from baywright.desk.request import Request
from baywright.files.books import bundled_books, find_book
from baywright.files.disk import is_file
from baywright.files.notes import Note, read_note, write_noted
from baywright.files.revisions import write_revision
from baywright.problems import Problems, problem, suggestion

NOTES = "changes"
"""Folder of a book with its change notes."""


@dataclass(frozen=True, slots=True)
class Change:
    """A change as it was asked for.

    Args:
        old: the version before.
        new: the version after.
        title: what it is called.
        says: what it is about, or empty.
    """

    old: Opened
    new: Opened
    title: str
    says: str = ""


@contextmanager
def change(old: str, new: str, request: Request, until: str = "") -> Iterator[Change]:
    """Open two versions of a book for as long as they are compared.

    Args:
        old: the book before: a folder, a bundled name, or either with ``@`` and a git revision.
        new: the book after, named likewise; or a change note: its file, or its name among those
            beside the book; or empty for the same book.
        request: day and limits.
        until: the day of the new version, where it is another.

    Raises:
        Problems: for a version that cannot be had, and what is wrong with it.
    """
    with tempfile.TemporaryDirectory(prefix="baywright-") as scratch:
        folder = _folder(old, Path(scratch) / "old")
        note = _note(folder, new) if new else None
        if note is not None:
            after = write_noted(folder, note, Path(scratch) / "new" / folder.name)
        else:
            after = _folder(new, Path(scratch) / "new") if new else folder
        yield Change(
            open_book(folder, request.setting(), request.panel()),
            open_book(after, _later(request, until), request.panel()),
            note.title if note else _title(old, new, request, until),
            note.says if note else "",
        )


def _later(request: Request, until: str) -> Setting:
    """Return day and site of the version after; what is wrong with its day is said of ``--to``."""
    if not until:
        return request.setting()
    try:
        return replace(request, as_of=until).setting()
    except Problems as found:
        wrong = [replace(p, message=p.message.replace("as-of:", "to:", 1)) for p in found.problems]
        raise Problems(wrong) from found


def notes_to_carry_out(book: str) -> list[str]:
    """Return the names of the change notes beside a book that is compared with nothing else.

    Raises:
        Problems: kind ``no-note`` where none lies there; ``no-book``.
    """
    revision = "@" in book and not Path(book).exists()
    notes = [] if revision else notes_of(book)
    if not notes:
        message = f"No change note lies beside {book}, so there is nothing to compare it with."
        hint = "Name the version after: a folder, BOOK@REVISION or a change note; or give --to."
        raise problem("no-note", message, None, hint)
    return notes


def notes_of(book: str) -> list[str]:
    """Return the names of the change notes beside a book."""
    return [path.stem for path in sorted((find_book(book) / NOTES).glob("*.yaml"))]


def every_note() -> list[tuple[str, str]]:
    """Return each change note beside a bundled book: the book, and the name of the note."""
    return [(book, note) for book in bundled_books() for note in notes_of(book)]


def _folder(name: str, scratch: Path) -> Path:
    """Return the folder of a version; a revision is written to a scratch folder."""
    book, at, revision = name.rpartition("@")
    if not at or Path(name).exists():
        return find_book(name)
    folder = find_book(book)
    return write_revision(folder, revision, scratch / folder.name)


def _note(folder: Path, name: str) -> Note | None:
    """Return the change note that is named, or ``None`` for the name of a book."""
    if is_file(Path(name)):
        return read_note(Path(name))
    beside = folder / NOTES / f"{name}.yaml"
    if is_file(beside):
        return read_note(beside)
    known = [path.stem for path in (folder / NOTES).glob("*.yaml")]
    if name.endswith(".yaml"):
        hint = suggestion(name, known) or "Give the path of a change note."
        raise problem("no-note", f"There is no change note {name!r}.", None, hint)
    return None


def _title(old: str, new: str, request: Request, until: str) -> str:
    if new:
        return f"{old} becomes {new}"
    return f"{old}, from {request.as_of or 'its edition'} to {until or 'its edition'}"

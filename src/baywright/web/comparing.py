"""Versions of a book compared in a process of its own."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from baywright.desk.changes.changing import Changes, changes
from baywright.desk.changes.versions import change, notes_of
from baywright.desk.changes.watched import Watched
from baywright.desk.request import Request
from baywright.problems import problem, suggestion
from baywright.web.runs import Tell
from baywright.web.scratch import folder

KEPT = "kept answers"
"""Name of the file of kept answers, which is what flips among them is called."""


_REVISION = re.compile(r"[A-Za-z0-9_][A-Za-z0-9_./~^@{}-]{0,199}")


@dataclass(frozen=True, slots=True)
class Versions:
    """Two versions of a book, as a page names them: one of the four ways.

    Args:
        book: name or folder of the book.
        note: name of a change note beside the book.
        written: text of a change note.
        revision: a revision of git, which becomes the book as it is.
        as_of: the day, in ISO form; the edition of the book unless given.
        until: the day of the new version, where it is another.
        kept: statements of kept answers to watch, a line of JSON each.
    """

    book: str
    note: str = ""
    written: str = ""
    revision: str = ""
    as_of: str = ""
    until: str = ""
    kept: str = ""

    @property
    def any(self) -> bool:
        """Whether there are two versions."""
        return bool(self.note or self.written or self.revision or self.until)


def compare(asked: Versions, tell: Tell) -> Changes:
    """Return everything that flips between two versions.

    Raises:
        Problems: for a version that cannot be had, and what is wrong with it.
        StoppedError: at a limit.
        RecheckError: when two engines do not agree.
    """
    if not asked.any:
        hint = "Name a change note, a revision or a day."
        raise problem("versions", "No other version is named.", None, hint)
    if sum(map(bool, (asked.note, asked.written, asked.revision))) > 1:
        message = "More than one other version is named."
        raise problem("versions", message, None, "Leave all but one of them empty.")
    tell("reading both versions")
    with folder() as made:
        old, new = _named(asked, made)
        with change(old, new, Request(as_of=asked.as_of), asked.until) as found:
            tell("finding anew what could have changed")
            title = f"{asked.revision} becomes the book as it is" if asked.revision else found.title
            return changes(found.old, found.new, _watched(asked, made), title, found.says)


def _named(asked: Versions, made: Path) -> tuple[str, str]:
    """Return the names of both versions; a note that is written is put into a file."""
    if asked.revision:
        return f"{asked.book}@{_revision(asked.revision)}", asked.book
    if asked.written:
        note = made / "note.yaml"
        note.write_text(asked.written, encoding="utf-8", errors="replace")
        return asked.book, str(note)
    known = notes_of(asked.book)
    if asked.note and asked.note not in known:
        message = f"There is no change note {asked.note!r} beside the book."
        raise problem("no-note", message, None, suggestion(asked.note, known))
    return asked.book, asked.note


def _revision(text: str) -> str:
    """Return a revision; one that could be a way through folders is none."""
    if ".." in text or not _REVISION.fullmatch(text):
        raise problem("no-revision", f"{text!r} is not a revision.", None, "Name a commit.")
    return text


def _watched(asked: Versions, made: Path) -> Watched:
    if not asked.kept:
        return Watched()
    file = made / KEPT
    file.write_text(asked.kept, encoding="utf-8")
    return Watched(statements=(file,))

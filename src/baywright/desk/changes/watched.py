"""What is watched while a book changes: two versions, and what people said, asked and built."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from baywright.answers.inquiry import StoppedError
from baywright.desk.changes.said import Said
from baywright.desk.opening import Opened
from baywright.desk.statements.shared import Shared
from baywright.problems import Problems


@dataclass(frozen=True)
class Versions:
    """Two versions of a book, with what statements about each share.

    Args:
        old: the version before.
        new: the version after.
    """

    old: Shared
    new: Shared

    def pair(self, say: Callable[[Opened], Said]) -> tuple[Said, Said]:
        """Return what is said under each; a version under which it makes no sense says why."""
        return said_or_why(lambda: say(self.old.opened)), said_or_why(lambda: say(self.new.opened))


@dataclass(frozen=True, slots=True)
class Watched:
    """What else is watched, beside what lies in the folder of the old version.

    Args:
        statements: files of statements: guides, sheets and kept answers.
        drafts: texts about the machine.
        orders: lists of parts.
        builds: build files, of installed machines too.
        needs: need files; proposals for them take seconds each.
    """

    statements: Sequence[Path] = field(default=())
    drafts: Sequence[Path] = field(default=())
    orders: Sequence[Path] = field(default=())
    builds: Sequence[Path] = field(default=())
    needs: Sequence[Path] = field(default=())


def said_or_why(say: Callable[[], Said]) -> Said:
    """Return what is said, or why nothing is."""
    try:
        return say()
    except Problems as problems:
        message = problems.problems[0].message
        return Said({"is": "makes no sense", "why": message}, f"It makes no sense: {message}")
    except StoppedError as stopped:
        return Said({"is": "stopped"}, f"Stopped before it was decided: {stopped.tried}.")

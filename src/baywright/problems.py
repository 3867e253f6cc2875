"""Problems: what is wrong with something a person gave us, where, and what to do next.

Bad input yields problem values that are gathered and shown together. Misuse of the
programming interface raises ordinary exceptions instead.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Mark:
    """A place in a text a person wrote.

    Args:
        file: path or name of the text, as the person would type it.
        line: line, counted from 1.
        column: column, counted from 1.
    """

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong.

    Args:
        kind: short documented name of the kind of problem, such as ``unknown-key``.
        message: what is wrong, one sentence.
        mark: where, or ``None`` when the problem has no place in a text.
        hint: what to do next, one sentence, or an empty string.
    """

    kind: str
    message: str
    mark: Mark | None = None
    hint: str = ""

    def __str__(self) -> str:
        place = f"{self.mark}: " if self.mark else ""
        hint = f" {self.hint}" if self.hint else ""
        return f"{place}{self.message}{hint} [{self.kind}]"

    def as_json(self) -> dict[str, object]:
        """Return the problem as plain JSON values."""
        where = self.mark and {
            "file": self.mark.file,
            "line": self.mark.line,
            "column": self.mark.column,
        }
        return {"kind": self.kind, "message": self.message, "where": where, "hint": self.hint}


class Problems(Exception):  # noqa: N818 - it carries the problems of an input, it is not itself an error kind
    """Raised when an input cannot be used; carries every problem found in it."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


def problem(kind: str, message: str, mark: Mark | None = None, hint: str = "") -> Problems:
    """Return an exception that carries a single problem, ready to be raised."""
    return Problems([Problem(kind, message, mark, hint)])


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word most like ``word``, or ``None`` when none is close.

    >>> nearest("procesor", ["memory", "processor"])
    'processor'
    """
    candidates = list(known)
    folded = {candidate.casefold(): candidate for candidate in candidates}
    close = difflib.get_close_matches(word.casefold(), list(folded), n=1, cutoff=0.6)
    return folded[close[0]] if close else None


def suggestion(word: str, known: Iterable[str], most: int = 12) -> str:
    """Return a hint: the nearest known word, or the list of known words when it is short."""
    candidates = sorted(set(known))
    close = nearest(word, candidates)
    if close:
        return f"Did you mean {close!r}?"
    if 0 < len(candidates) <= most:
        return f"Known here: {', '.join(candidates)}."
    return ""

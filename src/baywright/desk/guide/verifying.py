"""Verifying a folder of statements: each is proven again, and what no longer holds is named."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from baywright.answers.inquiry import StoppedError
from baywright.desk.guide.folder import read_folder
from baywright.desk.opening import Opened
from baywright.desk.request import Request, opened
from baywright.desk.statements.kind import Again
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Statement
from baywright.desk.statements.stating import reprove


@dataclass(frozen=True, slots=True)
class Verified:
    """A folder of statements, proven again.

    Args:
        book: name of the machine.
        as_of: the day, in ISO form.
        again: each statement that was decided.
        stopped: statements that were not decided in time.
    """

    book: str
    as_of: str
    again: tuple[Again, ...]
    stopped: tuple[Statement, ...]

    @property
    def failed(self) -> tuple[Again, ...]:
        """Those that no longer hold."""
        return tuple(each for each in self.again if not each.holds)

    @property
    def by_engine(self) -> Mapping[str, int]:
        """How many hold, by what proved them again."""
        found: dict[str, int] = {}
        for each in self.again:
            if each.holds:
                found[each.engine] = found.get(each.engine, 0) + 1
        return found


def verify(
    folder: Path, request: Request, book: str = "", tell: Callable[[str], None] = lambda _: None
) -> Verified:
    """Prove the statements of a folder again, against the book as it is now.

    Args:
        folder: the folder of a guide.
        request: the day, that of the folder unless given, and the time limit.
        book: the book, the one the folder names unless given.
        tell: takes a word on how far it is.

    Raises:
        Problems: for the folder, the request or the book.
        RecheckError: when two engines do not agree.
    """
    about, statements = read_folder(folder)
    asked = Request(request.as_of or about.as_of, seconds=request.seconds)
    return verified(opened(book or about.book, asked), statements, tell)


def verified(
    held: Opened,
    statements: tuple[Statement, ...],
    tell: Callable[[str], None] = lambda _: None,
) -> Verified:
    """Prove statements about an open book again; otherwise like ``verify``."""
    shared, again, stopped = Shared(held), [], []
    for number, statement in enumerate(statements, 1):
        if number % 50 == 0:
            tell(f"{number} of {len(statements)}")
        try:
            again.append(reprove(shared, statement))
        except StoppedError:
            stopped.append(statement)
    name = str(held.book.book.name)
    return Verified(name, held.as_of.isoformat(), tuple(again), tuple(stopped))

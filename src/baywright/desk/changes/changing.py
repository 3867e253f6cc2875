"""What becomes of everything that is watched when a book changes."""

from __future__ import annotations

from dataclasses import dataclass

from baywright.desk.changes.facts import FactChange, fact_changes
from baywright.desk.changes.registry import WATCHERS
from baywright.desk.changes.said import Pair
from baywright.desk.changes.watched import Versions, Watched
from baywright.desk.opening import Opened
from baywright.desk.statements.shared import Shared


@dataclass(frozen=True, slots=True)
class Changes:
    """A change of a book, with what it touches.

    Args:
        title: what the change is called.
        says: what it is about, or empty.
        book: id of the book.
        days: the day of each version, in ISO form.
        facts: the facts that differ.
        pairs: everything watched, with what is said of it before and after.
    """

    title: str
    says: str
    book: str
    days: tuple[str, str]
    facts: tuple[FactChange, ...]
    pairs: tuple[Pair, ...]

    @property
    def flips(self) -> tuple[Pair, ...]:
        """What comes out otherwise."""
        return tuple(pair for pair in self.pairs if pair.flips)

    @property
    def anew(self) -> int:
        """How many things had to be found anew; the others are known to stay."""
        return sum(pair.anew for pair in self.pairs)


def changes(
    old: Opened, new: Opened, watched: Watched | None = None, title: str = "", says: str = ""
) -> Changes:
    """Return what differs between two versions of a book, and everything that flips.

    Args:
        old: the version before, with its day.
        new: the version after, with its day.
        watched: what else is watched, beside what lies in the folder of the old version.
        title: what the change is called.
        says: what it is about.

    Raises:
        Problems: for a file that cannot be read.
        RecheckError: when two engines do not agree.
    """
    versions = Versions(Shared(old), Shared(new))
    pairs = tuple(pair for watcher in WATCHERS for pair in watcher(versions, watched or Watched()))
    return Changes(
        title,
        says,
        new.book.book.id,
        (old.as_of.isoformat(), new.as_of.isoformat()),
        fact_changes(old, new),
        pairs,
    )

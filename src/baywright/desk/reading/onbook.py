"""A record on a book: lines of a draft, places left open, entries in no place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from baywright.facts.record import Entry
from baywright.files.drafts import DraftLine

READ, FOLLOWS = "read", "follows"
"""How a line came about: the record says it, or it follows from what the record says."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the draft.

    Args:
        draft: the line.
        basis: ``read`` or ``follows``.
        where: the resources or structures it comes from.
    """

    draft: DraftLine
    basis: str
    where: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LeftOpen:
    """A place of which the record does not say what is in it."""

    place: str
    why: str


@dataclass(frozen=True, slots=True)
class NotFitted:
    """An entry that no line comes from.

    Args:
        entry: the entry.
        why: why not, a sentence without its end.
        could_be: parts or places it could be, where there are several.
    """

    entry: Entry
    why: str
    could_be: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class OnBook:
    """A record on a book.

    Args:
        lines: what is in each place.
        left_open: places of which it does not say.
        not_fitted: entries that no line comes from.
        crowded: places that hold one part and are said to hold several, with these entries.
    """

    lines: tuple[Line, ...]
    left_open: tuple[LeftOpen, ...]
    not_fitted: tuple[NotFitted, ...]
    crowded: Mapping[str, tuple[Entry, ...]]

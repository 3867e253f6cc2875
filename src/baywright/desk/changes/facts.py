"""Facts that differ between two versions of a book, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Protocol

from baywright.desk.fact_table import FactRow, fact_rows
from baywright.desk.opening import Opened
from baywright.facts.book import Book


@dataclass(frozen=True, slots=True)
class FactChange:
    """A fact that is another in the new version.

    Args:
        path: dotted path in the book.
        about: what it is a fact of, in words.
        before: the old row, or ``None`` for a fact that is new.
        after: the new row, or ``None`` for one that is gone.
    """

    path: str
    about: str
    before: FactRow | None
    after: FactRow | None

    @property
    def words(self) -> str:
        """What happened to it, one sentence."""
        match self.before, self.after:
            case None, FactRow() as new:
                return f"{self.about}: {new.text} is new."
            case FactRow() as old, None:
                return f"{self.about}: {old.text} is gone."
            case FactRow() as old, FactRow() as new if old.text != new.text:
                return f"{self.about}: {old.text} becomes {new.text}."
            case _:
                return f"{self.about}: the value stays, its source, date, status or note does not."


def fact_changes(old: Opened, new: Opened) -> tuple[FactChange, ...]:
    """Return the facts that differ, in the order of the new version and then of the old one."""
    before, after = _rows(old), _rows(new)
    return tuple(
        FactChange(path, about(new.book if path in after else old.book, path), was, now)
        for path in dict.fromkeys((*after, *before))
        if _said(was := before.get(path)) != _said(now := after.get(path))
    )


def _rows(opened: Opened) -> Mapping[str, FactRow]:
    return {row.path: row for row in fact_rows(opened)}


def _said(row: FactRow | None) -> tuple[object, ...] | None:
    """Return what a fact says, without where its file has it and what uses it."""
    if row is None:
        return None
    return (row.text, row.could_be, row.source, row.date, row.status, row.note)


def about(book: Book, path: str) -> str:
    """Return what a fact is about, in words.

    >>> from baywright.desk.opening import open_book
    >>> about(open_book("f2").book, "parts.ps-1300.ratings.low")
    '1300 W supply (ps-1300), ratings low'
    """
    return " ".join(_about(book, path.split("."))).replace("_", " ")


def _about(book: Book, steps: list[str]) -> Iterator[str]:
    section, *rest = steps
    named: Mapping[str, Mapping[str, Named]] = {"parts": book.parts, "places": book.places}
    things = named.get(section, {})
    if rest and rest[0] in things:
        yield f"{things[rest[0]].name} ({rest[0]}),"
        yield from rest[1:]
    elif section == "book" and rest:
        yield f"{book.book.name},"
        yield from rest
    else:
        yield f"{section}:"
        yield from rest


class Named(Protocol):
    """Something of a book that has a name."""

    @property
    def name(self) -> str:
        """The name as written in sentences."""

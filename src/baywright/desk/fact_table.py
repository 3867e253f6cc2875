"""The facts of a book as a table: value, source, date, status, place, and what stands on it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from baywright.desk.opening import Opened
from baywright.facts.book import facts_of
from baywright.files.writing import file_of_fact, set_value


@dataclass(frozen=True, slots=True)
class FactRow:
    """A fact.

    Args:
        path: dotted path in the book.
        text: the value as written, or ``unknown``.
        could_be: the values an unknown fact could have.
        source: title of its source.
        date: date it was stated, in ISO form, or empty.
        status: how firm it is.
        note: a remark.
        where: file and line.
        used: sentences of the laws and rules that stand on it.
    """

    path: str
    text: str
    could_be: tuple[str, ...]
    source: str
    date: str
    status: str
    note: str
    where: str
    used: tuple[str, ...]

    @property
    def section(self) -> str:
        """The first part of its path."""
        return self.path.partition(".")[0]


def fact_rows(opened: Opened) -> tuple[FactRow, ...]:
    """Return every fact of an open book, in the order of its sections."""
    used = _used(opened)
    rows = []
    for fact in facts_of(opened.book):
        cited = opened.book.cite(fact)[0]
        rows.append(
            FactRow(
                fact.path,
                fact.text,
                fact.could_be if fact.value is None else (),
                cited.source,
                cited.date.isoformat() if cited.date else "",
                fact.status if fact.value is not None else "unknown",
                fact.note,
                f"{fact.mark.file}:{fact.mark.line}" if fact.mark else "",
                used.get(fact.path, ()),
            )
        )
    return tuple(rows)


def _used(opened: Opened) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for origin in opened.machine.space.origins.values():
        for fact in origin.facts:
            sentences = found.get(fact.path, ())
            if origin.sentence not in sentences:
                found[fact.path] = (*sentences, origin.sentence)
    return found


def seen_of(opened: Opened, path: str) -> str:
    """Return the fingerprint of the file a fact stands in, as it is now.

    Raises:
        Problems: when the book has no such fact.
    """
    return file_of_fact(opened.folder, path)[1]


def change_fact(opened: Opened, path: str, text: str, seen: str) -> None:
    """Change a fact in its file, unless the file is another than the one that was seen.

    Raises:
        Problems: for a fact that there is not, a value that cannot be, a book that would not be
            sound with it, and a file that has changed meanwhile.
    """
    set_value(opened.folder, path, text, seen)

"""Capturing a table: each cell becomes a fact of a book, or is reported with the reason."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from baywright.desk.capture.captured import Captured, How
from baywright.desk.capture.cells import BLANK, Mark, Style, decimal_of, sort_of_leaf
from baywright.desk.capture.columns import Column, columns, known_headings
from baywright.desk.capture.entry import Entry, Filling
from baywright.desk.capture.targets import ID, Target, leaves, target_named, targets
from baywright.exchange.lists.rows import Row
from baywright.facts.book import Book
from baywright.facts.model import Model
from baywright.files.extending import Additions
from baywright.problems import problem, suggestion

MOST_ABOVE = 5
"""Headings are looked for in so many rows."""

_NOT_AMOUNTS = ("name", "text", "date", "truth", "whole")


def capture(rows: Sequence[Row], book: Book, how: How) -> Captured:
    """Take a table apart; nothing is written.

    Args:
        rows: its rows, headings and what stands above them included.
        book: the book that takes it.
        how: how to take it.

    Raises:
        Problems: kinds ``unknown-target``, ``unclear-table``, ``unknown-heading`` and
            ``unknown-reference``.
    """
    if how.source and how.source not in book.sources:
        hint = suggestion(how.source, book.sources) or "Add it to sources first."
        raise problem("unknown-reference", f"There is no source {how.source!r}.", None, hint)
    target = target_named(how.about) if how.about else _guessed(rows, book)
    above = range(min(len(rows), MOST_ABOVE))
    head = max(above, key=lambda at: known_headings(rows[at].cells, target, book))
    _check_mapped(how.mapped, rows[head])
    found = columns(rows[head].cells, target, book, how.mapped)
    body = rows[head + 1 :]
    style = Style(how.decimal or _decimal(body, found, target), book.book.currency)
    filling = Filling(target, found, how, style, str(book.book.source))
    for row in rows[:head]:
        filling.refuse(row, "It stands above the headings.")
    _Rows(filling, book).take(body)
    additions = Additions(filling.added, filling.values)
    return Captured(target.name, found, tuple(filling.cells), additions)


def _check_mapped(mapped: Mapping[str, str], headings: Row) -> None:
    for heading in mapped:
        if heading not in headings.cells:
            hint = suggestion(heading, headings.cells)
            raise problem("unknown-heading", f"No column is headed {heading!r}.", None, hint)


def _guessed(rows: Sequence[Row], book: Book) -> Target:
    """Return the target that understands most headings, if there is one."""
    every = {target.name: target for target in targets().values()}
    scores = {
        name: max(known_headings(row.cells, target, book) for row in rows[:MOST_ABOVE])
        for name, target in every.items()
    }
    most = max(scores.values())
    names = [name for name, score in scores.items() if score == most]
    # Parts of several kinds know every heading that one kind knows.
    if len(names) == 2 and "parts" in names:
        names.remove("parts")
    if len(names) > 1 or most < 2:
        message = "Its headings do not tell what the table is about."
        hint = f"Say it with --as, such as --as {names[0] if most > 1 else 'parts'}."
        raise problem("unclear-table", message, rows[0].mark, hint)
    return every[names[0]]


def _decimal(rows: Sequence[Row], found: Sequence[Column], target: Target) -> Mark:
    """Return the sign before decimals that the columns of amounts show."""
    amounts = {
        leaf.path
        for model in target.models.values()
        for leaf in leaves(model)
        if sort_of_leaf(leaf) not in _NOT_AMOUNTS
    }
    wanted = [
        column.at
        for column in found
        if column.path in amounts or (*column.path[:-1], "*") in amounts
    ]
    return decimal_of(row.cells[at] for row in rows for at in wanted if at < len(row.cells))


class _Rows:
    """Finds what each row of a table is about.

    Args:
        filling: fills the entries.
        book: the book.
    """

    def __init__(self, filling: Filling, book: Book) -> None:
        self.filling, self.target, self.book = filling, filling.target, book
        self.seen: dict[str, str] = {}
        held = getattr(book, self.target.steps[0]) if self.target.keyed else {}
        self.there: Mapping[str, Model] = held
        self.named = {
            str(getattr(each, "name", "")).casefold(): str(key) for key, each in held.items()
        }

    def take(self, rows: Sequence[Row]) -> None:
        """Take each row in turn."""
        for row in rows:
            entry = self._entry(row)
            if isinstance(entry, str):
                self.filling.refuse(row, entry)
            else:
                self.filling.fill(row, entry)

    def _entry(self, row: Row) -> Entry | str:
        """Return what a row is about, or why that cannot be said."""
        given = {
            column.path: self._cell(row, column.at)
            for column in self.filling.columns
            if column.path
        }
        word = self._word(given)
        model = self.target.models.get(word)
        if model is None:
            return self._no_word(word)
        if not self.target.keyed:
            held = len(self.book.chassis.ports) + len(self.filling.added)
            return Entry((*self.target.steps, held), word, model, None)
        key = self._key(given)
        why = self._refused(key, model)
        if why:
            return why
        self.seen[key] = row.where
        return Entry((*self.target.steps, key), word, model, self.there.get(key))

    @staticmethod
    def _cell(row: Row, at: int) -> str:
        text = row.cells[at] if at < len(row.cells) else ""
        return "" if text.casefold() in BLANK else text

    def _word(self, given: Mapping[tuple[str, ...], str]) -> str:
        """Return the kind or type of a row: said, or that of the entry in the book."""
        said = given.get((self.target.tag,), "").casefold()
        old = self.there.get(self._key(given)) if self.target.keyed else None
        return said or self.target.fixed or str(getattr(old, self.target.tag, "") if old else "")

    def _no_word(self, word: str) -> str:
        said = f"{word!r} is no {self.target.tag} of this table." if word else ""
        hint = suggestion(word, self.target.models, most=20)
        return f"{said or f'It has no {self.target.tag}.'} {hint}".strip()

    def _key(self, given: Mapping[tuple[str, ...], str]) -> str:
        """Return the id of a row, made of its name where it has none."""
        said = given.get((ID,), "") or given.get(("name",), "")
        if said in self.there:
            return said
        return self.named.get(said.casefold()) or self._made_of(said)

    def _made_of(self, text: str) -> str:
        """Return an id for a new entry: one word; for a place one that expressions can hold."""
        if self.target.steps != ("places",):
            return "-".join(text.split())
        made = re.sub(r"\W+", "_", text, flags=re.ASCII).strip("_")
        return f"n{made}" if made[:1].isdigit() else made

    def _refused(self, key: str, model: type[Model]) -> str:
        if not key:
            return "Neither an id nor a name says what it is about."
        if key in self.seen:
            return f"Line {self.seen[key]} is about {key} already."
        old = self.there.get(key)
        if old is not None and not isinstance(old, model):
            return f"{key} is a {getattr(old, self.target.tag)} in the book."
        return ""

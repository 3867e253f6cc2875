"""Answers of the question desk, kept in the store."""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any, cast

from baywright.desk.kept.asking import answer
from baywright.desk.kept.entry import Entry, entry_from
from baywright.desk.opening import Opened
from baywright.store import Store

KEY = "kept"
"""Begins the JSON of an answer that is kept with its proof; answers in passing have other keys."""

MOST = 2000
"""Kept answers of a book that are looked at, the newest."""


def keep(store: Store, opened: Opened, book: str, question: str, by: str) -> Entry:
    """Answer a question and keep the answer with its proof; it is in the store on return.

    Args:
        store: the store.
        opened: the book, with engines of its own.
        book: name of the book.
        question: the question, as an expression or in plain words.
        by: who asks, or empty.

    Raises:
        Problems: for a question that is not understood, or an answer that cannot be kept.
        StoreUnavailable: when nothing can be kept now.
    """
    now = datetime.datetime.now(datetime.UTC).replace(microsecond=0)
    entry = answer(opened, question, by, now)
    said = entry.statement
    whole = {KEY: entry.as_json(), "word": said.words}
    store.answers.keep(book, question, said.query.text, whole, opened.as_of, by)
    return entry


def kept_answers(store: Store, book: str) -> tuple[Entry, ...]:
    """Return the kept answers about a book, the oldest first.

    Raises:
        StoreUnavailable: when they cannot be read now.
    """
    return tuple(reversed(tuple(_entries(store, book))))


def _entries(store: Store, book: str) -> Iterator[Entry]:
    for each in store.answers.having(book, KEY, MOST):
        entry = entry_from(cast("Mapping[str, Any]", each.answer[KEY]))
        yield replace(entry, by=each.by)


def kept_lines(store: Store, book: str) -> str:
    """Return the kept answers about a book as a file of them: a line of JSON each."""
    return _lines(each.as_json() for each in kept_answers(store, book))


def kept_statements(store: Store, book: str) -> str:
    """Return what kept answers about a book state, as a file of statements."""
    return _lines(each.statement.as_json() for each in kept_answers(store, book))


def _lines(held: Iterable[Mapping[str, object]]) -> str:
    return "".join(f"{json.dumps(each, ensure_ascii=False)}\n" for each in held)

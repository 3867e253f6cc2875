"""Questions with their answers, kept as they were given."""

from __future__ import annotations

import datetime
import secrets
from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import select

from baywright.store.tables import AnswerRow
from baywright.store.texts import MOST_TEXT, as_json, as_text, checked, is_plain, named
from baywright.store.transactions import Transactions


@dataclass(frozen=True, slots=True)
class Answered:
    """A question and its answer.

    Args:
        id: what it is found by; made by chance, fit for an address.
        book: name of the book that was asked.
        question: the question as typed.
        reading: how it was understood, as an expression.
        answer: the verdict as JSON.
        as_of: the day it holds for.
        by: who asked, or empty where nobody signed in.
        asked: when it was asked.
    """

    id: str
    book: str
    question: str
    reading: str
    answer: Mapping[str, object]
    as_of: datetime.date
    by: str
    asked: datetime.datetime


class Answers:
    """The answers of a store."""

    def __init__(self, transactions: Transactions) -> None:
        self._transactions = transactions

    def keep(
        self,
        book: str,
        question: str,
        reading: str,
        answer: Mapping[str, object],
        as_of: datetime.date,
        by: str,
    ) -> str:
        """Keep an answer.

        Args:
            book: name of the book that was asked.
            question: the question as typed.
            reading: how it was understood, as an expression.
            answer: the verdict as JSON.
            as_of: the day it holds for.
            by: who asked, or empty where nobody signed in.

        Returns:
            Its id.

        Raises:
            Problems: when a text cannot be kept.
            StoreUnavailable: when nothing can be kept now.
        """
        row = AnswerRow(
            id=secrets.token_hex(10),
            book=named(book, "The name of the book"),
            question=checked(question, "The question", MOST_TEXT),
            reading=checked(reading, "The question as understood", MOST_TEXT),
            answer=as_text(answer, "The answer"),
            as_of=as_of,
            by=checked(by, "The name of who asks"),
            asked=self._transactions.clock(),
        )
        with self._transactions.writing() as session:
            session.add(row)
        return row.id

    def get(self, answer: str) -> Answered | None:
        """Return an answer by its id, or ``None`` when there is none.

        Raises:
            StoreUnavailable: when it cannot be read now.
        """
        if not is_plain(answer):
            return None
        with self._transactions.reading() as session:
            row = session.scalar(select(AnswerRow).where(AnswerRow.id == answer))
            return None if row is None else _answered(row)

    def recent(self, by: str, limit: int = 20) -> tuple[Answered, ...]:
        """Return the last answers given to someone, newest first.

        Args:
            by: who asked, or empty where nobody signed in.
            limit: how many, 1 or more.

        Raises:
            StoreUnavailable: when they cannot be read now.
        """
        wanted = select(AnswerRow).where(AnswerRow.by == checked(by, "The name of who asks"))
        with self._transactions.reading() as session:
            newest = session.scalars(wanted.order_by(AnswerRow.number.desc()).limit(limit))
            return tuple(_answered(row) for row in newest)

    def having(self, book: str, key: str, limit: int) -> tuple[Answered, ...]:
        """Return the last answers about a book whose JSON begins with a key, newest first.

        Args:
            book: name of the book.
            key: the key that the JSON begins with.
            limit: how many, 1 or more.

        Raises:
            StoreUnavailable: when they cannot be read now.
        """
        begins = AnswerRow.answer.startswith(f'{{"{key}":', autoescape=True)
        wanted = select(AnswerRow).where(AnswerRow.book == book, begins)
        with self._transactions.reading() as session:
            newest = session.scalars(wanted.order_by(AnswerRow.number.desc()).limit(limit))
            return tuple(_answered(row) for row in newest)


def _answered(row: AnswerRow) -> Answered:
    return Answered(
        row.id,
        row.book,
        row.question,
        row.reading,
        as_json(row.answer),
        row.as_of,
        row.by,
        row.asked,
    )

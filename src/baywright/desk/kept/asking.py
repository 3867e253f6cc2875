"""Answering a question to keep it, and finding the same one asked before."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from baywright.desk.kept.entry import Entry
from baywright.desk.opening import Opened
from baywright.desk.proofreading.answering import Answerer, is_expression
from baywright.desk.statements.query import Query
from baywright.desk.statements.seals import Sealer
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.stating import state
from baywright.language.tokens import tokens
from baywright.problems import Mark, Problems, problem
from baywright.terms import parse, text
from baywright.terms.syntax import And, Expression, Or

NEAR = 0.5
"""Share of their words from which two questions are said to be near."""


@dataclass(frozen=True, slots=True)
class Before:
    """A question that was asked before.

    Args:
        entry: the kept answer.
        same: whether it is the same question, by its reading; otherwise only its words are near.
    """

    entry: Entry
    same: bool


def answer(opened: Opened, question: str, by: str, when: datetime.datetime) -> Entry:
    """Answer a question, written as an expression or in plain words, so that it can be kept.

    Args:
        opened: the book, with day and site.
        question: the question.
        by: who asked, or empty.
        when: when it was asked.

    Raises:
        Problems: for a question that is not understood.
        StoppedError: at a limit.
        RecheckError: when two engines do not agree.
    """
    shared = Shared(opened)
    statement = state(shared, _query(opened, question))
    seal = Sealer(shared).seal(statement)
    return Entry(question, statement, seal, by, when, opened.book.book.id)


def _query(opened: Opened, question: str) -> Query:
    day = opened.as_of.isoformat()
    if is_expression(question):
        return Query("ask", question, as_of=day)
    told = Answerer(opened).ask(question)
    if told.not_understood:
        message = f"Not understood: {', '.join(told.not_understood)}."
        raise problem("not-understood", message, None, "Ask it in other words.")
    if told.verdict is not None:
        return Query("ask", told.verdict.question, as_of=day)
    return Query("words", question, as_of=day)


def of_book(entries: Iterable[Entry], book: str) -> tuple[Entry, ...]:
    """Return the kept answers about a book; one that does not tell its book counts for any."""
    return tuple(entry for entry in entries if entry.book in ("", book))


def before(entries: Iterable[Entry], question: Entry) -> Iterator[Before]:
    """Yield the kept answers to the same question, and those to questions in near words.

    Two questions are the same when their readings are, whatever order their terms have.
    """
    form, words = normal(question.statement.query), _words(question.asked)
    for entry in entries:
        if normal(entry.statement.query) == form:
            yield Before(entry, same=True)
        elif _alike(words, _words(entry.asked)) >= NEAR:
            yield Before(entry, same=False)


def normal(query: Query) -> tuple[str, str]:
    """Return what two queries have in common that ask the same: kind, and text in one order."""
    if query.kind != "ask":
        return query.kind, " ".join(_words(query.text))
    try:
        return query.kind, _ordered(parse(query.text, Mark("question", 1, 1)))
    except Problems:
        return query.kind, query.text


def _ordered(expression: Expression) -> str:
    """Return an expression as text, with the terms of ``and`` and ``or`` sorted."""
    if isinstance(expression, And | Or):
        word = "and" if isinstance(expression, And) else "or"
        return f"({f' {word} '.join(sorted(map(_ordered, expression.terms)))})"
    return text(expression)


def _words(question: str) -> tuple[str, ...]:
    return tuple(token.folded for token in tokens(question))


def _alike(one: tuple[str, ...], other: tuple[str, ...]) -> float:
    """Return the share of all their words that two questions have in common."""
    mine, theirs = set(one), set(other)
    return len(mine & theirs) / len(mine | theirs) if mine | theirs else 0.0

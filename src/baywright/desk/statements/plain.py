"""Statements that answer questions in plain words which are no expression: where, since when."""

from __future__ import annotations

from baywright.desk.proofreading.answering import Answerer
from baywright.desk.statements.kind import Kind
from baywright.desk.statements.query import Query
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Statement
from baywright.problems import problem


def _state(shared: Shared, query: Query) -> Statement:
    told = Answerer(shared.at(query)).ask(query.text)
    if told.not_understood:
        words = ", ".join(told.not_understood)
        message = f"Not understood: {words}."
        raise problem("not-understood", message, None, "Ask it in other words.")
    return Statement(
        query, {"is": "told", "says": told.answer}, told.answer, "book", facts=told.facts
    )


def _again(shared: Shared, statement: Statement) -> tuple[bool, str]:
    """Look the facts up once more; there is no engine in it that another could stand in for."""
    return _state(shared, statement.query).value == statement.value, "book, anew"


WORDS = Kind("words", "a question in plain words that facts answer", _state, _again)

"""Answers to questions in plain words, as plain JSON values."""

from __future__ import annotations

from baywright.answers.as_json import Json
from baywright.desk.as_json import answer_json
from baywright.desk.proofreading.answering import Told


def told_json(told: Told) -> Json:
    """Return an answer to a question in plain words."""
    return {
        "question": told.question,
        "form": told.form,
        "reading": told.reading,
        "not_understood": list(told.not_understood),
        "says": told.answer,
        "reply": told.reply,
        "facts": [fact.as_json() for fact in told.facts],
        "book": told.book,
        "as_of": told.as_of,
        "answer": answer_json(told.verdict) if told.verdict is not None else None,
    }

"""Whether an answer to a question in plain words is the one the corpus has."""

from __future__ import annotations

import re

from baywright.answers.verdicts import Bound, Count, No, Yes
from baywright.desk.proofreading.answering import Told
from tests.desk.demo import opened
from tests.language.corpus import Question
from tests.language.truth import rounds_to, site

DECLINED = ("not-understood", "not-in-the-book")
"""Answers of questions that are to be declined."""

KEY = re.compile(r"[a-z_]+\.[\w-]+(/[\w-]+)?")

NEEDED = {"processor 2": "two processors"}
"""What the corpus calls otherwise than an answer does."""


def agrees(question: Question, told: Told) -> bool:
    """Say whether an answer comes to the same as that of the corpus."""
    wanted = question.answer
    match question.form:
        case "can-it" | "is-it" | "together":
            return said_yes(told) == (wanted != "no")
        case "why-not":
            return reasons_agree(wanted, told)
        case "most" | "least":
            return rounds_to(site(question), told.reading, wanted)
        case "how-many-ways" | "which":
            number = int(wanted) if wanted.isdigit() else len(wanted.split("; "))
            return listed(told) == number
        case "where":
            return all(_named(question.book, each) in told.answer for each in wanted.split("; "))
        case "what-does-it-need":
            named = [_named(question.book, each) for each in wanted.split("; ") if _is_id(each)]
            return all(each in told.answer for each in named)
        case "since-when" | "what-changed":
            return wanted in told.answer
    return bool(told.answer)


def said_yes(told: Told) -> bool:
    """Say whether an answer says yes."""
    if told.verdict is not None:
        return isinstance(told.verdict.verdict, Yes)
    return told.answer.startswith("Yes")


def rows(told: Told) -> tuple[tuple[str, ...], ...]:
    """Return the combinations an answer lists."""
    found = told.verdict.verdict if told.verdict is not None else None
    return tuple(tuple(row) for row in found.rows) if isinstance(found, Count) else ()


def listed(told: Told) -> int:
    """Return how many things an answer lists, by an engine or one by one."""
    number = re.match(r"\d+", told.answer)
    return len(rows(told)) or (int(number[0]) if number else 0)


def reasons_agree(wanted: str, told: Told) -> bool:
    """Say whether the laws and rules of the corpus are among the reasons, in one set or another."""
    found = told.verdict.verdict if told.verdict is not None else None
    if not isinstance(found, No):
        return isinstance(found, Yes | Bound) and wanted == "it can"
    keys = {part for part in wanted.split("; ") if KEY.fullmatch(part)}
    return keys <= {reason.key for reason in found.reasons}


def _is_id(said: str) -> bool:
    """Say whether what is needed is named by an id; other words can be said in many ways."""
    return said in NEEDED or " " not in said


def _named(book: str, said: str) -> str:
    held = opened(book).book
    if said in held.places:
        return NEEDED.get(held.places[said].name, held.places[said].name)
    return held.parts[said].name if said in held.parts else NEEDED.get(said, said)

"""The likeliest questions after a walkthrough, with their answers.

A question is likelier the more sentences of the walkthrough share a naming word with it, each
sentence counted once; of questions with the same number, those of the book's own list come first.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from baywright.answers.wording import Sheet
from baywright.desk.asking import ask
from baywright.desk.proofreading.answering import Answerer
from baywright.desk.questions import read_questions
from baywright.desk.telling import answer_sheet
from baywright.desk.walk.walk import Walk
from baywright.language.word_forms import naming, words_of
from baywright.papers.script import Answered

MOST = 10
"""How many questions are answered."""

MOST_REASONS = 2
"""How many laws a no is explained by; more are not listened to."""

ALWAYS = (
    "How much memory at most?",
    "How many fast drives at most?",
    "How many SAS drives at most?",
    "How many accelerators at most?",
    "What happens if one supply fails?",
    "What happens if one fan fails?",
    "How many USB ports at most, front, rear and inside together?",
    "How fast is memory at most?",
    "How many cores at most?",
    "How many network modules at most?",
    "Are all supplies identical?",
    "How many fans are there?",
    "How many slots are there?",
    "Does it run at 120 V?",
    "Can it run at 3,000 m?",
    "How wide is it?",
    "What needs the second processor?",
    "When does it ship?",
    "How deep is it?",
    "How much does it weigh?",
)
"""Questions about the limits of any machine."""


@dataclass(frozen=True, slots=True)
class _Asked:
    """A question with how likely it is.

    Args:
        says: the question.
        expression: the same as an expression, or empty.
        listed: whether the book lists it.
        score: how many sentences share a word with it.
    """

    says: str
    expression: str
    listed: bool
    score: int


def likeliest(made: Walk) -> tuple[Answered, ...]:
    """Return the likeliest questions that can be answered, the likeliest first."""
    wanted = sorted(_asked(made), key=lambda each: (-each.score, not each.listed))
    answerer = Answerer(made.opened)
    found: list[Answered] = []
    for each in wanted:
        answered = _answered(made, answerer, each)
        if answered is not None and answered.stands_on not in {a.stands_on for a in found}:
            found.append(answered)
        if len(found) == MOST:
            break
    return tuple(found)


def _asked(made: Walk) -> Iterator[_Asked]:
    sentences = [set(naming(words_of(line.says))) for shot in made.shots for line in shot.lines]
    listed = [
        (each.says, each.ask)
        for path in sorted((made.opened.folder / "questions").glob("*.yaml"))
        for each in read_questions(path)
        if not each.as_of and " them" not in each.says
    ]
    for says, expression in (*listed, *((each, "") for each in ALWAYS)):
        words = set(naming(words_of(says)))
        score = sum(bool(words & held) for held in sentences)
        yield _Asked(says, expression, bool(expression), score)


def _answered(made: Walk, answerer: Answerer, asked: _Asked) -> Answered | None:
    why = f"shares words with {asked.score} sentences"
    if asked.listed:
        said = _said(answer_sheet(made.opened, ask(made.opened, asked.expression)))
        return Answered(asked.says, said, f"in the book's own list, {why}", asked.expression)
    told = answerer.ask(asked.says)
    if told.not_understood or not told.answer:
        return None
    verdict = told.verdict
    said = _said(answer_sheet(made.opened, verdict)) if verdict is not None else told.answer
    return Answered(asked.says, said, why, told.reading)


def _said(sheet: Sheet) -> str:
    """Return an answer as it is spoken: the word, and for a no its reason."""
    if sheet.kind == "yes":
        every = sheet.sentence.startswith("Every")
        return "Yes, every legal build has it." if every else "Yes, a legal build has it."
    if sheet.kind == "together":
        return f"Not all of them together. {sheet.sentence.partition('. ')[2]}"
    if sheet.kind != "no":
        return f"{sheet.word}."
    if sheet.sentence.startswith("Not every"):
        return "No, not every legal build has it."
    reason = sheet.sentence.removeprefix("No legal build has this. ")
    if reason == sheet.sentence or reason.startswith("What is asked"):
        laws = [each.sentence for each in sheet.grounds if each.kind != "asked"]
        reason = " ".join(laws[:MOST_REASONS])
    return f"No. {reason}" if reason else "No, no legal build has it."

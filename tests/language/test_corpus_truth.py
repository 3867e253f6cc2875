"""The labels of the corpus against the books: what the desk says decides, not who wrote them."""

from __future__ import annotations

import re

import pytest

from baywright.answers.verdicts import Count, No, Together, Yes
from tests.desk.demo import opened
from tests.language.corpus import (
    BOOKS,
    FORMS,
    HALVES,
    VERDICTS,
    Entry,
    Question,
    Statement,
    all_questions,
    all_statements,
    in_half,
    questions,
    statements,
)
from tests.language.truth import Truth, holds, rounds_to, site, truth, verdict

NOTHING_TO_CHECK = {"not-in-the-book", "not-understood", "nothing", "scope-unclear"}
"""Labels that no fact of the book decides."""

STATUS = {
    "not-yet": {"unannounced", "announced", "sample"},
    "no-longer": {"withdrawn"},
    "sample": {"sample"},
}
"""What a machine is on the day of a sentence that comes too early or too late."""

KEY = re.compile(r"[a-z_]+\.[\w-]+(/[\w-]+)?")
"""The key of a law or a rule."""

PRE_RELEASE = "is pre-release"
"""How a ground ends that says a fact was measured on a sample."""


def truths(entry: Entry, day: str | None = None) -> set[Truth]:
    """Return how much is so of each claim of an entry."""
    return {truth(site(entry, day), claim) for claim in entry.expressions}


def label(statement: Statement) -> str:
    """Return the verdict that the expressions of a statement lead to."""
    found = truths(statement)
    if Truth.FALSE in found:
        return "false"
    return "only-if" if Truth.SOMETIMES in found else "true"


def each_alone(statement: Statement) -> bool:
    """Say whether claims that do not hold together hold one by one."""
    (claim,) = statement.expressions
    found = verdict(site(statement), claim)
    assert isinstance(found, Together)
    kept = {position for wishes, _ in found.largest for position in wishes}
    return kept == set(range(len(found.asked)))


def confirmed(statement: Statement) -> bool:
    """Say whether the desk bears out the verdict of a statement."""
    wanted = statement.verdict
    if wanted == "not-together":
        return each_alone(statement)
    if wanted == "sample" and statement.grounds:
        return any(ground.endswith(PRE_RELEASE) for ground in statement.grounds)
    if wanted in STATUS and not (wanted == "not-yet" and statement.expressions):
        return opened(*site(statement)).status.word in STATUS[wanted]
    if wanted == "not-yet":
        return label(statement) == "false" and truths(statement, "") == {Truth.TRUE}
    return not statement.expressions or label(statement) == wanted


def ids(entry: Entry) -> str:
    return f"{entry.book}: {entry.text}"


def check(statement: Statement) -> None:
    assert confirmed(statement)
    assert [ground for ground in statement.grounds if not holds(ground, statement)] == []


# Half the time of all labels goes into half of the statements on F2.
MANY = in_half(statements("f2"), "tuning")


@pytest.mark.parametrize(
    "statement", [each for each in all_statements() if each not in MANY], ids=ids
)
def test_a_statement_is_labelled_as_the_book_has_it(statement: Statement) -> None:
    check(statement)


@pytest.mark.slow
@pytest.mark.parametrize("statement", MANY, ids=ids)
def test_the_many_statements_on_f2_are_labelled_as_the_book_has_it(statement: Statement) -> None:
    check(statement)


def answered(question: Question) -> bool:
    """Say whether the desk bears out the answer to a question."""
    (claim,) = question.expressions
    wanted = question.answer
    match question.form:
        case "most" | "least":
            return rounds_to(site(question), claim, wanted)
        case "how-many-ways":
            return truth(site(question), f"{claim} == {wanted}") is Truth.TRUE
        case "which":
            found = verdict(site(question), claim)
            return isinstance(found, Count) and wanted == "; ".join(map(", ".join, found.rows))
        case "why-not":
            return because(question, claim)
        case _:
            return (truth(site(question), claim) is Truth.TRUE) == (wanted != "no")


def because(question: Question, claim: str) -> bool:
    """Say whether the laws and rules of an answer are among the reasons of a no.

    An answer in words has none of their keys; its grounds bear it out.
    """
    match verdict(site(question), claim):
        case No(reasons):
            wanted = {part for part in question.answer.split("; ") if KEY.fullmatch(part)}
            return wanted <= {reason.key for reason in reasons}
        case found:
            return isinstance(found, Yes) and question.answer == "it can"


@pytest.mark.parametrize("question", all_questions(), ids=ids)
def test_a_question_is_answered_as_the_book_has_it(question: Question) -> None:
    assert not question.expressions or answered(question)
    assert [ground for ground in question.grounds if not holds(ground, question)] == []


ENTRIES: tuple[Entry, ...] = (*all_statements(), *all_questions())


def test_every_entry_says_what_its_label_stands_on() -> None:
    """Labels that facts decide have an expression or grounds; one without words says why."""
    assert [each for each in ENTRIES if not each.expressions and not each.because] == []
    bare = [each for each in ENTRIES if not each.expressions and not each.grounds]
    labels = {each.text: each.verdict for each in bare if isinstance(each, Statement)}
    labels |= {each.text: each.answer for each in bare if isinstance(each, Question)}
    free = {*NOTHING_TO_CHECK, *STATUS}
    assert {text: label for text, label in labels.items() if label not in free} == {}


def test_every_label_is_one_of_those_there_are() -> None:
    assert {each.verdict for each in all_statements()} == VERDICTS
    assert {each.form for each in all_questions()} == FORMS
    assert [each for each in all_questions() if not each.answer] == []


def test_a_false_statement_has_a_true_one_beside_it() -> None:
    false = [each for each in all_statements() if each.verdict == "false"]
    assert [each for each in false if not each.corrected] == []


def test_no_text_stands_twice() -> None:
    seen = [(entry.book, entry.text) for entry in ENTRIES]
    assert len(set(seen)) == len(seen)


def test_the_corpus_is_as_large_and_as_mixed_as_it_has_to_be() -> None:
    said, asked = all_statements(), all_questions()
    assert len(said) >= 440
    assert len(asked) >= 130
    for book in BOOKS:
        assert statements(book)
        assert questions(book)
    for part in HALVES:
        assert {each.verdict for each in in_half(said, part)} == VERDICTS
        assert {each.form for each in in_half(asked, part)} == FORMS


def test_the_halves_are_about_equal() -> None:
    held = in_half(ENTRIES, "held")
    assert 0.45 < len(held) / len(ENTRIES) < 0.55

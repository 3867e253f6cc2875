"""Questions in plain words: each form answered, and none where a word is not understood."""

from __future__ import annotations

from functools import cache

import pytest

from baywright.answers.verdicts import Bound, No, Yes
from baywright.desk.proofreading.answering import Answerer, Told, is_expression
from tests.desk.demo import opened


@cache
def answerer(book: str) -> Answerer:
    return Answerer(opened(book))


def told(question: str, book: str = "f2") -> Told:
    return answerer(book).ask(question)


def verdict(question: str, book: str = "f2") -> object:
    found = told(question, book).verdict
    return found.verdict if found is not None else None


def test_can_it() -> None:
    assert isinstance(verdict("Can the F2 hold 24 SAS drives?"), Yes)
    assert isinstance(verdict("Can one controller drive all 24 SAS drives?"), No)


def test_why_not_gives_reasons() -> None:
    found = verdict("Why can't I have 24 fast drives and O2?")
    assert isinstance(found, No)
    assert any("O2 and C share 16 lanes" in reason.sentence for reason in found.reasons)


@pytest.mark.parametrize(
    ("question", "value"),
    [
        ("How many drives fit with one processor?", 16),
        ("How many controllers do I need for 24 SAS drives?", 2),
        ("What does the cheapest F2 cost?", 4210),
    ],
)
def test_the_most_and_the_least(question: str, value: int) -> None:
    found = verdict(question)
    assert isinstance(found, Bound)
    assert found.figure.value == value


@pytest.mark.parametrize(
    ("question", "answer"),
    [
        ("How many different supplies are there?", "3: 2 x ps-800, 2 x ps-1300 and 2 x ps-2000."),
        ("What fits in zone C with one processor?", "2: empty and display."),
        ("Where does the fault display go?", "It goes in zone C."),
        ("Where can a double-wide accelerator go?", "It goes in slot R1a or slot R3a."),
        ("What does the second network module need?", "It needs two processors."),
        ("When was the F2 announced?", "It was announced on 2031-02-03."),
        ("Since when has the F2 been shipping?", "It ships since 2031-03-17."),
        (
            "How many more drives does the F2 take than its predecessor?",
            "8 more: 24 here, 16 in Ferryman F1.",
        ),
        ("Is O1 always fitted?", "Every legal build has this."),
    ],
)
def test_what_the_book_says(question: str, answer: str) -> None:
    assert told(question).answer == answer


def test_what_if_a_supply_fails() -> None:
    assert "while the peak draw" in told("What happens if one supply fails?").answer
    assert told("What happens if a fan fails at sea level?", "p1").answer.startswith("It keeps")


@pytest.mark.parametrize(
    "question",
    [
        "Does it have mobile radio?",
        "Can it hold 24 SAS drives and a kettle?",
        "Can it do that one as well?",
        "How many of those fit in there?",
    ],
)
def test_a_question_understood_in_part_has_no_answer(question: str) -> None:
    found = told(question)
    assert found.not_understood
    assert not found.answer
    assert not found.reply


def test_the_reply_names_machine_day_and_source() -> None:
    reply = told("When was the F2 announced?").reply
    assert reply == (
        "It was announced on 2031-02-03. This holds for the Ferryman F2 as of 2031-07-01. "
        "Source: Ferryman F2 engineering data sheet, 2031-05-02."
    )


@pytest.mark.parametrize("text", ["most(memory)", "load.__class__", "1 +", "load", "A == "])
def test_what_is_written_as_an_expression_stays_one(text: str) -> None:
    assert is_expression(text)


@pytest.mark.parametrize("text", ["Can it?", "How much memory at most?", "takes it three cards"])
def test_plain_words_are_none(text: str) -> None:
    assert not is_expression(text)

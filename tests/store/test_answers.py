"""Answers: kept as given, the last first."""

from __future__ import annotations

import datetime

import pytest

from baywright.problems import Problems
from baywright.store import Store

DAY = datetime.date(2031, 3, 17)
ANSWER = {"word": "yes", "watts": 1159, "big": 2**80, "text": "°\0\ud800", "list": [1.5, None]}


def test_an_answer_comes_back_as_it_was_given(store: Store) -> None:
    found = store.answers.keep("f2", "24 fast drives?", "count(drive) == 24", ANSWER, DAY, "anna")
    kept = store.answers.get(found)
    assert kept is not None
    assert (kept.question, kept.reading) == ("24 fast drives?", "count(drive) == 24")
    assert kept.answer == ANSWER
    assert list(kept.answer) == list(ANSWER)
    assert (kept.as_of, kept.by, kept.book) == (DAY, "anna", "f2")


def test_recent_answers_are_those_of_one_person_the_last_first(store: Store) -> None:
    made = [
        store.answers.keep("f2", f"{number}", "", {}, DAY, "ben" if number == 2 else "anna")
        for number in range(5)
    ]
    assert [each.id for each in store.answers.recent("anna")] == [
        made[4],
        made[3],
        made[1],
        made[0],
    ]
    assert [each.id for each in store.answers.recent("anna", 1)] == [made[4]]
    assert store.answers.recent("") == ()


@pytest.mark.parametrize("answer", ["", "none", "a\0"])
def test_an_unknown_answer_is_none(store: Store, answer: str) -> None:
    assert store.answers.get(answer) is None


def test_a_number_that_json_does_not_have_is_a_mistake_of_the_program(store: Store) -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        store.answers.keep("f2", "?", "", {"watts": float("nan")}, DAY, "")


def test_a_question_with_signs_that_are_not_text_is_refused(store: Store) -> None:
    with pytest.raises(Problems):
        store.answers.keep("f2", "a\0b", "", {}, DAY, "")

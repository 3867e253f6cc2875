"""Questions of the corpus answered: understood how often, and each answer that of the corpus."""

from __future__ import annotations

import statistics
import sys
import time
from functools import cache

import pytest

from baywright.desk.proofreading.answering import Answerer, Told
from tests.desk.demo import opened
from tests.language.answered import DECLINED, agrees
from tests.language.corpus import Half, Question, all_questions, in_half


@cache
def answerer(book: str, day: str, altitude: str, inlet: str) -> Answerer:
    return Answerer(opened(book, day, altitude, inlet))


@cache
def told(question: Question) -> tuple[Told, float]:
    """Return an answer, and the processor time it took in seconds."""
    held = answerer(question.book, question.as_of, question.altitude, question.inlet)
    start = time.process_time()
    found = held.ask(question.text)
    return found, time.process_time() - start


def answerable(half: Half) -> list[Question]:
    return [each for each in in_half(all_questions(), half) if each.answer not in DECLINED]


def understood(half: Half) -> list[Question]:
    return [each for each in answerable(half) if not told(each)[0].not_understood]


def figures(half: Half) -> str:
    here = f"{len(understood(half))} of {len(answerable(half))} understood"
    median = statistics.median(told(each)[1] for each in answerable(half))
    return f"{half} half of the questions: {here}, median {median:.2f} s\n"


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_questions_of_the_tuning_half_are_answered_as_the_corpus_has_it() -> None:
    wrong = [
        f"{each.text}: {told(each)[0].answer} for {each.answer}"
        for each in understood("tuning")
        if not agrees(each, told(each)[0])
    ]
    sys.stdout.write(figures("tuning"))
    assert wrong == []
    assert len(understood("tuning")) >= 0.85 * len(answerable("tuning"))


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_questions_of_the_held_half_in_totals() -> None:
    agreed = [agrees(each, told(each)[0]) for each in understood("held")]
    sys.stdout.write(f"{figures('held')}answers that differ: {agreed.count(False)}\n")
    assert False not in agreed


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_what_is_to_be_declined_is_declined() -> None:
    declined = [each for each in all_questions() if each.answer in DECLINED]
    assert [each.text for each in declined if not told(each)[0].not_understood] == []


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_questions_are_answered_in_time() -> None:
    times = [told(each)[1] for each in all_questions()]
    assert statistics.median(times) < 0.3
    assert 120 * statistics.fmean(times) < 60

"""Nearest builds against every set of wishes that could be given up."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings

from baywright.answers.questions import possible
from baywright.answers.verdicts import Nearest, No
from baywright.space import broken
from tests.answers.asked import Asked, asked
from tests.laws.oracle import legal

MOST = 4


def correction_sets(case: Asked) -> list[frozenset[int]]:
    """Return the sets of wishes whose loss suffices, none within another, smallest first."""
    sets = {case.violated(subject) for subject in case.legal}
    least = [one for one in sets if not any(other < one for other in sets)]
    return sorted(least, key=len)


@settings(max_examples=50)
@given(asked(least=2, most=4))
def test_the_fewest_wishes_are_given_up(case: Asked) -> None:
    check_fewest(case)


@pytest.mark.slow
@pytest.mark.timeout(900)
@settings(max_examples=500)
@given(asked(least=2, most=4))
def test_the_fewest_wishes_are_given_up_at_length(case: Asked) -> None:
    check_fewest(case)


def check_fewest(case: Asked) -> None:
    """The sets of wishes given up are smallest first, each different, none larger than needed."""
    expected = correction_sets(case)
    assume(expected and expected[0])
    verdict = possible(case.inquiry(), case.wishes, nearby=MOST)
    assert isinstance(verdict, No)
    found = [given_up(case, each) for each in verdict.nearest]
    assert len(set(found)) == len(found) == min(MOST, len(expected))
    assert set(found) <= set(expected)
    assert [len(one) for one in found] == [len(one) for one in expected[: len(found)]]


def given_up(case: Asked, near: Nearest) -> frozenset[int]:
    """Return the wishes that a nearest build lacks; it is legal and says what it changes."""
    assert not broken(case.machine.space, near.witness.values)
    subject = case.subject(near.witness.values)
    assert legal(subject)
    violated = case.violated(subject)
    assert len(near.changes) == len(violated)
    return violated


@settings(max_examples=50)
@given(asked(least=1, most=3))
def test_a_number_comes_as_near_to_the_one_asked_as_the_rest_allows(case: Asked) -> None:
    assume(case.legal and not any(case.fitting()))
    verdict = possible(case.inquiry(), case.wishes, nearby=MOST)
    assert isinstance(verdict, No)
    for near in verdict.nearest:
        lost = given_up(case, near)
        if len(lost) == 1:
            check_closeness(case, near, *lost)


def check_closeness(case: Asked, near: Nearest, lost: int) -> None:
    level = case.wishes[lost].level
    if level is None or level.op == "!=":  # what is not wanted is then just what there is
        return
    bound, linear = level.bound, level.linear
    every = case.sample.legal()
    kept = [v for v in every if case.violated(case.subject(v)) <= {lost}]
    closest = min(abs(linear.value(values) - bound) for values in kept)
    assert abs(linear.value(near.witness.values) - bound) == closest

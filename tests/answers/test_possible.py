"""Yes and no, and the reasons of a no, against the list of all legal builds."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from baywright.answers.questions import possible
from baywright.answers.verdicts import No, Reason, Yes
from baywright.laws.wishes import with_wishes
from baywright.space import broken
from tests.answers.asked import Asked, asked, impossible
from tests.laws.oracle import legal


@settings(max_examples=100)
@given(asked())
def test_the_answer_is_that_of_the_list(case: Asked) -> None:
    check_answer(case)


@pytest.mark.slow
@pytest.mark.timeout(900)
@settings(max_examples=800)
@given(asked())
def test_the_answer_is_that_of_the_list_at_length(case: Asked) -> None:
    check_answer(case)


def check_answer(case: Asked) -> None:
    """A yes shows the cheapest build there is, and a no has reasons, just where the list says."""
    verdict = possible(case.inquiry(), case.wishes, nearby=0)
    if not any(case.fitting()):
        assert isinstance(verdict, No)
        check_reasons(case, verdict.reasons)
        return
    assert isinstance(verdict, Yes)
    shown = case.subject(verdict.witness.values)
    assert legal(shown)
    assert not case.violated(shown)
    assert shown.price == min(subject.price for subject in case.fitting())


def check_reasons(case: Asked, reasons: tuple[Reason, ...]) -> None:
    """The reasons cannot hold together, and each is needed: the build shown without it has all
    the others and not this one."""
    keys = {reason.key for reason in reasons}
    space = with_wishes(case.machine.space, case.wishes)
    assert keys <= set(space.origins)
    assert impossible(space.only(keys))
    for reason in reasons:
        assert missing(case, keys, reason) == {reason.key}


def missing(case: Asked, keys: set[str], reason: Reason) -> set[str]:
    """Return which of the reasons the build shown without one of them does not have."""
    values = reason.without.values
    laws = {law.origin.key for law in broken(case.machine.space, values)}
    wishes = {f"wish:{i + 1}" for i in case.violated(case.subject(values))}
    return keys & (laws | wishes)

"""Claims that are said to hold together against every part of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from hypothesis import given, settings

from baywright.answers.questions import together
from baywright.answers.verdicts import No, Together, Verdict, Yes
from tests.answers.asked import Asked, asked
from tests.answers.test_possible import check_reasons
from tests.laws.oracle import legal
from tests.laws.plain import Subject


def largest(case: Asked, among: Sequence[Subject], claims: int) -> set[frozenset[int]]:
    """Return the largest sets of claims that some build has."""
    every = frozenset(range(claims))
    kept = {every - case.violated(subject) for subject in among}
    size = max(len(one) for one in kept)
    return {one for one in kept if len(one) == size}


@settings(max_examples=50)
@given(asked(least=2, most=4))
def test_the_largest_sets_are_all_there_are(case: Asked) -> None:
    verdict = together(case.inquiry(), case.wishes)
    if any(case.fitting()):
        assert isinstance(verdict, Yes)
    elif not case.legal:
        assert isinstance(verdict, No | Together)
        check_reasons(case, verdict.reasons)
    else:
        check(case, verdict, case.legal, len(case.terms))


@settings(max_examples=40)
@given(asked(least=3, most=4))
def test_what_is_given_is_kept(case: Asked) -> None:
    *claims, last = case.wishes
    keeping = [s for s in case.legal if case.terms[-1].says(s)]
    verdict = together(case.inquiry(), claims, [replace(last, hard=True)])
    if keeping and not any(case.fitting()):
        check(case, verdict, keeping, len(claims))


def check(case: Asked, verdict: Verdict, among: Sequence[Subject], claims: int) -> None:
    assert isinstance(verdict, Together)
    check_reasons(case, verdict.reasons)
    found = [frozenset(kept) for kept, _ in verdict.largest]
    assert len(found) == len(set(found))
    assert set(found) == largest(case, among, claims)
    for kept, shown in verdict.largest:
        subject = case.subject(shown.values)
        assert legal(subject)
        assert not case.violated(subject) & set(kept)

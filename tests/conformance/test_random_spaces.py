"""Every engine against the brute engine, and that one against plain combinations."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from baywright.engines.brute import Brute
from baywright.engines.registry import engines
from tests.conformance.judging import brute_builds, judge, naive_builds
from tests.conformance.spaces import Case, cases

OTHERS = sorted(set(engines()) - {"brute"})


@given(cases(most=4))
def test_brute_agrees_with_plain_combinations(case: Case) -> None:
    judge(Brute(), case, list(naive_builds(case.space, case.assumptions)))


@pytest.mark.parametrize("name", OTHERS)
@given(case=cases())
def test_engine_agrees_with_brute(name: str, case: Case) -> None:
    judge(engines()[name], case, list(brute_builds(case.space, case.assumptions)))


@pytest.mark.slow
@pytest.mark.timeout(900)
@pytest.mark.parametrize("name", OTHERS)
@settings(max_examples=1500)
@given(case=cases())
def test_engine_agrees_with_brute_at_length(name: str, case: Case) -> None:
    judge(engines()[name], case, list(brute_builds(case.space, case.assumptions)))

"""The same question twice gives the same answer, and a rule only takes away."""

from __future__ import annotations

import copy
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.answers.questions import possible
from baywright.answers.verdicts import No, Proof, Verdict, Yes
from tests.answers.asked import Asked, asked
from tests.laws.random_books import Sample, sample, samples
from tests.laws.random_terms import terms


def without_time(verdict: Verdict) -> Verdict:
    """Leave out how long an answer took."""
    assert isinstance(verdict, Yes | No)
    proof = verdict.proof
    return replace(verdict, proof=Proof(proof.answered_by, proof.rechecked_by))


@settings(max_examples=30)
@given(asked())
def test_the_same_question_twice_gives_the_same_answer(case: Asked) -> None:
    first, second = (possible(case.inquiry(), case.wishes) for _ in range(2))
    assert without_time(first) == without_time(second)


@settings(max_examples=60)
@given(data=st.data(), plain=samples(most=1500, rules=False))
def test_a_rule_leaves_just_the_builds_that_have_it(data: st.DataObject, plain: Sample) -> None:
    rule = data.draw(terms(plain.raw), label="rule")
    raw = copy.deepcopy(plain.raw)
    raw["rules"] = {"new": {"says": "a new rule", "holds": rule.text}}
    meanings = {**plain.given.meanings, rule.text: rule.says}
    ruled = sample(raw, plain.machine.conditions, meanings)
    before = [plain.subject(values) for values in plain.legal()]
    after = [ruled.subject(values).built for values in ruled.legal()]
    assert after == [subject.built for subject in before if rule.says(subject)]

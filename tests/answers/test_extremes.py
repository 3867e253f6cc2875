"""The most and the least of a number against the list of all legal builds."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.answers.extremes import Goal, best
from baywright.answers.verdicts import Bound, No, Verdict
from baywright.laws.linear import Linear
from baywright.laws.subsystem import Lowest
from baywright.terms import parse
from baywright.units import parse as amount
from tests.answers.asked import Asked, asked
from tests.answers.test_possible import check_reasons
from tests.laws.oracle import legal
from tests.laws.random_terms import Number, numbers


@settings(max_examples=50)
@given(data=st.data(), case=asked(least=0, most=1), most=st.booleans())
def test_no_legal_build_has_more_or_less(data: st.DataObject, case: Asked, most: bool) -> None:
    number = data.draw(st.sampled_from(numbers(case.sample.raw)), label="number")
    linear = case.machine.translator.value(case.machine.read(parse(number.text)).expression)
    assert isinstance(linear, Linear)
    verdict = best(case.inquiry(), [Goal("number", linear, most)], case.wishes)
    unit = canonical(number, linear)
    values = [unit * number.value(subject) for subject in case.fitting()]
    check(case, verdict, values, most=most)


def canonical(number: Number, linear: Linear) -> Fraction:
    """Return one unit of a number in the canonical unit of its dimension."""
    dimension = None if linear.dimension.startswith("money") else linear.dimension
    return amount(f"1 {number.unit}", dimension).canonical if number.unit else Fraction(1)


def check(case: Asked, verdict: Verdict, values: list[Fraction], *, most: bool) -> None:
    if not values:
        assert isinstance(verdict, No)
        check_reasons(case, verdict.reasons)
        return
    assert isinstance(verdict, Bound)
    assert verdict.most == most
    assert verdict.figure.value == (max if most else min)(values)
    shown = case.subject(verdict.witness.values)
    assert legal(shown)
    assert not case.violated(shown)


@settings(max_examples=40)
@given(case=asked(least=0, most=1), most=st.booleans())
def test_memory_is_never_faster_or_slower(case: Asked, most: bool) -> None:
    named = case.machine.names.get("memory_speed")
    if named is None:
        return
    assert isinstance(named.meaning, Lowest)
    verdict = best(case.inquiry(), [Goal("speed", named.meaning, most)], case.wishes)
    speeds = [subject.memory_speed for subject in case.fitting()]
    known = [speed for speed in speeds if speed is not None]
    if known:
        check(case, verdict, known, most=most)

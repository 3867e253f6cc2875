"""Several numbers in order, each best among the builds best so far, against all legal builds."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from unittest.mock import Mock

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.answers.extremes import Goal, best
from baywright.answers.inquiry import EVALUATOR, Inquiry, Panel, RecheckError
from baywright.answers.verdicts import Bound, No, Stopped
from baywright.desk.asking import ask
from baywright.desk.opening import Opened, open_book
from baywright.engines.contract import Best, Cut
from baywright.engines.cpsat import CpSat
from baywright.engines.search import Search
from baywright.laws.linear import Linear
from baywright.laws.subsystem import Lowest
from baywright.problems import Problems
from baywright.terms import parse
from tests.answers.asked import Asked, asked
from tests.answers.test_extremes import canonical
from tests.laws.oracle import legal
from tests.laws.plain import Subject
from tests.laws.random_terms import Number, numbers


@settings(max_examples=60)
@given(data=st.data(), case=asked(least=0, most=1))
def test_each_number_is_best_among_the_builds_best_so_far(data: st.DataObject, case: Asked) -> None:
    known = numbers(case.sample.raw)
    number = st.tuples(st.sampled_from(known), st.booleans())
    wanted = data.draw(st.lists(number, min_size=2, max_size=4), label="wanted")
    goals = [goal(case, each, most=most) for each, most in wanted]
    verdict = best(case.inquiry(), goals, case.wishes)
    left = list(case.fitting())
    if not left:
        assert isinstance(verdict, No)
        return
    assert isinstance(verdict, Bound)
    found = [verdict.figure.value, *(then.figure.value for then in verdict.then)]
    assert len(found) == len(wanted)
    for (each, most), one, reached in zip(wanted, goals, found, strict=True):
        left = best_of(left, each, one, reached, most=most)
    shown = case.subject(verdict.witness.values)
    assert legal(shown)
    assert any(shown.built == subject.built for subject in left)


def goal(case: Asked, number: Number, *, most: bool) -> Goal:
    linear = case.machine.translator.value(case.machine.read(parse(number.text)).expression)
    assert isinstance(linear, Linear)
    return Goal(number.text, linear, most)


def best_of(
    left: Sequence[Subject], number: Number, goal: Goal, reached: Fraction, *, most: bool
) -> list[Subject]:
    """Return the builds best in a number, whose best has to be the one reached."""
    assert isinstance(goal.value, Linear)
    unit = canonical(number, goal.value)
    values = [unit * number.value(subject) for subject in left]
    assert reached == (max if most else min)(values)
    return [subject for subject, value in zip(left, values, strict=True) if value == reached]


@settings(max_examples=40)
@given(case=asked(least=0, most=1), most=st.booleans())
def test_what_is_looked_up_stands_in_any_position(case: Asked, *, most: bool) -> None:
    named = case.machine.names.get("memory_speed")
    price = case.machine.names["price"].meaning
    known = [(s.memory_speed, s.price) for s in case.fitting() if s.memory_speed is not None]
    if named is None or not known:
        return
    assert isinstance(named.meaning, Lowest)
    assert isinstance(price, Linear)
    speed, cost = Goal("speed", named.meaning, most), Goal("price", price, most=False)
    pick = max if most else min
    fastest = pick(rate for rate, _ in known)
    verdict = best(case.inquiry(), [speed, cost], case.wishes)
    assert isinstance(verdict, Bound)
    assert verdict.figure.value == fastest
    assert verdict.then[0].figure.value == min(paid for rate, paid in known if rate == fastest)
    least = min(s.price for s in case.fitting())
    speeds = [rate for rate, paid in known if paid == least]
    if not speeds:
        with pytest.raises(Problems, match="no-value"):
            best(case.inquiry(), [cost, speed], case.wishes)
        return
    verdict = best(case.inquiry(), [cost, speed], case.wishes)
    assert isinstance(verdict, Bound)
    assert verdict.then[0].figure.value == pick(speeds)


@pytest.fixture(scope="module")
def f2() -> Opened:
    return open_book("f2")


def test_ties_in_price_are_broken_by_the_draw(f2: Opened) -> None:
    """Held against the same asked in two steps."""
    given = "memory >= 1 TB and voltage == 120 V"
    verdict = ask(f2, f"least(price, then=load, given={given})").verdict
    assert isinstance(verdict, Bound)
    price, (load,) = verdict.figure.value, verdict.then
    assert price == value(f2, f"least(price, given={given})")
    assert load.figure.value == value(f2, f"least(load, given={given} and price == {price} FLO)")
    figures = {figure.name: figure.value for figure in verdict.witness.figures}
    assert (figures["price"], figures["load"]) == (price, load.figure.value)
    assert load.rechecked_by == "search"


def value(f2: Opened, question: str) -> Fraction:
    verdict = ask(f2, question).verdict
    assert isinstance(verdict, Bound)
    return verdict.figure.value


def test_a_number_goes_the_way_of_the_one_before_unless_turned(f2: Opened) -> None:
    answer = ask(f2, "least(price, then=most(cores, then=memory))")
    assert answer.reading == (
        "the least of the price, then the most of the number of cores, then the most of the memory"
    )
    assert isinstance(answer.verdict, Bound)
    assert [then.most for then in answer.verdict.then] == [True, True]


def engines(optimiser: CpSat) -> Panel:
    return Panel(Search(), optimiser)


def test_a_level_that_is_not_reached_in_time_stops_and_says_what_was_proven(f2: Opened) -> None:
    def tired(*args: object, **limits: object) -> tuple[object, ...]:
        first, *_ = CpSat().best_of(*args, **limits)  # type: ignore[arg-type]
        return (first, Cut())

    optimiser = Mock(spec=CpSat, best_of=tired)
    optimiser.name = "cpsat"
    verdict = ask(open_book("f2", panel=engines(optimiser)), "least(price, then=load)").verdict
    assert verdict == Stopped("cpsat worked for 20 s on the peak draw, after the price 4,210 FLO")


def test_a_build_that_loses_an_earlier_level_is_withheld(f2: Opened) -> None:
    """An engine that takes the levels one by one, each as if it stood alone."""
    cpsat = CpSat()

    def apart(space: object, objectives: Sequence[object], **limits: object) -> list[Best]:
        found = [cpsat.best(space, each, **limits) for each in objectives]  # type: ignore[arg-type]
        return [each for each in found if isinstance(each, Best)]

    optimiser = Mock(spec=CpSat, best_of=apart)
    optimiser.name = "apart"
    inquiry = Inquiry(f2.machine, engines(optimiser))
    goals = [goal_named(f2, "price", most=False), goal_named(f2, "memory", most=True)]
    with pytest.raises(RecheckError):
        best(inquiry, goals, [])


def goal_named(f2: Opened, name: str, *, most: bool) -> Goal:
    total = f2.machine.names[name].meaning
    assert isinstance(total, Linear)
    return Goal(name, total, most)


def test_a_level_that_is_not_the_best_is_withheld(f2: Opened) -> None:
    """An engine that calls any build the best in the last number."""
    cpsat = CpSat()

    def careless(space: object, objectives: Sequence[object], **limits: object) -> list[object]:
        found = cpsat.best_of(space, objectives[:1], **limits)  # type: ignore[arg-type]
        return [*found, found[-1]]

    optimiser = Mock(spec=CpSat, best_of=careless, best=cpsat.best)
    optimiser.name = "careless"
    inquiry = Inquiry(f2.machine, engines(optimiser))
    goals = [goal_named(f2, "load", most=True), goal_named(f2, "price", most=False)]
    with pytest.raises(RecheckError):
        best(inquiry, goals, [])


def test_a_level_that_another_engine_does_not_come_to_says_so(f2: Opened) -> None:
    slow = Mock(spec=Search, prove=Mock(return_value=Cut()))
    slow.name = "slow"
    inquiry = Inquiry(f2.machine, Panel(slow, CpSat()))
    goals = [goal_named(f2, "price", most=False), goal_named(f2, "load", most=False)]
    verdict = best(inquiry, goals, [])
    assert isinstance(verdict, Bound)
    assert [then.rechecked_by for then in verdict.then] == [EVALUATOR]

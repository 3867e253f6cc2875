"""The engine with sums carried along the arcs, which small spaces would not need."""

from __future__ import annotations

import contextlib
from dataclasses import replace

import pytest
from hypothesis import given

from baywright.engines.brute import Brute
from baywright.engines.contract import Assumptions, Impossible, Limit, Objective, OutOfTime
from baywright.engines.diagram import Diagram, Guards
from baywright.space import Space, Sum
from tests.conformance.judging import brute_builds, judge
from tests.conformance.spaces import Case, cases
from tests.engines.diagram.given import choices, origin, total

ONE_CARRIED = Guards(totals=0)
ALL_CARRIED = Guards(totals=0, far=0)

OPPOSED = Space(
    choices(4, 4, 4),
    (),
    (
        total(7, "price", a=(0, 1, 3, 4), b=(0, 2, 3, 5), c=(0, 1, 2, 3)),
        total(-6, "use", a=(0, -2, -3, -5), b=(0, -1, -4, -5), c=(0, -3, -3, -4)),
    ),
)
"""Two sums that pull in opposite directions: neither is parallel to the other."""


@given(cases())
def test_one_sum_carried_changes_no_answer(case: Case) -> None:
    judge(Diagram(ONE_CARRIED), case, list(brute_builds(case.space, case.assumptions)))


@given(cases())
def test_several_sums_carried_change_no_answer(case: Case) -> None:
    """Counting comes last, and is refused when derived choices are not determined either."""
    with contextlib.suppress(OutOfTime):
        judge(Diagram(ALL_CARRIED), case, list(brute_builds(case.space, case.assumptions)))


def test_two_sums_at_once_are_decided_value_by_value() -> None:
    engine = Diagram(ALL_CARRIED)
    for value in range(4):
        given_ = Assumptions({"b": frozenset({value})})
        assert engine.options(OPPOSED, given_) == Brute().options(OPPOSED, given_)
        assert engine.count(OPPOSED, given_) == Brute().count(OPPOSED, given_)


def test_several_sums_and_a_derived_choice_that_is_free_are_not_counted() -> None:
    first = replace(OPPOSED.choices[0], derived=True)
    space = Space((first, *OPPOSED.choices[1:]), (), OPPOSED.sums)
    with pytest.raises(OutOfTime, match="use and price at the same time"):
        Diagram(ALL_CARRIED).count(space)


def test_a_sum_that_makes_the_diagram_too_large_is_carried_instead() -> None:
    """With so few arcs allowed nothing but the choices themselves can be compiled."""
    engine = Diagram(Guards(arcs=40))
    assert engine.options(OPPOSED) == Brute().options(OPPOSED)
    assert engine.prove(OPPOSED) is not None


def test_very_large_sums_are_decided_or_refused_with_a_sentence(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Scaled to near 2 to the power of 57, the sums are still told apart by 1."""
    monkeypatch.setattr("baywright.engines.diagram.reading._EXPANDED", 0)
    step = 2**54
    grown = tuple(
        Sum(
            tuple((name, tuple(step * w + (w > 0) for w in ws)) for name, ws in sum_.weights),
            step * sum_.at_most + 3 * (sum_.at_most > 0),
            sum_.origin,
        )
        for sum_ in OPPOSED.sums
    )
    space = Space(OPPOSED.choices, (), grown)
    engine = Diagram(ALL_CARRIED)
    assert len(engine.describe(space).checked) == 1
    flags = Assumptions({"a": frozenset({3}), "b": frozenset({3})})
    assert engine.prove(space, flags) == Impossible()
    with pytest.raises(ValueError, match="the sum can pass"):  # what is open goes to search
        engine.options(space)


def test_what_is_not_compiled_is_named() -> None:
    plain = Diagram().describe(OPPOSED)
    assert (plain.budget, plain.checked) == ((), ())
    carried = Diagram(ALL_CARRIED).describe(OPPOSED)
    assert (carried.budget, carried.checked) == (("use",), ("price",))
    assert carried.arcs < plain.arcs


def test_an_objective_too_large_is_refused_with_a_sentence() -> None:
    objective = Objective((("a", (0, 1, 2, 2**59)),))
    with pytest.raises(ValueError, match="too large for the diagram engine"):
        Diagram().best(OPPOSED, objective)


def test_a_budget_too_large_is_refused_with_a_sentence() -> None:
    heavy = tuple(2**59 + odd for odd in (0, 1, 3, 7))
    space = Space(choices(4, 4, 4, 4), (), (total(2**61, a=heavy, b=heavy, c=heavy, d=heavy),))
    assert Diagram().options(space) == Brute().options(space)
    wide = tuple(2**59 * n + n * n for n in range(4))
    sum_ = Sum(tuple((name, wide) for name in "abcdefghijkl"), 2**62, origin("sum"))
    hard = Space(choices(*[4] * 12), (), (sum_,))
    with pytest.raises(ValueError, match="sum: the sum is too large for the diagram engine"):
        Diagram().options(hard)


def test_a_space_that_is_too_hard_says_what_was_tried() -> None:
    with pytest.raises(OutOfTime, match=r"could not compile the space: .* arcs, more than 1"):
        Diagram(Guards(arcs=1)).options(OPPOSED)


def test_only_some_forms_of_a_space_are_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("baywright.engines.diagram.session._KEPT", 1)
    engine = Diagram()
    for without in ({"price"}, {"use"}, set(), {"price", "use"}, {"price"}):
        left = Assumptions(without=frozenset(without))
        assert engine.options(OPPOSED, left) == Brute().options(OPPOSED, left)
        assert len(engine._sessions(OPPOSED)._known) == 1


def test_a_refusal_to_compile_is_remembered_until_there_is_more_time() -> None:
    engine = Diagram()
    with pytest.raises(OutOfTime):
        engine.options(OPPOSED, limit=Limit(0))
    with pytest.raises(OutOfTime):
        engine.options(OPPOSED, limit=Limit(0))
    assert engine.options(OPPOSED) == Brute().options(OPPOSED)

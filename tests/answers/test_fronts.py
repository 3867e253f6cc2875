"""Fronts against looking at every build."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.answers import fronts
from baywright.answers.fronts import front
from baywright.answers.inquiry import RecheckError, SpaceInquiry, StoppedError
from baywright.desk.opening import standard_panel
from baywright.engines.brute import Brute
from baywright.engines.diagram import Diagram, Guards
from baywright.laws.linear import Linear
from baywright.space import Choice, Origin, Space, Table
from tests.conformance.spaces import spaces, weights

Pair = tuple[Fraction, Fraction]


@st.composite
def totals(draw: st.DrawFn, space: Space) -> Linear:
    step = draw(st.sampled_from((Fraction(1), Fraction(1, 3), Fraction(5, 2))))
    drawn = draw(weights(list(space.choices)))
    return Linear(
        {n: tuple(w * step for w in ws) for n, ws in drawn}, draw(st.integers(-3, 3)) * step
    )


@st.composite
def cases(draw: st.DrawFn) -> tuple[Space, Linear, Linear]:
    space = draw(spaces(5))
    return space, draw(totals(space)), draw(totals(space))


def beaten(pair: Pair, others: set[Pair]) -> bool:
    return any(a <= pair[0] and b <= pair[1] and (a, b) != pair for a, b in others)


@given(cases(), st.sampled_from((None, Diagram(), Diagram(Guards(totals=0)))))
def test_a_front_has_every_pair_that_none_beats(
    case: tuple[Space, Linear, Linear], finder: Diagram | None
) -> None:
    space, first, second = case
    names = tuple(choice.name for choice in space.choices)
    rows = (dict(zip(names, row, strict=True)) for row in Brute().each(space, names))
    every = {(first.value(row), second.value(row)) for row in rows}
    found = front(SpaceInquiry(standard_panel()), space, first, second, finder)
    pairs = [(point.first, point.second) for point in found.points]
    assert pairs == sorted(pair for pair in every if not beaten(pair, every))
    assert found.proof.answered_by == ("diagram" if finder else "cpsat")
    assert found.proof.rechecked_by == "search"


def _line(number: int) -> tuple[Space, Linear, Linear]:
    """One choice whose values trade one total for the other."""
    choice = Choice("c", tuple(map(str, range(number))))
    up = Linear({"c": tuple(map(Fraction, range(number)))})
    return Space((choice,)), up, up.scaled(-1)


def test_a_missed_point_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    space, up, down = _line(5)
    builds = fronts._builds
    monkeypatch.setattr(fronts, "_builds", lambda *args: list(builds(*args))[::2])
    with pytest.raises(RecheckError, match="the front does not have"):
        front(SpaceInquiry(standard_panel()), space, up, down)


def test_the_optimiser_takes_over_where_the_diagram_is_too_hard() -> None:
    """A limit on the arcs of a diagram that nothing fits into."""
    choices = tuple(Choice(name, ("0", "1", "2")) for name in "abc")
    rows = frozenset((i, j) for i in range(3) for j in range(3) if i != j)
    differ = [Table(pair, rows, Origin("differ", "law", "Two differ.")) for pair in pairwise("abc")]
    up = Linear({name: (Fraction(0), Fraction(1), Fraction(3)) for name in "abc"})
    space, tight = Space(choices, tuple(differ)), Diagram(Guards(arcs=1))
    found = front(SpaceInquiry(standard_panel()), space, up, up.scaled(-1), tight)
    assert found.proof.answered_by == "cpsat"
    whole = front(SpaceInquiry(standard_panel()), space, up, up.scaled(-1), Diagram())
    assert [p.first for p in whole.points] == [p.first for p in found.points]


def test_a_front_that_is_too_long_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fronts, "MOST_POINTS", 3)
    space, up, down = _line(5)
    with pytest.raises(StoppedError, match="more than 3 points"):
        front(SpaceInquiry(standard_panel()), space, up, down)


def test_numbers_too_fine_to_be_added_say_so() -> None:
    space, up, _ = _line(2)
    fine = Linear({"c": (Fraction(1, 2**40), Fraction(1))})
    with pytest.raises(StoppedError, match="too many different values"):
        front(SpaceInquiry(standard_panel()), space, up, fine)

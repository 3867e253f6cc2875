"""Sums in the form that solvers take, against the form in which they are stated."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.engines.contract import Assumptions, Limit, OutOfTime
from baywright.engines.preparation import Deadline, Shifted, open_values, shifted, steps
from baywright.space import Choice, Origin, Space, Sum, holds

LAW = Origin("law", "law", "The law holds.")
WEIGHTS = st.lists(st.integers(-8, 8).map(lambda w: 3 * w) | st.integers(-8, 8), min_size=1)


@given(st.lists(WEIGHTS.map(lambda ws: tuple(ws[:4])), max_size=4), st.integers(-30, 30))
def test_a_shifted_sum_holds_exactly_when_the_sum_does(
    columns: list[tuple[int, ...]], at_most: int
) -> None:
    total = Sum(tuple((str(n), column) for n, column in enumerate(columns)), at_most, LAW)
    plain = shifted(total)
    same = Sum(plain.weights, plain.at_most, LAW)
    for row in itertools.product(*(range(len(column)) for column in columns)):
        build = {str(n): value for n, value in enumerate(row)}
        assert holds(same, build) is holds(total, build)
        assert sum(w[build[name]] for name, w in plain.weights) <= plain.greatest


def test_shifting_divides_and_caps() -> None:
    total = Sum((("a", (-10, 0, 90)), ("b", (20, 30))), 45, LAW)
    assert shifted(total) == Shifted((("a", (0, 1, 4)), ("b", (0, 1))), 3, 5)


def test_assumptions_leave_the_values_that_exist_in_order() -> None:
    space = Space((Choice("a", ("0", "1", "2")), Choice("b", ("0",))))
    left = open_values(space, Assumptions({"a": frozenset({2, 0, 9})}))
    assert left == {"a": (0, 2), "b": (0,)}


def test_a_deadline_passes() -> None:
    Deadline(Limit(60)).check()
    with pytest.raises(OutOfTime):
        Deadline(Limit(0)).check()


@given(WEIGHTS.map(tuple))
def test_the_steps_of_a_weight_add_up_to_it(column: tuple[int, ...]) -> None:
    found = steps(column)
    for value, weight in enumerate(column):
        rises = sum(step.rise for step in found if value in step.reached)
        assert rises == weight - min(column)
    for before, after in itertools.pairwise(found):
        assert after.reached == before.reached | set(after.level)
        assert after.rise > 0

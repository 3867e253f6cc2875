"""What a part of a rule says about the rest, against the list of all completions."""

from __future__ import annotations

import itertools

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from baywright.engines.diagram.rules import Rule, SumRule, TableRule, Transitions

SIZES = (3, 2, 3)


def sum_rule(weights: tuple[tuple[int, ...], ...], at_most: int) -> SumRule:
    columns = tuple(np.array(column, np.int64) for column in weights)
    left = tuple(np.arange(len(column), dtype=np.int32) for column in columns)
    return SumRule(tuple(range(len(columns))), columns, left, at_most)


def table_rule(rows: set[tuple[int, ...]]) -> TableRule:
    return TableRule((0, 1, 2), np.array(sorted(rows), np.int32).reshape(-1, 3), SIZES)


def classes(rule: Rule, mask: int) -> dict[tuple[int, ...], int]:
    """The class of each assignment of the choices in a mask."""
    inside = [position for position in range(3) if mask >> position & 1]
    found = {}
    for row in itertools.product(*(range(SIZES[position]) for position in inside)):
        code = sum(int(rule.codes(p)[v]) for p, v in zip(inside, row, strict=True))
        found[row] = int(rule.part(mask).class_of(np.array([code]))[0])
    return found


def completions(holds: set[tuple[int, ...]], mask: int) -> dict[tuple[int, ...], frozenset[object]]:
    inside = [position for position in range(3) if mask >> position & 1]
    found: dict[tuple[int, ...], set[object]] = {
        row: set() for row in itertools.product(*(range(SIZES[p]) for p in inside))
    }
    for row in holds:
        rest = tuple(v for p, v in enumerate(row) if p not in inside)
        found[tuple(row[p] for p in inside)].add(rest)
    return {row: frozenset(rest) for row, rest in found.items()}


ROWS = st.sets(st.tuples(st.integers(0, 2), st.integers(0, 1), st.integers(0, 2)), min_size=1)
WEIGHTS = st.tuples(*(st.tuples(*[st.integers(0, 7)] * size) for size in SIZES))


@given(ROWS, st.integers(1, 6))
def test_partial_rows_are_in_one_class_when_their_completions_are_the_same(
    rows: set[tuple[int, ...]], mask: int
) -> None:
    found, expected = classes(table_rule(rows), mask), completions(rows, mask)
    for one, other in itertools.combinations(found, 2):
        assert (found[one] == found[other]) is (expected[one] == expected[other])
    assert all((found[row] < 0) is (not expected[row]) for row in found)


@given(WEIGHTS, st.integers(0, 15), st.integers(1, 6))
def test_totals_are_in_one_class_when_the_same_rest_fits(
    weights: tuple[tuple[int, ...], ...], at_most: int, mask: int
) -> None:
    every = itertools.product(*map(range, SIZES))
    holds = {r for r in every if sum(w[v] for w, v in zip(weights, r, strict=True)) <= at_most}
    found, expected = classes(sum_rule(weights, at_most), mask), completions(holds, mask)
    for one, other in itertools.combinations(found, 2):
        assert (found[one] == found[other]) is (expected[one] == expected[other])
    assert all((found[row] < 0) is (not expected[row]) for row in found)


@given(WEIGHTS, st.integers(0, 15), st.sampled_from([(1, 2), (1, 4), (2, 4), (1, 6), (3, 4)]))
def test_classes_of_two_sides_give_the_class_of_both_together(
    weights: tuple[tuple[int, ...], ...], at_most: int, masks: tuple[int, int]
) -> None:
    rule, (left, right) = sum_rule(weights, at_most), masks
    matrix = Transitions([rule])(0, left, right)
    together = classes(rule, left | right)
    for one, first in classes(rule, left).items():
        for other, second in classes(rule, right).items():
            values = dict(zip([p for p in range(3) if left >> p & 1], one, strict=True))
            values |= dict(zip([p for p in range(3) if right >> p & 1], other, strict=True))
            row = tuple(values[p] for p in sorted(values))
            if first >= 0 and second >= 0:
                assert matrix[first, second] == together[row]
            else:
                assert together[row] < 0


def test_a_class_is_represented_by_a_total_that_is_reached_on_both_sides() -> None:
    """With sparse weights a made-up representative makes a legal pair dead.

    The bound is 10, each side weighs 0 or 4, so the third may be 2 in every case. Taken as the
    bound less what still fits, 0 and 4 on one side would stand as 10 - 4 - 2 = 4 or more, on the
    other side likewise, and 4 + 4 rounded up once more no longer leaves room for 2.
    """
    rule = sum_rule(((0, 4), (0, 4), (0, 2)), 10)
    for mask in range(1, 7):
        reached = {sum(rule.codes(p)[v] for p, v in enumerate(row)) for row in _values(mask)}
        assert set(rule.part(mask).representatives.tolist()) <= reached
    assert (Transitions([rule])(0, 1, 2) >= 0).all()


def _values(mask: int) -> list[tuple[int, ...]]:
    """Rows with value 0, of weight 0, for choices outside the mask."""
    return list(itertools.product(*((0, 1) if mask >> p & 1 else (0,) for p in range(3))))

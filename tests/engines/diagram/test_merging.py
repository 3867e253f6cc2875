"""States that no completion tells apart are merged, and only those."""

from __future__ import annotations

import itertools

import numpy as np

from baywright.engines.brute import Brute
from baywright.engines.diagram import Diagram
from baywright.engines.diagram.joining import leaf
from baywright.engines.diagram.merging import merged
from baywright.engines.diagram.rules import SumRule, TableRule
from baywright.space import Space, Table
from tests.engines.diagram.given import choices, origin, total


def pair(scope: tuple[int, int], rows: set[tuple[int, int]]) -> TableRule:
    return TableRule(scope, np.array(sorted(rows), np.int32), (3, 3))


def test_rules_with_the_same_rest_count_by_what_completes_all_of_them() -> None:
    """Of the values of the third choice, both states leave just 1, each by another rule."""
    rules = [pair((0, 2), {(0, 0), (0, 1), (1, 1)}), pair((1, 2), {(0, 1), (1, 0), (1, 1)})]
    states = np.array([[0, 0], [1, 1]], np.int32)
    numbers, kept = merged(rules, {0: 1, 1: 1}, states)
    assert numbers.tolist() == [0, 0]
    assert kept.tolist() == [[0, 0]]


def test_a_state_that_nothing_completes_in_all_rules_is_dead() -> None:
    rules = [pair((0, 2), {(0, 0), (1, 1)}), pair((1, 2), {(0, 1), (1, 0)})]
    numbers, kept = merged(rules, {0: 1, 1: 1}, np.array([[0, 0], [0, 1]], np.int32))
    assert numbers.tolist() == [-1, 0]
    assert kept.tolist() == [[0, 1]]


def test_a_whole_row_is_kept_and_never_one_put_together() -> None:
    """Two groups of rules, and two states equal in one group only: each keeps its own row."""
    rules = [
        pair((0, 4), {(0, 0), (0, 1), (1, 1)}),
        pair((1, 4), {(0, 1), (1, 0), (1, 1)}),
        pair((2, 5), {(0, 0), (1, 1), (2, 2)}),
        pair((3, 5), {(v, w) for v in range(3) for w in range(3)}),
    ]
    states = np.array([[0, 0, 0, 0], [1, 1, 1, 0], [1, 1, 0, 0]], np.int32)
    numbers, kept = merged(rules, {0: 1, 1: 1, 2: 1, 3: 1}, states)
    assert numbers.tolist() == [0, 1, 0]
    assert {tuple(row) for row in kept.tolist()} <= {tuple(row) for row in states.tolist()}


def test_a_count_is_right_when_two_sides_group_the_same_tables_differently() -> None:
    """Tables over corners of a square: each side sees them with another rest."""
    rows = list(itertools.product(range(3), repeat=2))
    patterns = [frozenset(rows[i::2]) | {rows[i]} for i in range(4)]
    corners = [("a", "c"), ("a", "d"), ("b", "c"), ("b", "d"), ("c", "e"), ("d", "e"), ("a", "e")]
    tables = tuple(
        Table(scope, patterns[place % 4], origin(str(place))) for place, scope in enumerate(corners)
    )
    space = Space(choices(3, 3, 3, 3, 3), tables)
    assert Diagram().count(space) == Brute().count(space) > 0


def test_a_sum_that_another_one_keeps_does_not_count() -> None:
    weights = (np.array([0, 1, 2], np.int64), np.array([0, 1, 2], np.int64))
    left = (np.arange(3, dtype=np.int32),) * 2
    heavy = SumRule((0, 1), weights, left, 2)
    light = SumRule((0, 1), (weights[0], np.array([0, 0, 1], np.int64)), left, 2)
    cluster = leaf([heavy, light], 0, np.arange(3, dtype=np.int32), 3, (0, 1))
    assert cluster.size == 3  # by the heavy sum alone: room for 2, 1 or 0


def test_a_sum_stated_twice_changes_no_count() -> None:
    """Both have the same rest as a table: what they say together with it still counts."""
    sum_ = total(1, a=(0, 1, 1, 1), c=(0, 0, 0, 1), d=(0, 1, 0))
    pairs = Table(("b", "d"), frozenset({(0, 0), (1, 1)}), origin("pairs"))
    space = Space(choices(4, 2, 4, 3), (pairs,), (sum_, sum_))
    assert Diagram().count(space) == Brute().count(space)

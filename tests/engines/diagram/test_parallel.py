"""Two limits on one load, made one."""

from __future__ import annotations

import itertools

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from baywright.engines.brute import Brute
from baywright.engines.contract import Limit
from baywright.engines.diagram import Diagram, Guards
from baywright.engines.diagram.drafts import Level, Open
from baywright.engines.diagram.parallel import united
from baywright.engines.diagram.reading import read
from baywright.engines.preparation import Deadline
from baywright.space import Space
from tests.engines.diagram.given import choices, total

CARRIED = Guards(totals=0)
"""No sum is compiled that could be carried instead."""


def level(at_most: int, *weights: tuple[int, ...]) -> Level:
    return Level({n: w for n, w in enumerate(weights) if any(w)}, at_most, ("key",))


def holds(sum_: Level, row: tuple[int, ...]) -> bool:
    return sum(weights[row[choice]] for choice, weights in sum_.weights.items()) <= sum_.at_most


COLUMN = st.tuples(st.just(0), st.integers(1, 6), st.integers(0, 6))


@given(
    st.lists(COLUMN, min_size=3, max_size=3),
    st.tuples(COLUMN, COLUMN),
    st.tuples(st.integers(1, 3), st.integers(1, 3)),
    st.tuples(st.integers(0, 30), st.integers(0, 30)),
)
def test_one_sum_says_what_two_parallel_ones_say(
    load: list[tuple[int, ...]],
    apart: tuple[tuple[int, ...], tuple[int, ...]],
    factors: tuple[int, int],
    bounds: tuple[int, int],
) -> None:
    one, other = (
        level(bound, *(tuple(factor * w for w in column) for column in load), own)
        for bound, factor, own in zip(bounds, factors, apart, strict=True)
    )
    left: Open = [np.ones(3, np.bool_) for _ in range(4)]
    union = united(one, other, left)
    assert union is not None
    for row in itertools.product(range(3), repeat=4):
        rows = [row]
        if union.table is not None:
            rows = [(*row, int(r[-1])) for r in union.table.rows if r[0] == row[3]]
        both = holds(one, row) and holds(other, row)
        assert any(holds(union.total, whole) for whole in rows) is both


def test_sums_that_share_little_stay_apart() -> None:
    left: Open = [np.ones(2, np.bool_) for _ in range(4)]
    one, other = level(3, (0, 1), (0, 1), (0, 2)), level(3, (0, 1), (0, 2), (0, 1))
    assert united(one, other, left) is None


def test_supplies_and_fans_that_carry_the_same_load_are_one_budget() -> None:
    """Load at most what supplies (e) and fans (f) carry; the fans draw something themselves."""
    load = dict.fromkeys("abcd", (0, 110, 230))
    space = Space(
        choices(3, 3, 3, 3, 3, 3),
        (),
        (
            total(0, "supplies", **load, e=(-300, -500, -800), f=(22, 44, 66)),
            total(0, "air", **load, f=(-320, -640, -960)),
        ),
    )
    reading = read(space, CARRIED, Deadline(Limit(60)))
    assert [limit.keys for limit in reading.limits] == [("supplies", "air")]
    for engine in (Diagram(), Diagram(CARRIED)):
        assert engine.options(space) == Brute().options(space)
        assert engine.count(space) == Brute().count(space)

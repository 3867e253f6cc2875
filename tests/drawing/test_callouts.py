"""Call-outs keep their distance and their order, whatever they are led to."""

from __future__ import annotations

from itertools import combinations, pairwise

from hypothesis import given
from hypothesis import strategies as st

from baywright.drawing.callouts import (
    GAP,
    RADIUS,
    SIDES,
    Anchored,
    Drawn,
    Side,
    Wanted,
    anchored,
    most_in_rows,
    placed,
    spread,
)
from baywright.drawing.geometry import Rect

BOUNDS = Rect(100.0, 100.0, 600.0, 200.0)
REGION = Rect(30.0, 30.0, 740.0, 340.0)
PLACES = st.lists(st.floats(0.0, 600.0), max_size=25).map(sorted)


@given(PLACES)
def test_a_rail_keeps_gap_ends_and_order(ideal: list[float]) -> None:
    found = spread(ideal, 24.0, 0.0, 600.0)
    assert len(found) == len(ideal)
    assert all(-1e-6 <= x <= 600.0 + 1e-6 for x in found)
    assert all(b - a >= 24.0 - 1e-6 for a, b in pairwise(found))


@given(PLACES)
def test_points_that_are_far_enough_apart_stay(ideal: list[float]) -> None:
    if all(b - a >= 24.0 for a, b in pairwise(ideal)):
        assert all(
            abs(a - b) < 1e-6 for a, b in zip(spread(ideal, 24.0, 0.0, 600.0), ideal, strict=True)
        )


@given(PLACES, st.floats(0.1, 8.0))
def test_no_other_spreading_moves_less(ideal: list[float], by: float) -> None:
    """Moving one point of the result, where that keeps the gap, never comes nearer to the ideal."""
    found = spread(ideal, 24.0, 0.0, 600.0)
    cost = sum((a - b) ** 2 for a, b in zip(found, ideal, strict=True))
    for i in range(len(found)):
        for step in (-by, by):
            other = [x + step if j == i else x for j, x in enumerate(found)]
            kept = all(b - a >= 24.0 - 1e-9 for a, b in pairwise(other))
            if kept and 0.0 <= other[i] <= 600.0:
                assert sum((a - b) ** 2 for a, b in zip(other, ideal, strict=True)) >= cost - 1e-6


def test_a_rail_that_is_too_short_shrinks_the_gap_and_not_the_order() -> None:
    assert spread([5.0, 5.0, 5.0], 24.0, 0.0, 20.0) == [0.0, 10.0, 20.0]


RECTS = st.builds(
    Rect, st.floats(100, 640), st.floats(100, 270), st.floats(5, 60), st.floats(5, 30)
)


@given(st.lists(RECTS, max_size=30, unique=True))
def test_circles_never_touch_and_numbers_run_on(rects: list[Rect]) -> None:
    wanted = [Wanted(str(i), (rect,)) for i, rect in enumerate(rects)]
    most: dict[Side, int] = {"top": 16, "bottom": 16, "left": 7, "right": 7}
    found = anchored(wanted, BOUNDS, Drawn(tuple(rects)), most)
    assert {each.name for each in found} == {each.name for each in wanted}
    numbered = placed(found, BOUNDS, REGION)
    assert [each.number for each in numbered] == list(range(1, len(rects) + 1))
    for one, other in combinations(numbered, 2):
        (x1, y1), (x2, y2) = one.centre, other.centre
        assert (x1 - x2) ** 2 + (y1 - y2) ** 2 >= (2 * RADIUS) ** 2 - 1e-6
    for each in numbered:
        (x, y) = each.centre
        assert not BOUNDS.meets(Rect(x - RADIUS, y - RADIUS, 2 * RADIUS, 2 * RADIUS))


@given(st.lists(st.floats(100.0, 700.0), min_size=2, max_size=50, unique=True))
def test_a_second_row_takes_what_the_first_cannot(xs: list[float]) -> None:
    number = min(len(xs), most_in_rows(REGION.width - 2 * RADIUS - 2, 2))
    found = [Anchored(str(i), "top", (x, 100.0)) for i, x in enumerate(xs[:number])]
    for one, other in combinations(placed(found, BOUNDS, REGION), 2):
        (x1, y1), (x2, y2) = one.centre, other.centre
        assert (x1 - x2) ** 2 + (y1 - y2) ** 2 >= (2 * RADIUS) ** 2 - 1e-6


def test_a_rail_says_how_many_it_holds() -> None:
    assert most_in_rows(10 * GAP, 1) == 11
    assert most_in_rows(-1.0, 2) == 0
    assert SIDES == ("top", "left", "right", "bottom")

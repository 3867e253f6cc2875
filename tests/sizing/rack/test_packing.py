"""Machines into free rack units: exact, against trying every way."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.sizing.rack.packing import machines_by_space, machines_by_total, packed, units_of

heights = st.lists(st.integers(1, 6), max_size=5)
runs = st.lists(st.integers(0, 10), max_size=3)


def fits_somehow(machines: list[int], free: list[int]) -> bool:
    """Whether some way of giving each machine a run works, every way tried."""
    ways = itertools.product(range(len(free)), repeat=len(machines))
    return any(
        all(
            sum(h for h, run in zip(machines, way, strict=True) if run == number) <= room
            for number, room in enumerate(free)
        )
        for way in ways
    )


@given(heights, runs)
def test_machines_are_packed_when_and_only_when_they_fit(
    machines: list[int], free: list[int]
) -> None:
    way = packed(machines, free)
    assert (way is not None) == fits_somehow(machines, free)
    if way is not None:
        assert sorted(itertools.chain(*way)) == list(range(len(machines)))
        assert all(
            sum(machines[each] for each in run) <= room for run, room in zip(way, free, strict=True)
        )


@given(runs, st.integers(1, 6))
def test_equal_machines_are_packed_up_to_the_count_by_space(free: list[int], units: int) -> None:
    most = machines_by_space(free, units)
    assert packed([units] * most, free) is not None
    assert packed([units] * (most + 1), free) is None


@given(runs, st.integers(1, 6), st.integers(0, 4))
def test_more_room_never_takes_fewer(free: list[int], units: int, more: int) -> None:
    assert machines_by_space([*free, more], units) >= machines_by_space(free, units)


@given(st.integers(1, 1000), st.floats(0.01, 100.0))
def test_a_total_that_comes_out_even_counts_in_full(count: int, each: float) -> None:
    assert machines_by_total(count * each, each) == count


@given(st.floats(0.0, 1e6), st.floats(0.01, 1e4))
def test_a_total_bears_what_it_bears_and_not_one_more(available: float, each: float) -> None:
    count = float(machines_by_total(available, each))
    assert count * each <= available * (1 + 1e-9) + 1e-6 * each
    assert (count + 1) * each > available


def test_a_rack_of_several_kinds() -> None:
    """Four of 4 U, five of 2 U and one of 1 U take 27 U. In 9, 9 and 9 every run would be full,
    so each would hold an odd machine, and there is only one."""
    machines = [4] * 4 + [2] * 5 + [1]
    assert packed(machines, [14, 13]) is not None
    assert packed(machines, [13, 13]) is None
    assert packed(machines, [9, 9, 9]) is None


def test_a_full_rack_is_packed_at_once() -> None:
    assert packed([2] * 10 + [4] * 5 + [1] * 2, [20, 10, 12]) is not None
    assert packed([3] * 14, [41]) is None


def test_nothing_fits_into_nothing() -> None:
    assert packed([], []) == ()
    assert packed([1], []) is None
    assert math.isnan(float(machines_by_total(10.0, 0.0)))


def test_impossible_heights_are_refused() -> None:
    for wrong in (
        lambda: units_of(0.0),
        lambda: packed([0], [1]),
        lambda: machines_by_space([1], 0),
    ):
        with pytest.raises(ValueError, match="machine"):
            wrong()

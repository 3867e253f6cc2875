"""Laws of the formulas of memory, over random populations."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.sizing.equation import Reals
from baywright.sizing.memory.interleave import (
    even_bandwidth,
    region_bandwidth,
    regions,
    spread,
)
from baywright.sizing.memory.kept_back import guest_memory, guests, mirrored, with_spares
from baywright.sizing.memory.modules import channel_bandwidth, module_name, total_width

CHANNEL = 40e9
channels = st.lists(st.sampled_from([0.0, 16.0, 32.0, 64.0, 96.0, 128.0]), min_size=1, max_size=12)


@given(channels)
def test_regions_hold_all_of_memory(capacities: list[float]) -> None:
    found = regions(np.array(capacities))
    assert found.sizes.sum() == sum(capacities)
    assert found.count == len({capacity for capacity in capacities if capacity})


@given(channels)
def test_the_bandwidth_over_all_is_that_of_the_regions_one_after_the_other(
    capacities: list[float],
) -> None:
    """All of memory over the time that each region takes at its own bandwidth."""
    found = regions(np.array(capacities))
    bandwidths = np.asarray(region_bandwidth(found.widths, CHANNEL))
    even = even_bandwidth(np.array(capacities), CHANNEL)
    if any(capacities):
        time = (found.sizes / bandwidths).sum()
        assert even == pytest.approx(sum(capacities) / time, rel=1e-12)
    else:
        assert np.isnan(even)


@given(channels)
def test_no_population_beats_channels_filled_alike(capacities: list[float]) -> None:
    filled = [capacity for capacity in capacities if capacity]
    peak = np.asarray(region_bandwidth(len(filled), CHANNEL))
    even = np.nan_to_num(even_bandwidth(np.array(capacities), CHANNEL))
    assert even <= peak * (1 + 1e-12)
    assert (even == pytest.approx(float(peak))) == (len(set(filled)) <= 1)


@given(channels)
def test_more_on_the_emptiest_channel_never_slows_all_of_memory(capacities: list[float]) -> None:
    """As long as it does not become the fullest; doubling a full channel may well slow it."""
    lowest = capacities.index(min(capacities))
    more = [*capacities]
    more[lowest] = max(capacities)
    before = np.nan_to_num(even_bandwidth(np.array(capacities), CHANNEL))
    assert np.nan_to_num(even_bandwidth(np.array(more), CHANNEL)) >= before


@given(st.integers(0, 40), st.integers(1, 12))
def test_modules_are_spread_before_any_channel_is_doubled(modules: int, number: int) -> None:
    counts = spread(float(modules), number)
    assert counts.sum() == modules
    assert counts.max() - counts.min() <= 1
    assert counts.tolist() == sorted(counts, reverse=True)


@given(channels)
def test_a_mirror_needs_a_partner_for_each_channel(capacities: list[float]) -> None:
    counts = Counter(capacity for capacity in capacities if capacity)
    left = mirrored(np.array(capacities))
    if all(count % 2 == 0 for count in counts.values()):
        assert left == sum(capacities) / 2
    else:
        assert np.isnan(left)


@given(channels, st.integers(1, 8))
def test_spares_leave_what_one_unit_a_channel_does_not_take(
    capacities: list[float], ranks: int
) -> None:
    held = np.array(capacities)
    left = with_spares(held, held / ranks)
    if ranks == 1 and any(capacities):
        assert np.isnan(left)
    elif ranks > 1:
        assert left == pytest.approx(sum(capacities) * (ranks - 1) / ranks)


@given(st.floats(0, 1e5), st.floats(0, 1e3), st.floats(0, 2), st.floats(0.5, 500))
def test_guests_never_take_more_than_there_is(
    installed: float, kept_back: float, overhead: float, each: float
) -> None:
    memory = guest_memory(installed, kept_back, overhead)
    taken = np.multiply(guests(memory, each), each) * (1 + overhead) + kept_back
    assert taken <= max(installed, kept_back) * (1 + 1e-9) + 1e-6


@given(st.integers(0, 500), st.floats(0, 0.5))
def test_guests_that_fit_exactly_fit(number: int, overhead: float) -> None:
    installed = 32 + number * 12 * (1 + overhead)
    assert guests(guest_memory(installed, 32, overhead), 12) == number


def test_arrays_give_what_numbers_give() -> None:
    rates = np.array([3200e6, np.nan, 5600e6])
    found = np.asarray(channel_bandwidth(rates))
    assert found[0] == channel_bandwidth(3200e6)
    assert np.isnan(found[1])
    many = np.array([[64.0, 64.0], [64.0, 0.0], [0.0, 0.0]])
    even: Reals = np.asarray(even_bandwidth(many, CHANNEL))
    assert even[:2].tolist() == [2 * CHANNEL, CHANNEL]
    assert np.isnan(even[2])


def test_what_makes_no_sense_is_refused_or_not_decided() -> None:
    assert np.isnan(channel_bandwidth(-1.0))
    assert np.isnan(guests(100.0, 0.0))
    assert guest_memory(16, 32, 0.08) == 0
    assert module_name("DDR5", float("nan")) == ""
    with pytest.raises(ValueError, match="negative"):
        total_width(-8)
    with pytest.raises(ValueError, match="negative"):
        regions(np.array([-1.0]))
    with pytest.raises(ValueError, match="counted"):
        spread(1, 0)
    with pytest.raises(ValueError, match="overhead"):
        guest_memory(1024, 32, -0.1)

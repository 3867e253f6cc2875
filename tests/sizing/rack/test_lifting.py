"""What holds for every lift."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.sizing.rack.lifting import (
    LOAD_CONSTANT,
    frequency_multiplier,
    lift_band,
    lifting_index,
    weight_limit,
)

reaches = st.floats(0.0, 0.63)
heights = st.floats(0.0, 1.75)
rates = st.floats(0.0, 20.0)


@given(reaches, heights, heights, st.floats(0.0, 135.0), rates)
def test_a_limit_is_between_nothing_and_the_load_constant(
    reach: float, height: float, way: float, turned: float, rate: float
) -> None:
    assert 0.0 <= float(weight_limit(reach, height, way, turned, rate)) <= LOAD_CONSTANT


@given(reaches, st.floats(0.0, 0.5), heights)
def test_further_out_never_allows_more(reach: float, more: float, height: float) -> None:
    assert weight_limit(reach + more, height, 0.3) <= weight_limit(reach, height, 0.3)


@given(rates, rates, st.sampled_from([1.0, 2.0, 8.0]), heights)
def test_more_often_never_allows_more(one: float, other: float, hours: float, hands: float) -> None:
    slow, fast = sorted((one, other))
    assert frequency_multiplier(fast, hours, hands) <= frequency_multiplier(slow, hours, hands)


@given(rates, heights)
def test_longer_never_allows_more(rate: float, hands: float) -> None:
    one, two, eight = (frequency_multiplier(rate, hours, hands) for hours in (1.0, 2.0, 8.0))
    assert one >= two >= eight


def test_a_day_longer_than_the_table_is_not_decided() -> None:
    assert math.isnan(float(frequency_multiplier(1.0, 8.5, 0.8)))


def test_between_the_last_rate_and_nothing_there_is_nothing() -> None:
    """The manual does not say; the safe side does."""
    assert frequency_multiplier(12.5, 1.0, 0.5) == 0.0
    assert lifting_index(10.0, 0.0) == math.inf


@given(st.floats(0.0, 100.0))
def test_the_band_is_the_first_that_bears_the_mass(mass: float) -> None:
    bands = [16.0, 30.0, 48.0]
    number = int(lift_band(mass, bands))
    assert number == 1 + sum(mass > most + 1e-9 for most in bands)


def test_bands_of_several_builds() -> None:
    found = lift_band(np.array([16.0, 16.1, 50.0, np.nan]), [16.0, 30.0, 48.0])
    assert np.array_equal(found, [1.0, 2.0, 4.0, np.nan], equal_nan=True)


def test_bands_and_distances_have_to_make_sense() -> None:
    with pytest.raises(ValueError, match="rise"):
        lift_band(10.0, [30.0, 16.0])
    with pytest.raises(ValueError, match="never negative"):
        weight_limit(-0.1, 0.75, 0.25)

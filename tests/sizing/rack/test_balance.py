"""What statics says of any rack."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.sizing.rack.balance import (
    centre_of_mass,
    floor_load,
    righting_moment,
    tilt_angle,
    tip_factor,
    tipping_moment,
)

masses = st.floats(0.01, 500.0)
lengths = st.floats(0.0, 3.0)


@given(st.lists(st.tuples(masses, lengths), min_size=1, max_size=6))
def test_a_centre_lies_among_its_masses(bodies: list[tuple[float, float]]) -> None:
    weights, places = zip(*bodies, strict=True)
    centre = centre_of_mass(weights, places)
    assert min(places) - 1e-9 <= centre <= max(places) + 1e-9


@given(st.lists(st.tuples(masses, lengths), min_size=1, max_size=6), lengths)
def test_moving_the_origin_moves_the_centre(bodies: list[tuple[float, float]], by: float) -> None:
    weights, places = zip(*bodies, strict=True)
    moved = centre_of_mass(weights, [place + by for place in places])
    assert moved == pytest.approx(centre_of_mass(weights, places) + by, abs=1e-9)


@given(masses, masses, lengths, lengths)
def test_more_mass_or_travel_never_tips_less(
    mass: float, more: float, travel: float, further: float
) -> None:
    before = tipping_moment(mass, travel, 0.4, 0.05)
    assert tipping_moment(mass + more, travel, 0.4, 0.05) >= before
    assert tipping_moment(mass, travel + further, 0.4, 0.05) >= before


@given(masses, lengths, st.floats(0.01, 2.0))
def test_a_rack_on_its_edge_has_a_factor_of_one(mass: float, travel: float, depth: float) -> None:
    tipping = tipping_moment(mass, travel + 0.5, 0.4)
    rack = tipping / (righting_moment(1.0, depth))
    assert tip_factor(righting_moment(rack, depth), tipping) == pytest.approx(1.0)


def test_a_machine_whose_centre_stays_inside_tips_nothing() -> None:
    assert tipping_moment(30.0, 0.4, 0.45) == 0.0
    assert tip_factor(100.0, 0.0) == math.inf


@given(st.floats(0.1, 2.0), st.floats(0.1, 3.0), st.floats(0.01, 1.0))
def test_a_higher_centre_falls_sooner(width: float, height: float, more: float) -> None:
    assert tilt_angle(width, height + more) < tilt_angle(width, height)


def test_arrays_stand_for_several_builds() -> None:
    assert np.allclose(tipping_moment(np.array([10.0, 20.0]), 0.8, 0.3), [49.03325, 98.0665])
    centres = centre_of_mass([np.array([1.0, 3.0]), np.array([1.0, 1.0])], [0.0, 1.0])
    assert np.allclose(centres, [0.5, 0.25])


def test_nothing_has_no_centre_and_no_floor_no_load() -> None:
    assert math.isnan(float(centre_of_mass([0.0], [1.0])))
    assert math.isnan(float(floor_load(10.0, 0.0, 1.0)))


def test_impossible_bodies_are_refused() -> None:
    with pytest.raises(ValueError, match="never negative"):
        centre_of_mass([-1.0], [0.0])
    with pytest.raises(ValueError, match="do not go together"):
        centre_of_mass([1.0], [0.0, 1.0])

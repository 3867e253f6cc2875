"""Tipping, floors, rack units and air changes against numbers in print."""

from __future__ import annotations

import numpy as np
import pint
import pytest

from baywright.sizing.air.atmosphere import GRAVITY
from baywright.sizing.rack.balance import (
    centre_of_mass,
    floor_load,
    righting_moment,
    tilt_angle,
    tip_factor,
    tipping_moment,
)
from baywright.sizing.rack.packing import units_of
from baywright.sizing.rack.room import air_changes

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


def test_a_piece_about_to_tip() -> None:
    """Manual of GNU FisicaLab, example 9.7: a piece of 3.5 kg with its centre at 18 cm stands on
    an edge at 25 cm; a force at 50 cm tips it at 9.614 N, and the edge then carries 43.949 N.

    R, a stored copy. Four printed digits, computed there with 9.81 m/s2."""
    force = 9.614
    righting = righting_moment(3.5, 0.25 - 0.18)
    tipping = tipping_moment(force / 9.81, travel=0.50 - 0.25, centre=0.0)
    assert tip_factor(righting, tipping) == pytest.approx(1.0, rel=1e-4)
    assert 3.5 * 9.81 + force == pytest.approx(43.949, rel=1e-5)


def test_a_board_with_a_box_over_the_end_of_a_table() -> None:
    """A board of 7 kg, its centre 5 cm inside the end of the table, tilts when a box of 3 kg stands
    11.67 cm outside: read in a stored page of answered questions (R). Four printed digits."""
    outside = righting_moment(7.0, 0.05) / (3.0 * GRAVITY)
    assert outside == pytest.approx(0.1167, abs=5e-5)
    assert tip_factor(righting_moment(7.0, 0.05), tipping_moment(3.0, 0.1167, 0.0)) < 1.0
    assert tip_factor(righting_moment(7.0, 0.05), tipping_moment(3.0, 0.1166, 0.0)) > 1.0


def test_a_filing_cabinet_tilted_sideways() -> None:
    """52 in high, 15 in wide, its centre in the middle: the problem was read in a stored page (R),
    its answer, 16 degrees, is from memory (M) and recomputed: atan(7.5 / 26) = 16.09 degrees."""
    assert tilt_angle(15 * 0.0254, 26 * 0.0254) == pytest.approx(16.09, abs=0.005)


def test_two_masses_at_a_distance() -> None:
    """R_x = m_b d / (m_a + m_b), an engineering handbook, stored copy (R); exact. The average of
    NumPy with the masses as weights says the same."""
    assert centre_of_mass([2.0, 6.0], [0.0, 1.2]) == pytest.approx(6.0 * 1.2 / 8.0)
    masses, places = [2.0, 3.0, 5.0], [0.1, 0.7, 0.4]
    assert centre_of_mass(masses, places) == pytest.approx(np.average(places, weights=masses))


@pytest.mark.parametrize(("inches", "units"), [(1.75, 1), (3.5, 2), (5.25, 3), (7.0, 4)])
def test_rack_units(inches: float, units: int) -> None:
    """EIA-310: 1 U is 1.75 in, 2 U 3.5 in, 4 U 7.0 in: R2, pages that quote it; 5.25 recomputed.
    Exact, and a tenth of a millimetre more takes one unit more."""
    height = UNITS.Quantity(inches, "in").m_as("m")
    assert units_of(height) == units
    assert units_of(height + 1e-4) == units + 1


def test_the_holes_of_a_unit_add_up() -> None:
    """15.875 + 15.875 + 12.70 mm since the revision of 1992: R, a stored page. Exact."""
    assert units_of((15.875 + 15.875 + 12.70) / 1000) == 1


def test_a_floor_in_other_units() -> None:
    """1 kg/m2 is 0.204816 lb/ft2: recomputed by the package pint, itself an outside reference."""
    ours = UNITS.Quantity(floor_load(900.0, 0.6, 1.2), "kg/m**2")
    assert ours.m_as("lb/ft**2") == pytest.approx(1250 * 0.204816, rel=1e-6)


def test_air_changes() -> None:
    """500 CFM in a room of 1,000 ft3 change its air 30 times an hour: R, a stored page. Exact."""
    flow = UNITS.Quantity(500, "ft**3/min").m_as("m**3/s")
    volume = UNITS.Quantity(1000, "ft**3").m_as("m**3")
    assert air_changes(flow, volume) == pytest.approx(30.0)

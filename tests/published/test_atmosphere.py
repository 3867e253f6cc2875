"""The standard atmosphere against printed values and against a reference library.

Printed: ASHRAE Handbook of Fundamentals 2017, chapter 1, Table 1, as it stands in the test suite
of PsychroLib; seen in a file of that public package. The table gives whole
pascals, so half a pascal is allowed.
Reference library: PsychroLib 2.5, which is installed for the tests.
"""

from __future__ import annotations

import math

import psychrolib
import pytest

from baywright.sizing.air.atmosphere import density, pressure, temperature
from baywright.sizing.air.flow import heat_per_flow

TABLE = [(0.0, 101_325.0), (500.0, 95_461.0), (1000.0, 89_875.0), (4000.0, 61_640.0)]
"""Altitude in m, pressure in Pa."""

ALTITUDES = [-500.0, 0.0, 900.0, 1500.0, 2300.0, 3050.0, 5000.0, 10_000.0]


@pytest.fixture(autouse=True)
def _metric() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize(("altitude", "printed"), TABLE)
def test_pressure_is_that_of_the_printed_table(altitude: float, printed: float) -> None:
    assert pressure(altitude) == pytest.approx(printed, abs=0.5)


@pytest.mark.parametrize("altitude", ALTITUDES)
def test_pressure_is_that_of_the_reference_library(altitude: float) -> None:
    # Its exponent has five digits and ours comes from constants: 1e-5 apart at 10 km.
    assert pressure(altitude) == pytest.approx(
        psychrolib.GetStandardAtmPressure(altitude), rel=2e-5
    )


@pytest.mark.parametrize("altitude", ALTITUDES)
def test_temperature_is_that_of_the_reference_library(altitude: float) -> None:
    expected = psychrolib.GetStandardAtmTemperature(altitude) + 273.15
    assert temperature(altitude) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("altitude", ALTITUDES)
def test_density_is_that_of_dry_air_in_the_reference_library(altitude: float) -> None:
    # Its gas constant is 287.042 J/(kg K), that of ISO 2533 287.05287: 3.8e-5 apart.
    expected = psychrolib.GetDryAirDensity(temperature(altitude) - 273.15, pressure(altitude))
    assert density(altitude) == pytest.approx(expected, rel=4e-5)


def test_dry_air_at_25_degrees_has_the_printed_volume() -> None:
    """Same handbook and chapter, Table 2: 0.8443 m3/kg, four digits; read in the same place."""
    ideal = density(0.0) * temperature(0.0) / 298.15
    assert 1 / ideal == pytest.approx(0.8443, rel=5e-4)
    # The ideal gas is 1/1.1839 = 0.8447: the printed one is that of real air.
    assert 1 / ideal == pytest.approx(1 / psychrolib.GetDryAirDensity(25.0, 101_325.0), rel=4e-5)


@pytest.mark.parametrize("altitude", [-1000.1, 11_000.1])
def test_outside_its_layer_there_is_no_number(altitude: float) -> None:
    assert math.isnan(density(altitude))
    with pytest.raises(ValueError, match="outside the layer"):
        heat_per_flow(altitude)

"""The standard atmosphere and moist air against printed values and reference libraries.

Printed: ASHRAE Handbook of Fundamentals 2017, chapter 1, Tables 1 and 2, as they stand in the test
suite of PsychroLib; seen in a file of that public package. Two tables of the standard atmosphere
on the web, read in stored copies: one of a course in aerodynamics, by feet of geopotential
altitude, and one of an engineering handbook, by metres of height, which is not quite the same.
The end of the layer stands in the documentation of the package poliastro, read in a stored copy.
Reference libraries, installed for the tests: PsychroLib 2.5 and CoolProp 8.0.
"""

from __future__ import annotations

import math

import numpy as np
import psychrolib
import pytest
from CoolProp.CoolProp import HAPropsSI, PropsSI

from baywright.sizing.air.atmosphere import (
    HIGHEST,
    LOWEST,
    altitude_of,
    density,
    moist_density,
    pressure,
    saturation_pressure,
    temperature,
)
from baywright.sizing.air.flow import heat_per_flow

TABLE = [(0.0, 101_325.0), (500.0, 95_461.0), (1000.0, 89_875.0), (4000.0, 61_640.0)]
"""Altitude in m, pressure in Pa."""

BY_FEET = [
    # feet, pressure and density over those at sea level
    (500, 0.9821, 0.9855),
    (1000, 0.9644, 0.9711),
    (2500, 0.9129, 0.9289),
    (5000, 0.8320, 0.8617),
    (7500, 0.7571, 0.7983),
    (10_000, 0.6877, 0.7385),
    (11_500, 0.6486, 0.7043),
]
BY_HEIGHT = [
    # metres, pressure in bar, density over that at sea level
    (-1000, 1.1393, 1.0996),
    (500, 0.9546, 0.9529),
    (1000, 0.8988, 0.9075),
    (2000, 0.7950, 0.8217),
    (3000, 0.7012, 0.7423),
    (5000, 0.5405, 0.6012),
]
ALTITUDES = [-500.0, 0.0, 900.0, 1500.0, 2300.0, 3050.0, 5000.0, 10_000.0]
MOIST = [
    # altitude in m, degrees Celsius, relative humidity
    (0.0, 15.0, 0.0),
    (0.0, 25.0, 0.5),
    (900.0, 27.0, 0.6),
    (2300.0, 27.0, 0.2),
    (3050.0, 35.0, 0.9),
    (0.0, 55.0, 0.8),
]


@pytest.fixture(autouse=True)
def _metric() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize(("altitude", "printed"), TABLE)
def test_pressure_is_that_of_the_printed_table(altitude: float, printed: float) -> None:
    # The table gives whole pascals, so half a pascal is allowed.
    assert pressure(altitude) == pytest.approx(printed, abs=0.5)


@pytest.mark.parametrize(("feet", "pressures", "densities"), BY_FEET)
def test_ratios_are_those_of_the_table_by_feet(
    feet: int, pressures: float, densities: float
) -> None:
    # Four digits are printed, some of them cut off and not rounded: one in the last place.
    altitude = feet * 0.3048
    assert pressure(altitude) / pressure(0.0) == pytest.approx(pressures, abs=1e-4)
    assert density(altitude) / density(0.0) == pytest.approx(densities, abs=1e-4)


@pytest.mark.parametrize(("height", "bar", "densities"), BY_HEIGHT)
def test_air_is_that_of_the_table_by_height(height: int, bar: float, densities: float) -> None:
    # The table is by geometric height. 5,000 m of it are 4,996 m of geopotential altitude,
    # over which pressure changes by 5e-4 of itself; below, the difference is less.
    assert pressure(float(height)) / 1e5 == pytest.approx(bar, rel=6e-4)
    assert density(float(height)) / density(0.0) == pytest.approx(densities, rel=6e-4)


def test_the_layer_ends_as_printed() -> None:
    """At 11 km: 216.650 K, 226.32 mbar, 0.36392 kg/m3 by the documentation of poliastro."""
    assert temperature(HIGHEST) == pytest.approx(216.650, abs=1e-9)
    assert pressure(HIGHEST) / 100 == pytest.approx(226.32, abs=0.005)
    assert density(HIGHEST) == pytest.approx(0.36392, abs=5e-6)


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
    kelvin, pascal = temperature(altitude), pressure(altitude)
    expected = psychrolib.GetDryAirDensity(kelvin - 273.15, pascal)
    assert density(altitude) == pytest.approx(expected, rel=4e-5)


@pytest.mark.parametrize("altitude", ALTITUDES)
def test_density_is_near_that_of_real_air(altitude: float) -> None:
    # CoolProp takes air as the real gas it is: up to 5e-4 denser than an ideal gas at 15 °C.
    kelvin, pascal = temperature(altitude), pressure(altitude)
    real = PropsSI("D", "T", kelvin, "P", pascal, "Air")
    assert density(altitude) == pytest.approx(real, rel=8e-4)


def test_dry_air_at_25_degrees_has_the_printed_volume() -> None:
    """Same handbook and chapter, Table 2: 0.8443 m3/kg, four digits; read in the same place."""
    ideal = moist_density(pressure(0.0), 25.0)
    # The ideal gas is 1/1.1839 = 0.8447: the printed one is that of real air.
    assert 1 / ideal == pytest.approx(0.8443, rel=5e-4)
    assert 1 / ideal == pytest.approx(1 / psychrolib.GetDryAirDensity(25.0, 101_325.0), rel=4e-5)


@pytest.mark.parametrize("celsius", [5.0, 15.0, 25.0, 45.0, 60.0])
def test_saturation_pressure_is_that_of_the_reference_library(celsius: float) -> None:
    # The same correlation with the same coefficients.
    assert saturation_pressure(celsius) == pytest.approx(
        psychrolib.GetSatVapPres(celsius), rel=1e-9
    )


@pytest.mark.parametrize(("altitude", "celsius", "humidity"), MOIST)
def test_moist_air_is_as_dense_as_in_the_reference_library(
    altitude: float, celsius: float, humidity: float
) -> None:
    # The gas constants differ by 3.8e-5, the humidity ratio has six digits.
    pascal = float(pressure(altitude))
    ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity, pascal)
    expected = psychrolib.GetMoistAirDensity(celsius, ratio, pascal)
    assert moist_density(pascal, celsius, humidity) == pytest.approx(expected, rel=6e-5)


@pytest.mark.parametrize(("altitude", "celsius", "humidity"), MOIST)
def test_moist_air_is_near_that_of_real_gases(
    altitude: float, celsius: float, humidity: float
) -> None:
    # CoolProp: virial coefficients and the enhancement of saturation by air, 0.5 % of the vapour.
    pascal = float(pressure(altitude))
    state = ("T", celsius + 273.15, "P", pascal, "R", humidity)
    humid = HAPropsSI("W", *state)
    real = (1 + humid) / HAPropsSI("Vda", *state)
    assert moist_density(pascal, celsius, humidity) == pytest.approx(real, rel=1e-3)


@pytest.mark.parametrize("altitude", [LOWEST, *ALTITUDES, HIGHEST])
def test_the_altitude_of_a_density_is_where_it_came_from(altitude: float) -> None:
    assert altitude_of(density(altitude)) == pytest.approx(altitude, abs=1e-6)


def test_arrays_hold_what_single_numbers_do() -> None:
    expected = [density(altitude) for altitude in ALTITUDES]
    assert np.asarray(density(np.array(ALTITUDES))).tolist() == pytest.approx(expected)


@pytest.mark.parametrize("altitude", [-1000.1, 11_000.1])
def test_outside_its_layer_there_is_no_number(altitude: float) -> None:
    assert math.isnan(density(altitude))
    with pytest.raises(ValueError, match="outside the layer"):
        heat_per_flow(altitude)


@pytest.mark.parametrize("thin", [0.3, 1.4, -1.0])
def test_a_density_outside_the_layer_has_no_altitude(thin: float) -> None:
    assert math.isnan(altitude_of(thin))


def test_a_humidity_is_a_share() -> None:
    with pytest.raises(ValueError, match="share from 0 to 1"):
        moist_density(101_325.0, 20.0, 50.0)

"""The air: pressure, temperature and density by altitude, and the density of moist air."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within

SEA_LEVEL_PRESSURE = 101_325.0
"""Pa."""

SEA_LEVEL_TEMPERATURE = 288.15
"""K."""

LAPSE = 0.0065
"""Fall of temperature with altitude, K/m."""

GAS_CONSTANT = 287.052_87
"""Specific gas constant of dry air, J/(kg K)."""

GRAVITY = 9.806_65
"""m/s2."""

LOWEST, HIGHEST = -1_000.0, 11_000.0
"""Range of the layer, m."""

ZERO_CELSIUS = 273.15
"""K."""

WATER_TO_AIR = 0.621_945
"""Molar mass of water over that of dry air."""

_STANDARD = "ISO 2533:1975, the same layer as in ICAO Doc 7488"
_LAYER = "-1,000 to 11,000 m of geopotential altitude"
_HANDBOOK = "ASHRAE Handbook of Fundamentals 2017, chapter 1"
_NAN = "not-a-number"

_EXPONENT = GRAVITY / (GAS_CONSTANT * LAPSE)

# Coefficients of the saturation pressure over water, from Hyland and Wexler.
_SATURATION = (-5.800_220_6e3, 1.391_499_3, -4.864_023_9e-2, 4.176_476_8e-5, -1.445_209_3e-8)
_SATURATION_LOGARITHM = 6.545_967_3


@equation("A1", "T = T0 - L h", source=_STANDARD, valid=_LAYER, outside=_NAN)
def temperature(altitude: Floats) -> Floats:
    """Return the temperature of the standard atmosphere.

    Args:
        altitude: geopotential altitude [m], from -1,000 to 11,000, of any shape.

    Returns:
        Temperature [K], of the same shape; not-a-number outside the range.
    """
    height = np.asarray(altitude, float)
    inside = (height >= LOWEST) & (height <= HIGHEST)
    return within(SEA_LEVEL_TEMPERATURE - LAPSE * height, inside)


@equation("A2", "p = p0 (T / T0)^(g / (R L))", source=_STANDARD, valid=_LAYER, outside=_NAN)
def pressure(altitude: Floats) -> Floats:
    """Return the pressure of the standard atmosphere.

    Args:
        altitude: geopotential altitude [m], from -1,000 to 11,000, of any shape.

    Returns:
        Pressure [Pa], of the same shape; not-a-number outside the range.

    >>> round(pressure(1000.0))
    89875
    """
    return SEA_LEVEL_PRESSURE * (temperature(altitude) / SEA_LEVEL_TEMPERATURE) ** _EXPONENT


@equation("A3", "rho = p / (R T)", source=_STANDARD, valid=_LAYER, outside=_NAN)
def density(altitude: Floats) -> Floats:
    """Return the density of the standard atmosphere.

    Args:
        altitude: geopotential altitude [m], from -1,000 to 11,000, of any shape.

    Returns:
        Density [kg/m3], of the same shape; not-a-number outside the range.

    >>> round(density(0.0), 3)
    1.225
    """
    return pressure(altitude) / (GAS_CONSTANT * temperature(altitude))


DENSEST, THINNEST = density(LOWEST), density(HIGHEST)
"""Density at both ends of the layer, kg/m3."""


@equation(
    "A4",
    "h = (T0 / L) (1 - (rho / rho0)^(1 / (g / (R L) - 1)))",
    source=f"{_STANDARD}; A3 solved for the altitude",
    valid="densities of the layer, 1.3470 to 0.3639 kg/m3",
    outside=_NAN,
)
def altitude_of(air_density: Floats) -> Floats:
    """Return the altitude at which the standard atmosphere has a density.

    Args:
        air_density: density [kg/m3], of any shape.

    Returns:
        Geopotential altitude [m], of the same shape; not-a-number outside the layer.

    >>> round(altitude_of(1.225))
    0
    """
    values = np.asarray(air_density, float)
    inside = (values >= THINNEST) & (values <= DENSEST)
    ratio = (np.where(inside, values, 1.0) / density(0.0)) ** (1 / (_EXPONENT - 1))
    return within(SEA_LEVEL_TEMPERATURE / LAPSE * (1 - ratio), inside)


@equation(
    "A5",
    "ln pws = c1/T + c2 + c3 T + c4 T^2 + c5 T^3 + c6 ln T",
    source=f"{_HANDBOOK}, equation 6, after Hyland and Wexler 1983",
    valid="0 to 200 degrees Celsius, over water",
    outside=_NAN,
)
def saturation_pressure(celsius: Floats) -> Floats:
    """Return the pressure of saturated water vapour.

    Args:
        celsius: temperature [degrees Celsius], from 0 to 200, of any shape.

    Returns:
        Pressure [Pa], of the same shape; not-a-number outside the range.

    >>> round(saturation_pressure(20.0))
    2339
    """
    inside = (np.asarray(celsius) >= 0) & (np.asarray(celsius) <= 200)
    kelvin = np.where(inside, celsius, 0.0) + ZERO_CELSIUS
    first, *powers = _SATURATION
    series = sum(factor * kelvin**power for power, factor in enumerate(powers))
    logarithm = first / kelvin + series + _SATURATION_LOGARITHM * np.log(kelvin)
    return within(np.exp(logarithm), inside)


@equation(
    "A6",
    "rho = (p - pw) / (R T) + 0.621945 pw / (R T), pw = phi pws",
    source=f"{_HANDBOOK}, equations 1, 20 and 24: a mixture of ideal gases",
    valid="0 to 200 degrees Celsius, water vapour below the pressure",
    outside=_NAN,
)
def moist_density(air_pressure: Floats, celsius: Floats, humidity: Floats = 0.0) -> Floats:
    """Return the density of air of some temperature and humidity.

    Args:
        air_pressure: pressure [Pa].
        celsius: temperature [degrees Celsius], from 0 to 200.
        humidity: relative humidity, a share from 0 to 1.

    Returns:
        Density [kg/m3], of the shape the arguments broadcast to; not-a-number outside the range.

    Raises:
        ValueError: for a humidity that is no share.
    """
    if np.any((np.asarray(humidity) < 0) | (np.asarray(humidity) > 1)):
        raise ValueError("the relative humidity is a share from 0 to 1")
    vapour = humidity * saturation_pressure(celsius)
    weighed = air_pressure - vapour * (1 - WATER_TO_AIR)
    result = weighed / (GAS_CONSTANT * (np.asarray(celsius) + ZERO_CELSIUS))
    return within(result, np.asarray(vapour < air_pressure))

"""The standard atmosphere: pressure, temperature and density of air by altitude.

Source: ISO 2533:1975, the same layer as ICAO Doc 7488. Valid from -1,000 m to 11,000 m of
geopotential altitude; outside it a ``ValueError`` says so.
"""

from __future__ import annotations

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


def temperature(altitude: float) -> float:
    """Return the temperature of the standard atmosphere.

    Args:
        altitude: geopotential altitude [m], from -1,000 to 11,000.

    Returns:
        Temperature [K]: T = T0 - L h.
    """
    if not LOWEST <= altitude <= HIGHEST:
        raise ValueError(f"{altitude:g} m is outside the layer from {LOWEST:g} to {HIGHEST:g} m")
    return SEA_LEVEL_TEMPERATURE - LAPSE * altitude


def pressure(altitude: float) -> float:
    """Return the pressure of the standard atmosphere.

    Args:
        altitude: geopotential altitude [m], from -1,000 to 11,000.

    Returns:
        Pressure [Pa]: p = p0 (T / T0) ** (g / (R L)).

    >>> round(pressure(1000.0))
    89875
    """
    ratio = temperature(altitude) / SEA_LEVEL_TEMPERATURE
    return float(SEA_LEVEL_PRESSURE * ratio ** (GRAVITY / (GAS_CONSTANT * LAPSE)))


def density(altitude: float) -> float:
    """Return the density of the standard atmosphere.

    Args:
        altitude: geopotential altitude [m], from -1,000 to 11,000.

    Returns:
        Density [kg/m3]: rho = p / (R T).

    >>> round(density(0.0), 3)
    1.225
    """
    return pressure(altitude) / (GAS_CONSTANT * temperature(altitude))

"""Inlet limits: how they fall with altitude, and the classes of the trade."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from baywright.sizing.air.atmosphere import HIGHEST
from baywright.sizing.equation import Floats, equation, within


@equation(
    "A21",
    "T_max(h) = T_max - dT max(0, h - h0) / dh",
    source="linear, as the book states it; the classes of ASHRAE TC 9.9 fall the same way",
)
def derated(limit: Floats, above: float, fall: float, per: float, altitude: Floats) -> Floats:
    """Return the inlet limit at an altitude.

    Args:
        limit: limit at low altitude [degrees Celsius].
        above: altitude from which it falls [m].
        fall: fall of the limit [K].
        per: rise of altitude for that fall [m], more than zero.
        altitude: altitude of the site [m].

    Returns:
        Limit at the site [degrees Celsius].

    Raises:
        ValueError: when the altitude for the fall is nothing.

    >>> round(derated(30.0, 900.0, 1.0, 300.0, 2300.0), 2)
    25.33
    """
    if per <= 0:
        raise ValueError("the limit falls by some kelvin over some metres, more than none")
    lowered = limit - fall * np.maximum(0.0, np.subtract(altitude, above)) / per
    return within(lowered, ~np.isnan(lowered))


@equation(
    "A22",
    "h_max = h0 + (T_max - T_in) dh / dT",
    source="A21 solved for the altitude",
    valid="an inlet at or below the limit",
    outside="not-a-number; 11,000 m where the limit does not fall",
)
def highest_for_inlet(
    limit: Floats, above: float, fall: float, per: float, inlet: Floats
) -> Floats:
    """Return the altitude up to which an inlet temperature keeps its limit.

    Args:
        limit: limit at low altitude [degrees Celsius].
        above: altitude from which it falls [m].
        fall: fall of the limit [K].
        per: rise of altitude for that fall [m].
        inlet: temperature of the air taken in [degrees Celsius].

    Returns:
        Altitude [m], at most 11,000; not-a-number where the inlet is above the limit anywhere.

    >>> highest_for_inlet(30.0, 900.0, 1.0, 300.0, 27.0)
    1800.0
    """
    spare = np.subtract(limit, inlet)
    metres = HIGHEST - above if fall <= 0 else spare * per / fall
    return within(np.minimum(HIGHEST, above + metres), spare >= 0)


@dataclass(frozen=True, slots=True)
class EnvironmentalClass:
    """A class of equipment by the air that it may take in.

    Args:
        name: its name.
        low: lowest allowed inlet temperature [degrees Celsius].
        high: highest allowed inlet temperature at low altitude [degrees Celsius].
        dew_point: highest dew point [degrees Celsius].
        per: rise of altitude for a fall of 1 K [m].
    """

    name: str
    low: float
    high: float
    dew_point: float
    per: float

    def high_at(self, altitude: Floats) -> Floats:
        """Return the highest allowed inlet temperature at an altitude [degrees Celsius]."""
        return derated(self.high, CLASSES_FALL_ABOVE, 1.0, self.per, altitude)


CLASSES_FALL_ABOVE = 900.0
"""Altitude from which the limits of all classes fall, m: from memory, no source at hand."""

RECOMMENDED = (18.0, 27.0)
"""Recommended inlet temperatures of all classes, degrees Celsius."""

CLASSES = (
    EnvironmentalClass("A1", 15.0, 32.0, 17.0, 300.0),
    EnvironmentalClass("A2", 10.0, 35.0, 21.0, 300.0),
    EnvironmentalClass("A3", 5.0, 40.0, 24.0, 175.0),
    EnvironmentalClass("A4", 5.0, 45.0, 24.0, 125.0),
)
"""The classes of ASHRAE TC 9.9 of 2021. Temperatures and dew points were read in a stored copy and
in Regulation (EU) 2019/424, Table 6; the falls with altitude in a text that quotes them."""

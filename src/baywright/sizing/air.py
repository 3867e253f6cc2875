"""Heat that moving air carries away."""

from __future__ import annotations

import math
from fractions import Fraction

from baywright.sizing.atmosphere import GAS_CONSTANT, density

SPECIFIC_HEAT = 3.5 * GAS_CONSTANT
"""Specific heat of dry air at constant pressure, J/(kg K): 7/2 R of a diatomic gas."""

CFM = 0.3048**3 / 60
"""One cubic foot a minute, m3/s: exact, from the international foot."""

_STEPS = 10**9


def heat_carried(flow: float, rise: float, altitude: float = 0.0) -> float:
    """Return the heat that a flow of air carries away.

    Args:
        flow: volume flow at the inlet [m3/s].
        rise: rise of temperature from inlet to outlet [K].
        altitude: altitude of the site [m], from -1,000 to 11,000.

    Returns:
        Heat [W]: Q = rho V cp dT, with the density of the standard atmosphere.
    """
    return density(altitude) * flow * SPECIFIC_HEAT * rise


def heat_per_flow(altitude: float) -> Fraction:
    """Return the heat that each CFM carries for each kelvin of rise, rounded down.

    Args:
        altitude: altitude of the site [m], from -1,000 to 11,000.

    Returns:
        Heat [W/(CFM K)], an exact number just below the computed one: the safe side, since
        more heat than this is never promised.
    """
    return Fraction(math.floor(heat_carried(CFM, 1.0, altitude) * _STEPS), _STEPS)

"""Heat that moving air carries away: flow, rise, and how high it still suffices."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np

from baywright.sizing.air.atmosphere import (
    DENSEST,
    GAS_CONSTANT,
    HIGHEST,
    LOWEST,
    THINNEST,
    altitude_of,
    density,
)
from baywright.sizing.equation import Floats, equation, within

SPECIFIC_HEAT = 3.5 * GAS_CONSTANT
"""Specific heat of dry air at constant pressure, J/(kg K): 7/2 R of a diatomic gas."""

CFM = 0.3048**3 / 60
"""One cubic foot a minute, m3/s: exact, from the international foot."""

_BALANCE = "energy balance of a steady stream of air, specific heat 7/2 R of dry air"
_LAYER = "-1,000 to 11,000 m of the standard atmosphere"
_NAN = "not-a-number"

_STEPS = 10**9


@equation(
    "A7",
    "Q = P_peak + P_extra",
    source="all electric power ends as heat; supplies carry their own loss with fans of their own",
)
def heat_in_stream(peak: Floats, extra: Floats = 0.0) -> Floats:
    """Return the heat that the fans of the machine have to carry.

    Args:
        peak: peak draw of the build, DC [W].
        extra: draw on top of it, DC [W].

    Returns:
        Heat [W].
    """
    return peak + extra


@equation("A8", "Q = rho(h) V cp dT", source=_BALANCE, valid=_LAYER, outside=_NAN)
def heat_carried(flow: Floats, rise: Floats, altitude: Floats = 0.0) -> Floats:
    """Return the heat that a flow of air carries away.

    A fan moves the same volume in thin air as in dense air, so the heat falls with the density.

    Args:
        flow: volume flow at the inlet [m3/s].
        rise: rise of temperature from inlet to outlet [K].
        altitude: altitude of the site [m], from -1,000 to 11,000.

    Returns:
        Heat [W], with the density of the standard atmosphere; not-a-number outside the layer.
    """
    return heat_carried_by(density(altitude), flow, rise)


@equation("A9", "Q = rho V cp dT", source=_BALANCE)
def heat_carried_by(air_density: Floats, flow: Floats, rise: Floats) -> Floats:
    """Return the heat that a flow of air of known density carries away.

    Args:
        air_density: density at the inlet [kg/m3].
        flow: volume flow at the inlet [m3/s].
        rise: rise of temperature from inlet to outlet [K].

    Returns:
        Heat [W].
    """
    return air_density * flow * SPECIFIC_HEAT * rise


@equation("A10", "V = Q / (rho(h) cp dT)", source=_BALANCE, valid=_LAYER, outside=_NAN)
def flow_needed(heat: Floats, rise: Floats, altitude: Floats = 0.0) -> Floats:
    """Return the flow of air that carries some heat away.

    Args:
        heat: heat [W], zero or more.
        rise: allowed rise from inlet to outlet [K], more than zero.
        altitude: altitude of the site [m], from -1,000 to 11,000.

    Returns:
        Volume flow at the inlet [m3/s]; not-a-number outside the layer and without any rise.

    Raises:
        ValueError: for negative heat.
    """
    if np.any(np.asarray(heat) < 0):
        raise ValueError("heat to carry away is not negative")
    return _over(heat, heat_carried(1.0, rise, altitude))


@equation("A11", "dT = Q / (rho(h) V cp)", source=_BALANCE, valid=_LAYER, outside=_NAN)
def rise_of(heat: Floats, flow: Floats, altitude: Floats = 0.0) -> Floats:
    """Return by how much air warms from inlet to outlet.

    Args:
        heat: heat [W].
        flow: volume flow at the inlet [m3/s], more than zero.
        altitude: altitude of the site [m], from -1,000 to 11,000.

    Returns:
        Rise [K]; not-a-number outside the layer and without any flow.
    """
    return _over(heat, heat_carried(flow, 1.0, altitude))


@equation("A12", "T_out = T_in + dT", source=_BALANCE)
def outlet_temperature(inlet: Floats, rise: Floats) -> Floats:
    """Return the temperature of the air blown out.

    Args:
        inlet: temperature of the air taken in [degrees Celsius].
        rise: rise from inlet to outlet [K].

    Returns:
        Temperature [degrees Celsius].
    """
    return inlet + rise


@equation(
    "A13",
    "h where rho(h) = Q / (V cp dT)",
    source=_BALANCE,
    valid=_LAYER,
    outside="11,000 m where it suffices higher still, not-a-number where it never does",
)
def highest_altitude(heat: Floats, flow: Floats, rise: Floats) -> Floats:
    """Return the altitude up to which a flow of air carries some heat away.

    Args:
        heat: heat [W].
        flow: volume flow at the inlet [m3/s].
        rise: allowed rise from inlet to outlet [K].

    Returns:
        Altitude [m]; 11,000 where it suffices higher still, not-a-number where it does not
        suffice at -1,000 m.
    """
    needed = np.asarray(_over(heat, heat_carried_by(1.0, flow, rise)))
    height = np.where(needed < THINNEST, HIGHEST, altitude_of(needed))
    return within(height, needed <= DENSEST)


def heat_per_flow(altitude: float) -> Fraction:
    """Return the heat that each CFM carries for each kelvin of rise, rounded down.

    Args:
        altitude: altitude of the site [m], from -1,000 to 11,000.

    Returns:
        Heat [W/(CFM K)], an exact number just below the computed one: the safe side, since
        more heat than this is never promised.

    Raises:
        ValueError: for an altitude outside the layer.
    """
    if not LOWEST <= altitude <= HIGHEST:
        raise ValueError(f"{altitude:g} m is outside the layer from {LOWEST:g} to {HIGHEST:g} m")
    return Fraction(math.floor(float(heat_carried(CFM, 1.0, altitude)) * _STEPS), _STEPS)


def _over(amount: Floats, each: Floats) -> Floats:
    """Divide, with not-a-number where there is nothing to divide by."""
    divisor = np.asarray(each, float)
    usable = divisor > 0
    return within(amount / np.where(usable, divisor, 1.0), usable)

"""Fans at another speed: flow, pressure and power follow the fan laws."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within

_LAWS = "fan laws for one fan and one air path; printed in every fan catalogue"
_STANDSTILL = "from standstill to full speed"
_NAN = "not-a-number"


@equation(
    "A14",
    "n / n_full = V / V_full",
    source=_LAWS,
    valid="a flow of more than nothing",
    outside="not-a-number",
)
def speed_for(flow: Floats, full_flow: Floats) -> Floats:
    """Return the share of full speed at which fans move some air.

    Args:
        flow: volume flow wanted [m3/s, or any unit].
        full_flow: volume flow at full speed [same unit].

    Returns:
        Share of full speed; more than 1 where full speed is not enough, and not-a-number where
        the fans move nothing.
    """
    moving = np.asarray(full_flow) > 0
    return within(flow / np.where(moving, full_flow, 1.0), moving)


@equation("A15", "V = V_full (n / n_full)", source=_LAWS, valid=_STANDSTILL, outside=_NAN)
def flow_at(full_flow: Floats, speed: Floats) -> Floats:
    """Return the flow of a fan at a share of full speed.

    Args:
        full_flow: volume flow at full speed [m3/s, or any unit].
        speed: share of full speed, 0 to 1.

    Returns:
        Volume flow [same unit]; not-a-number for a speed that the fan does not have.
    """
    return within(full_flow * speed, _reached(speed))


@equation(
    "A16",
    "p = p_full (rho / rho_full) (n / n_full)^2",
    source=_LAWS,
    valid=_STANDSTILL,
    outside=_NAN,
)
def pressure_at(full_pressure: Floats, speed: Floats, density_ratio: Floats = 1.0) -> Floats:
    """Return the pressure of a fan at a share of full speed.

    Args:
        full_pressure: pressure at full speed [Pa, or any unit].
        speed: share of full speed, 0 to 1.
        density_ratio: density of the air over that of the full-speed figure.

    Returns:
        Pressure [same unit]; not-a-number for a speed that the fan does not have.
    """
    return within(full_pressure * density_ratio * np.square(speed), _reached(speed))


@equation(
    "A17",
    "P = P_full (rho / rho_full) (n / n_full)^3",
    source=_LAWS,
    valid=_STANDSTILL,
    outside=_NAN,
    estimate=True,
)
def power_at(full_power: Floats, speed: Floats, density_ratio: Floats = 1.0) -> Floats:
    """Return the power of a fan at a share of full speed.

    An estimate: bearings and the motor lose power that does not fall with the cube.

    Args:
        full_power: power at full speed [W, or any unit].
        speed: share of full speed, 0 to 1.
        density_ratio: density of the air over that of the full-speed figure.

    Returns:
        Power [same unit]; not-a-number for a speed that the fan does not have.
    """
    return within(full_power * density_ratio * np.power(speed, 3), _reached(speed))


def _reached(speed: Floats) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    share = np.asarray(speed, float)
    if np.any(share < 0):
        raise ValueError("a share of full speed is not negative")
    # A share a rounding error past full speed is full speed.
    return np.asarray(share <= 1 + 1e-12)

"""The room: the heat and the sound of several machines, and the air that carries the heat away."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within


@equation("R19", "P = n P_1 + P_other", source="conservation of energy: all input becomes heat")
def room_heat(machines: Floats, each: Floats, other: Floats = 0.0) -> Floats:
    """Return the heat that machines give to their room.

    Args:
        machines: how many, 0 or more.
        each: input power of one [W].
        other: heat of all else in the room [W].

    Returns:
        Heat [W].

    Raises:
        ValueError: for a negative number of machines.
    """
    if np.any(np.less(machines, 0)):
        raise ValueError("there are no fewer than 0 machines")
    heat = np.multiply(machines, each) + other
    return float(heat) if np.ndim(heat) == 0 else heat


@equation(
    "R20",
    "n = 3600 Q / V",
    source="definition of air changes an hour",
    valid="V > 0",
    outside="not a number",
)
def air_changes(flow: Floats, volume: Floats) -> Floats:
    """Return how often an hour a flow of air changes the air of a room.

    Args:
        flow: volume flow [m3/s].
        volume: volume of the room [m3].

    Returns:
        Air changes [1/h].
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        return within(np.divide(np.multiply(flow, 3600.0), volume), np.greater(volume, 0))

"""Energy that supplies hold for the time without input, and for a surge of the load."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within


@equation(
    "P26",
    "E = k P_rated t_hold",
    source="energy of constant power over a time; the hold-up time is that at full rating",
    estimate=True,
)
def stored_energy(rating: Floats, supplies: Floats, hold_up: Floats) -> Floats:
    """Return the energy that supplies give after their input is gone.

    Args:
        rating: rating of each [W].
        supplies: number that share the load.
        hold_up: time each carries its rating without input [s].

    Returns:
        Energy [J].
    """
    return np.multiply(np.multiply(rating, supplies), hold_up)


@equation(
    "P27",
    "t = E / P_dc",
    source="the same energy at another constant power",
    valid="loads above 0",
    outside="not decided",
    estimate=True,
)
def bridged(energy: Floats, load: Floats) -> Floats:
    """Return how long stored energy carries a load.

    Args:
        energy: energy stored [J].
        load: DC draw [W].

    Returns:
        Time [s].
    """
    draws = np.greater(load, 0)
    return within(np.divide(energy, np.where(draws, load, 1.0)), draws)


@equation(
    "P28",
    "E = max(0, P_surge - P_carried) t",
    source="what the supplies do not carry comes from their stored energy",
    outside="a supply that limits its current earlier is not modelled",
    estimate=True,
)
def surge_energy(surge: Floats, carried: Floats, time: Floats) -> Floats:
    """Return the energy that a surge takes beyond what supplies carry.

    Args:
        surge: DC draw during the surge [W].
        carried: what the supplies carry [W].
        time: how long it lasts [s].

    Returns:
        Energy [J], 0 where the supplies carry the surge.
    """
    return np.multiply(np.maximum(0.0, np.subtract(surge, carried)), time)

"""Three phases: apparent power, line currents and neutral of loads that may differ."""

from __future__ import annotations

import math

import numpy as np

from baywright.sizing.equation import ASSUMED, Floats, equation

SINUSOIDAL = "sinusoidal currents of one power factor; harmonics add in the neutral"


@equation(
    "P16",
    "S = sqrt(3) U I",
    source="definition, balanced three-phase load; U between two lines",
    valid="the same current in each line",
    outside=ASSUMED,
)
def three_phase_power(volts: Floats, amps: Floats) -> Floats:
    """Return the apparent power of a balanced three-phase load.

    Args:
        volts: voltage between two lines [V].
        amps: current in each line [A].

    Returns:
        Apparent power [VA].

    >>> round(three_phase_power(400.0, 32.0))
    22170
    """
    return np.multiply(np.multiply(volts, amps), math.sqrt(3))


@equation(
    "P17",
    "I_N = sqrt(a^2 + b^2 + c^2 - a b - b c - c a)",
    source="sum of three phasors 120 degrees apart",
    valid=SINUSOIDAL,
    outside="the real neutral current is higher",
)
def neutral_current(first: Floats, second: Floats, third: Floats) -> Floats:
    """Return the current in the neutral of loads between each line and neutral.

    Args:
        first: current in line 1 [A].
        second: current in line 2 [A].
        third: current in line 3 [A].

    Returns:
        Current [A].

    >>> round(float(neutral_current(10.0, 15.0, 20.0)), 2)
    8.66
    """
    a, b, c = np.asarray(first), np.asarray(second), np.asarray(third)
    # The sum of squares of differences is the same and never below 0 by rounding.
    squares = (a - b) ** 2 + (b - c) ** 2 + (c - a) ** 2
    return np.asarray(np.sqrt(squares / 2))


@equation(
    "P18",
    "I_line = sqrt(p^2 + q^2 + p q)",
    source="difference of two phasors 120 degrees apart",
    valid=SINUSOIDAL,
    outside=ASSUMED,
)
def line_current(one: Floats, other: Floats) -> Floats:
    """Return the current in a line from the two loads between it and the other lines.

    Args:
        one: current of one load [A].
        other: current of the other [A].

    Returns:
        Current in the line [A]; sqrt(3) times that of one load where both are the same.

    >>> round(float(line_current(10.0, 10.0)), 2)
    17.32
    """
    p, q = np.asarray(one), np.asarray(other)
    return np.asarray(np.sqrt(p**2 + q**2 + p * q))


@equation("P19", "n_k = floor((n + 2 - k) / 3), k = 0, 1, 2", source="dealt out in turn")
def dealt(hosts: Floats) -> tuple[Floats, Floats, Floats]:
    """Return how many hosts are on each phase when they are dealt out in turn.

    Args:
        hosts: number of hosts, 0 or more.

    Returns:
        Number on each of the three phases; they differ by at most one.

    Raises:
        ValueError: for fewer than no hosts.

    >>> [int(each) for each in dealt(8)]
    [3, 3, 2]
    """
    if np.any(np.less(hosts, 0)):
        raise ValueError("there cannot be fewer than no hosts")
    whole = np.asarray(hosts)
    return (np.floor((whole + 2) / 3), np.floor((whole + 1) / 3), np.floor(whole / 3))

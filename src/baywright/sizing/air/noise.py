"""Noise: levels of several sources, at another distance, and at another fan speed."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within

FREE_FIELD = "free field: no walls send sound back, and the machine is small beside the distance"
"""What levels at another distance hold for."""


@equation(
    "N1",
    "L = 10 log10(sum 10^(L_i / 10))",
    source="ISO 80000-8, level of mean square pressure; sources that know nothing of each other",
)
def summed(*levels: Floats) -> Floats:
    """Return the level of several sources together.

    Args:
        levels: level of each at the listener [dB].

    Returns:
        Level [dB].

    Raises:
        ValueError: without any source.

    >>> round(summed(62.0, 73.0), 1)
    73.3
    """
    if not levels:
        raise ValueError("without a source there is no level")
    power = sum(np.power(10.0, np.asarray(level, float) / 10) for level in levels)
    with np.errstate(divide="ignore"):  # silence has no level: minus infinity
        level = 10 * np.log10(power)
    return within(level, ~np.isnan(level))


@equation(
    "N2",
    "L = L_1 + 10 log10 n",
    source="N1 for equal sources",
    valid="1 source or more",
    outside="not-a-number",
)
def of_equal_sources(level: Floats, count: Floats) -> Floats:
    """Return the level of several equal sources together.

    Args:
        level: level of one [dB].
        count: how many, 1 or more.

    Returns:
        Level [dB]; not-a-number without a source.

    >>> round(of_equal_sources(60.0, 3), 1)
    64.8
    """
    some = np.asarray(count) >= 1
    return within(level + 10 * np.log10(np.where(some, count, 1.0)), some)


@equation(
    "N3",
    "L(r) = L(r0) - 20 log10(r / r0)",
    source="spherical spreading from a point source; ISO 9613-2, geometrical divergence",
    valid=FREE_FIELD,
    outside="not-a-number without a distance; in a room it is louder than this",
    estimate=True,
)
def at_distance(level: Floats, stated_at: Floats, distance: Floats) -> Floats:
    """Return the level at another distance, in a free field.

    Args:
        level: level at the distance for which it is stated [dB].
        stated_at: that distance [m, or any unit], more than zero.
        distance: distance wanted [same unit], more than zero.

    Returns:
        Level [dB]; not-a-number where a distance is not more than zero.

    >>> round(at_distance(80.0, 10.0, 15.0), 1)
    76.5
    """
    real = (np.asarray(stated_at) > 0) & (np.asarray(distance) > 0)
    ratio = np.where(real, distance, 1.0) / np.where(real, stated_at, 1.0)
    return within(level - 20 * np.log10(ratio), real)


@equation(
    "N4",
    "L(n) = L_full + 50 log10(n / n_full), at least L_idle",
    source="fan laws for sound, common practice: 50 dB for each factor of ten of speed",
    valid="more than standstill, up to full speed",
    outside="not-a-number",
    estimate=True,
)
def at_speed(full: Floats, speed: Floats, idle: Floats = -np.inf) -> Floats:
    """Return the level of fans at a share of full speed.

    Args:
        full: level at full speed [dB].
        speed: share of full speed, more than 0 up to 1.
        idle: level that it never falls below [dB]; none unless given.

    Returns:
        Level [dB]; not-a-number for a speed that the fans do not have.

    >>> round(at_speed(63.0, 0.5), 1)
    47.9
    """
    share = np.asarray(speed, float)
    reached = (share > 0) & (share <= 1 + 1e-12)
    level = full + 50 * np.log10(np.where(reached, share, 1.0))
    return within(np.maximum(level, idle), reached)

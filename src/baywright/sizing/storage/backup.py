"""Backup: how long one takes, and how many cartridges keep some of them."""

from __future__ import annotations

import math

import numpy as np

from baywright.sizing.equation import ASSUMED, Floats, equation


@equation(
    "S22",
    "t = size / min(unit, port)",
    source="common practice, no source",
    valid="the slower of unit and port sets the pace; reading the data is not the slower",
    outside=ASSUMED,
    estimate=True,
)
def copying_time(size: Floats, unit: Floats, port: Floats = math.inf) -> Floats:
    """Return how long a backup or its restore takes.

    Args:
        size: data to copy [B].
        unit: sustained rate of the unit [B/s].
        port: rate of its port [B/s].

    Returns:
        Time [s].

    >>> round(float(copying_time(600e9, 160e6, 38e6)) / 3600, 2)
    4.39
    """
    return np.divide(size, np.minimum(unit, port))


@equation(
    "S23",
    "cartridges = ceil(k / floor(c / s)), or k ceil(s / c) where one backup needs several",
    source="a backup starts a new cartridge where it does not fit; counting, exact",
    valid="sizes above zero",
    outside="refused",
)
def cartridges(backups: int, size: float, capacity: float) -> int:
    """Return how many cartridges keep some full backups.

    Args:
        backups: backups k kept, zero or more.
        size: size s of one backup [B].
        capacity: capacity c of one cartridge [B].

    Raises:
        ValueError: for a size or capacity of zero or less, or a negative number of backups.

    >>> cartridges(7, 600e9, 2e12)
    3
    """
    if backups < 0 or size <= 0 or capacity <= 0:
        raise ValueError("Backups cannot be fewer than none, and sizes have to be above zero.")
    if size > capacity:
        return backups * math.ceil(size / capacity)
    return math.ceil(backups / math.floor(capacity / size))

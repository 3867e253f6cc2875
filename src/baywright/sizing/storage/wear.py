"""Wear: how long flash lasts, and how long energy packs hold up and live."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import ASSUMED, Floats, equation, plain, within

DAYS_A_YEAR = 365.25


@equation(
    "S17",
    "years = endurance / (written a day x amplification x 365.25)",
    source="JEDEC JESD218: endurance as data the host may write",
    valid="writes spread evenly over the drives; none, and it lasts without end",
    outside=ASSUMED,
    estimate=True,
)
def years_of_writing(endurance: Floats, written: Floats, amplification: Floats = 1.0) -> Floats:
    """Return how long flash takes writes.

    Args:
        endurance: data that may be written over the life of all drives together [B].
        written: data written each day to all of them together [B].
        amplification: data that reaches the drives for each datum written.

    Returns:
        Time [years].

    >>> round(float(years_of_writing(1432e12, 774e9)), 2)
    5.07
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.divide(endurance, np.multiply(written, amplification) * DAYS_A_YEAR)


@equation(
    "S18",
    "full writes a day = endurance / (365 x years x capacity)",
    source="JEDEC JESD218 and JESD219 as drives are specified with, years of 365 days",
    valid="capacity and years above zero",
    outside="not-a-number",
)
def full_writes_a_day(endurance: Floats, capacity: Floats, years: Floats) -> Floats:
    """Return how often a drive may be written full each day.

    Args:
        endurance: data that may be written over its life [B].
        capacity: its capacity [B].
        years: years it has to last.

    Returns:
        Times a day.
    """
    written = np.multiply(years, 365.0) * capacity
    return within(np.divide(endurance, np.where(written > 0, written, 1.0)), written > 0)


@equation(
    "S19",
    "E = C (U1^2 - U2^2) / 2 x usable share",
    source="energy of a capacitor",
    valid="U1 at least U2",
    outside="not decided",
)
def pack_energy(capacitance: Floats, full: Floats, empty: Floats, usable: Floats = 1.0) -> Floats:
    """Return the energy that a capacitor pack gives between two voltages.

    Args:
        capacitance: capacitance C [F].
        full: voltage U1 when charged [V].
        empty: lowest voltage U2 that can be used [V].
        usable: share of the energy that reaches the load.

    Returns:
        Energy [J].

    >>> round(pack_energy(18, 9.0, 5.0, 0.85), 1)
    428.4
    """
    span = np.subtract(np.square(full), np.square(empty))
    return within(np.multiply(capacitance, span) / 2 * usable, span >= 0)


@equation(
    "S20",
    "E = size / rate x power",
    source="power is constant while the cache is saved",
    valid="rate above zero",
    outside="not-a-number",
)
def flush_energy(size: Floats, rate: Floats, power: Floats) -> Floats:
    """Return the energy that saving a write cache takes.

    Args:
        size: data to save [B].
        rate: rate of saving [B/s].
        power: draw while saving [W].

    Returns:
        Energy [J].

    >>> float(flush_energy(8e9, 0.25e9, 11))
    352.0
    """
    saves = np.greater(rate, 0)
    return within(np.divide(size, np.where(saves, rate, 1.0)) * power, saves)


@equation(
    "S21",
    "life = life_0 x 2^((T_0 - max(T, T_floor)) / step)",
    source="rule of the ten kelvin (from the law of Arrhenius), common practice, no source; "
    "numbers from the book",
    valid="temperatures about those of use",
    outside=ASSUMED,
    estimate=True,
)
def pack_life(
    life: Floats, stated_at: Floats, temperature: Floats, step: Floats, floor: Floats
) -> Floats:
    """Return the life of an energy pack at a temperature.

    Args:
        life: life at the stated temperature [years].
        stated_at: that temperature [degrees Celsius].
        temperature: temperature of the pack [degrees Celsius].
        step: rise that halves the life [K].
        floor: temperature below which life grows no more [degrees Celsius].

    Returns:
        Time [years].

    >>> pack_life(5, 45, 35, 10, 25)
    10.0
    """
    used = np.maximum(temperature, floor)
    return plain(np.multiply(life, np.exp2(np.divide(np.subtract(stated_at, used), step))))

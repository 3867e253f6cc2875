"""Batteries in front of a machine: how long they carry it, and how large they have to be.

Two forms of Peukert's law are in use, and they give different answers for the same label. In the
capacity form the stated capacity is the one at a current of 1 A; in the rated form it is the one
at the discharge time the maker rates it for. Sizing uses the rated form, in energy.
"""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within


@equation(
    "U1",
    "t = C / I^k",
    source="Peukert's law in its capacity form: C is the capacity at 1 A",
    valid="C > 0 in Ah, I > 0 in A, k >= 1; one temperature, constant current",
    outside="not-a-number",
    estimate=True,
)
def discharge_time_of_capacity(capacity: Floats, current: Floats, exponent: Floats) -> Floats:
    """Return how long a battery lasts, from its capacity at 1 A.

    Args:
        capacity: Peukert capacity, the charge it gives at 1 A [Ah].
        current: current drawn [A].
        exponent: Peukert exponent [1].

    Returns:
        Time [h].

    >>> round(discharge_time_of_capacity(100.0, 5.0, 1.2), 1)
    14.5
    """
    valid = _positive(capacity, current) & (np.asarray(exponent) >= 1)
    with np.errstate(divide="ignore", invalid="ignore"):
        time = np.divide(capacity, np.power(np.asarray(current, float), exponent))
    return within(time, valid)


@equation(
    "U2",
    "t = H (C / (I H))^k",
    source="Peukert's law in its rated form: C is the capacity at the discharge time H",
    valid="C > 0 in Ah, I > 0 in A, H > 0 in h, k >= 1; one temperature, constant current",
    outside="not-a-number",
    estimate=True,
)
def discharge_time_of_rating(
    capacity: Floats, current: Floats, exponent: Floats, rated_time: Floats
) -> Floats:
    """Return how long a battery lasts, from its rated capacity.

    Args:
        capacity: charge it gives over its rated discharge time [Ah].
        current: current drawn [A].
        exponent: Peukert exponent [1].
        rated_time: discharge time of the rating [h].

    Returns:
        Time [h].

    >>> discharge_time_of_rating(100.0, 5.0, 1.2, 20.0)
    20.0
    """
    return _rated(capacity, current, exponent, rated_time)


@equation(
    "U3",
    "E_load = E_new a f",
    source="definition; a is the share an aged battery holds, f the share that reaches the load",
    valid="0 <= a <= 1, 0 <= f <= 1",
    outside="not-a-number",
)
def usable_energy(energy: Floats, aged: Floats, to_load: Floats) -> Floats:
    """Return the energy of an aged battery that reaches the machine.

    Args:
        energy: energy when new [Wh].
        aged: share that it still holds [1].
        to_load: share of that which reaches the machine [1].

    Returns:
        Energy [Wh].

    >>> round(usable_energy(100.0, 0.8, 0.9), 6)
    72.0
    """
    return within(np.multiply(np.multiply(energy, aged), to_load), _shares(aged, to_load))


@equation(
    "U4",
    "t = E_load / P",
    source="definition of power; energy that does not depend on the rate",
    valid="P > 0",
    outside="not-a-number",
    estimate=True,
)
def ride_through(energy: Floats, power: Floats) -> Floats:
    """Return how long energy carries a constant power.

    Args:
        energy: energy that reaches the machine [Wh].
        power: what the machine takes in [W].

    Returns:
        Time [h].
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        return within(np.divide(energy, power), np.asarray(power) > 0)


@equation(
    "U5",
    "t = H (E_load / (P H))^k",
    source="Peukert's law in its rated form, with energy in place of charge",
    valid="P > 0, H > 0, k >= 1; the voltage of the battery taken as constant",
    outside="not-a-number",
    estimate=True,
)
def ride_through_of_rating(
    energy: Floats, power: Floats, exponent: Floats, rated_time: Floats
) -> Floats:
    """Return how long a battery carries a constant power, from its rated energy.

    Args:
        energy: energy that reaches the machine over the rated discharge time [Wh].
        power: what the machine takes in [W].
        exponent: Peukert exponent [1].
        rated_time: discharge time of the rating [h].

    Returns:
        Time [h].
    """
    return _rated(energy, power, exponent, rated_time)


@equation(
    "U6",
    "E_new = P t / (a f)",
    source="U3 and U4 solved for the energy",
    valid="0 < a <= 1, 0 < f <= 1",
    outside="not-a-number",
    estimate=True,
)
def energy_needed(power: Floats, time: Floats, aged: Floats, to_load: Floats) -> Floats:
    """Return the energy a new battery needs for a ride-through once it has aged.

    Args:
        power: what the machine takes in [W].
        time: how long it has to be carried [h].
        aged: share that an aged battery still holds [1].
        to_load: share of that which reaches the machine [1].

    Returns:
        Energy [Wh].

    >>> round(energy_needed(72.0, 1.0, 0.8, 0.9), 6)
    100.0
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        energy = np.divide(np.multiply(power, time), np.multiply(aged, to_load))
    return within(energy, _shares(aged, to_load) & (np.multiply(aged, to_load) > 0))


@equation(
    "U7",
    "E_new = P H (t / H)^(1/k) / (a f)",
    source="U3 and U5 solved for the energy",
    valid="0 < a <= 1, 0 < f <= 1, H > 0, k >= 1",
    outside="not-a-number",
    estimate=True,
)
def energy_needed_of_rating(
    power: Floats,
    time: Floats,
    aged: Floats,
    to_load: Floats,
    exponent: Floats,
    rated_time: Floats,
) -> Floats:
    """Return the rated energy a new battery needs for a ride-through once it has aged.

    Args:
        power: what the machine takes in [W].
        time: how long it has to be carried [h].
        aged: share that an aged battery still holds [1].
        to_load: share of that which reaches the machine [1].
        exponent: Peukert exponent [1].
        rated_time: discharge time at which the energy is rated [h].

    Returns:
        Energy at the rated discharge time [Wh].
    """
    valid = _positive(rated_time) & (np.asarray(exponent) >= 1)
    share = np.divide(time, np.where(valid, rated_time, 1.0))
    equivalent = rated_time * np.power(share, 1 / np.maximum(exponent, 1.0))
    return within(np.asarray(energy_needed(power, equivalent, aged, to_load)), valid)


def _rated(amount: Floats, rate: Floats, exponent: Floats, rated_time: Floats) -> Floats:
    valid = _positive(amount, rate, rated_time) & (np.asarray(exponent) >= 1)
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.divide(amount, np.multiply(rate, rated_time))
        return within(rated_time * np.power(np.where(valid, ratio, 1.0), exponent), valid)


def _positive(*values: Floats) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    every = np.ones((), bool)
    for each in values:
        every = every & (np.asarray(each) > 0)
    return np.asarray(every)


def _shares(*values: Floats) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    every = np.ones((), bool)
    for each in values:
        every = every & (np.asarray(each) >= 0) & (np.asarray(each) <= 1)
    return np.asarray(every)

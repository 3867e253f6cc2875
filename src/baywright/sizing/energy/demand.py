"""Energy over a year, what it costs, and when a better supply has paid for itself."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within

DAYS_A_YEAR = 365.0


@equation(
    "U8",
    "P = P_idle + s (P_peak - P_idle)",
    source="linear between idle and peak; common practice, no source",
    valid="0 <= s <= 1",
    outside="not-a-number",
    estimate=True,
)
def part_load(idle: Floats, peak: Floats, share: Floats) -> Floats:
    """Return the draw at a share of the way from idle to peak.

    Args:
        idle: draw at idle [W].
        peak: draw at peak [W].
        share: how far from idle to peak [1].

    Returns:
        Draw [W].

    >>> part_load(100.0, 300.0, 0.25)
    150.0
    """
    inside = (np.asarray(share) >= 0) & (np.asarray(share) <= 1)
    return within(idle + np.multiply(share, np.subtract(peak, idle)), inside)


@equation(
    "U9",
    "E = 365 sum over the day of P_i t_i",
    source="definition; a year of 365 days, each like the day given",
    valid="hours that make up a whole day",
    outside="not-a-number",
    estimate=True,
)
def yearly_energy(powers: Floats, hours: Floats) -> Floats:
    """Return the energy of a year of equal days.

    Args:
        powers: power in each stretch of the day [W]; the stretches along the first axis.
        hours: length of each stretch [h]; they have to add up to 24.

    Returns:
        Energy [kWh].

    >>> yearly_energy(np.array([100.0, 200.0]), np.array([12.0, 12.0]))
    1314.0
    """
    lengths = np.asarray(hours, float)
    whole = bool(np.isclose(lengths.sum(), 24.0)) and bool((lengths >= 0).all())
    daily = np.tensordot(lengths, np.asarray(powers, float), axes=1)
    return within(DAYS_A_YEAR * daily / 1000, whole)


@equation("U10", "cost = E price", source="definition; one price at all hours", estimate=True)
def energy_cost(energy: Floats, price: Floats) -> Floats:
    """Return what energy costs.

    Args:
        energy: energy [kWh].
        price: price of one kWh [money].

    Returns:
        Cost [money].
    """
    return np.multiply(energy, price)


@equation(
    "U11",
    "t = extra price / yearly saving",
    source="simple payback, no interest; common practice, no source",
    valid="saving > 0",
    outside="infinite: it never pays; 0 where it costs no more and saves",
    estimate=True,
)
def payback(extra: Floats, saving: Floats) -> Floats:
    """Return when something dearer has paid for itself.

    Args:
        extra: what it costs more [money].
        saving: what it saves in a year [money].

    Returns:
        Time [years]: 0 where it saves and costs no more, infinite where it never pays.

    >>> payback(100.0, 25.0)
    4.0
    """
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        time = np.maximum(np.divide(extra, saving), 0.0)
    never = np.asarray(saving) <= 0
    known = np.isfinite(extra) & np.isfinite(saving)
    return within(np.where(never, np.inf, time), known)

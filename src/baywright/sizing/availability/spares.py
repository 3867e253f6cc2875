"""Spare parts: the demand while a replacement is on its way, and the stock that covers it."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within

MOST_STOCK = 100_000
"""A stock that would have to be larger is not decided."""

LARGEST_DEMAND = 600.0
"""Past this demand the first term of the sum is too small for a number of 64 bits."""


@equation(
    "V10",
    "m = n p L / year",
    source="mean of a Poisson process; textbook",
    valid="0 <= p <= 1; failures independent, failed parts replaced, a year of 365 days",
    outside="not-a-number",
)
def lead_time_demand(count: Floats, yearly: Floats, lead: Floats) -> Floats:
    """Return the failures to expect while a spare is being replaced.

    Args:
        count: parts in service [1].
        yearly: failures of one part in a year [1].
        lead: time until a spare is replaced [years].

    Returns:
        Mean demand [1].

    >>> round(lead_time_demand(280, 0.012, 14 / 365), 4)
    0.1289
    """
    count, yearly = np.asarray(count, float), np.asarray(yearly, float)
    valid = (count >= 0) & (yearly >= 0) & (yearly <= 1) & (np.asarray(lead) >= 0)
    return within(count * yearly * lead, valid)


@equation(
    "V11",
    "P(N <= s) = exp(-m) sum over i <= s of m^i / i!",
    source="Poisson distribution; textbook",
    valid=f"0 <= m <= {LARGEST_DEMAND:g}",
    outside="not-a-number",
)
def cover(stock: Floats, demand: Floats) -> Floats:
    """Return the odds that a stock covers the demand while it is being replaced.

    Args:
        stock: spares [1], whole; below zero nothing is covered.
        demand: mean demand [1].

    Returns:
        Odds [1] that no more than ``stock`` fail.

    >>> round(cover(4, 1.0), 4)
    0.9963
    """
    stock, demand = np.broadcast_arrays(np.asarray(stock, float), np.asarray(demand, float))
    term = np.exp(-demand)
    total = np.where(stock >= 0, term, 0.0)
    most = int(np.max(np.where(np.isfinite(stock), stock, 0), initial=0))
    for i in range(1, most + 1):
        term = term * demand / i
        total = total + np.where(i <= stock, term, 0.0)
    return within(total, (demand >= 0) & (demand <= LARGEST_DEMAND) & np.isfinite(stock))


@equation(
    "V12",
    "s = least whole number with P(N <= s) >= level",
    source="Poisson stock for a service level; textbook",
    valid=f"0 <= m <= {LARGEST_DEMAND:g}, 0 < level < 1",
    outside="not-a-number",
)
def stock_for(demand: Floats, level: Floats) -> Floats:
    """Return the spares that cover the demand with some odds.

    Args:
        demand: mean demand while a spare is being replaced [1]; no demand needs no spare.
        level: odds wanted [1].

    Returns:
        Spares [1], whole.

    >>> stock_for(0.1289, 0.99)
    1.0
    """
    demand, level = np.broadcast_arrays(np.asarray(demand, float), np.asarray(level, float))
    valid = (demand >= 0) & (demand <= LARGEST_DEMAND) & (level > 0) & (level < 1)
    term = np.exp(-np.where(valid, demand, 0.0))
    total, stock = term.copy(), np.zeros(demand.shape)
    short = valid & (total < level)
    while short.any() and stock.max() < MOST_STOCK:
        stock = np.where(short, stock + 1, stock)
        term = np.where(short, term * demand / np.maximum(stock, 1), term)
        total = np.where(short, total + term, total)
        # A sum that has stopped growing is as near to one as these numbers come.
        short = short & (total < level) & (term > 0)
    return within(stock, valid & ~short)


@equation(
    "V14",
    "visits = n (year / T) (1 - exp(-m T / year))",
    source="odds of one or more events of a Poisson process in each interval; textbook",
    valid="failures independent, every failure waits for the next visit, T above 0",
    outside="not-a-number",
)
def visits_with_work(sites: Floats, yearly: Floats, every: Floats) -> Floats:
    """Return the visits in a year that find something to replace.

    Args:
        sites: sites [1], each visited at the same interval.
        yearly: failures at one site in a year [1].
        every: interval between visits [years].

    Returns:
        Visits with work in a year [1]; never more than the failures.

    >>> round(visits_with_work(140, 0.121, 7 / 365), 3)
    16.92
    """
    interval = np.asarray(every, float)
    positive = interval > 0
    spread = np.where(positive, interval, 1.0)
    found = sites / spread * -np.expm1(-np.asarray(yearly, float) * spread)
    return within(found, positive & (np.asarray(yearly, float) >= 0))

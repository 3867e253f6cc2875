"""Failures and repairs of single parts and of parts with spares beside them."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import ASSUMED, Floats, equation, within

HOURS_A_YEAR = 8_760.0
"""A year of 365 days, h."""


@equation(
    "V1",
    "lambda = p / year",
    source="definition of the yearly failure rate, failures per part and year",
    valid="0 <= p <= 1; a failed part is replaced, so p counts failures and not survivors",
    outside="not-a-number",
)
def failure_rate(yearly: Floats) -> Floats:
    """Return the rate of failure of one part.

    Args:
        yearly: failures of one part in a year [1], from 0 to 1.

    Returns:
        Rate [1/h].

    >>> failure_rate(0.00876)
    1e-06
    """
    yearly = np.asarray(yearly, float)
    return within(yearly / HOURS_A_YEAR, (yearly >= 0) & (yearly <= 1))


@equation(
    "V2",
    "q = lambda R / (1 + lambda R)",
    source="steady state of one part with exponential times to failure and repair; textbook",
    valid="lambda >= 0, R >= 0",
    outside="not-a-number",
)
def unavailability(rate: Floats, repair: Floats) -> Floats:
    """Return the share of the time that one part is down.

    Args:
        rate: rate of failure [1/h].
        repair: mean time from failure to a healthy part [h].

    Returns:
        Share of the time [1].

    >>> round(unavailability(1e-3, 24.0), 6)
    0.023438
    """
    down = np.multiply(rate, repair)
    return within(down / (1 + down), (np.asarray(rate) >= 0) & (np.asarray(repair) >= 0))


@equation(
    "V3",
    "P(more than s of n fail) = sum over i > s of C(n, i) q^i (1 - q)^(n - i)",
    source="binomial distribution; textbook",
    valid="parts alike that fail independently; whole n >= 0, s >= -1, 0 <= q <= 1",
    outside="not-a-number",
)
def more_than(spare: Floats, count: Floats, down: Floats) -> Floats:
    """Return the odds that more than some of a number of parts alike are down.

    Args:
        spare: how many may be down [1], -1 and up; none are needed to be up when it is ``count``.
        count: how many there are [1].
        down: odds that one of them is down [1].

    Returns:
        Odds [1]; with ``spare`` at -1 they are 1, with ``spare`` at ``count`` or above 0.

    >>> round(1 - more_than(1, 4, 0.1), 4)
    0.9477
    """
    spare, count, down = np.broadcast_arrays(
        np.asarray(spare, float), np.asarray(count, float), np.asarray(down, float)
    )
    valid = (count >= 0) & (down >= 0) & (down <= 1) & np.isfinite(spare)
    most = int(np.max(np.where(valid, count, 0), initial=0))
    total, ways, failed = np.zeros(down.shape), np.ones(down.shape), np.ones(down.shape)
    for i in range(most + 1):
        # Ways fall to zero past the count, so a negative power is never used.
        exactly = ways * failed * np.power(1 - down, np.maximum(count - i, 0))
        total += np.where(i > spare, exactly, 0.0)
        ways, failed = ways * (count - i) / (i + 1), failed * down
    return within(total, valid)


@equation(
    "V4",
    "h_0 = 1 / (n lambda), h_i = (1 + mu h_(i-1)) / ((n - i) lambda), T = h_0 + ... + h_s",
    source="birth and death chain with one repair at a time; textbook",
    valid="parts alike, exponential times, s < n; lambda > 0",
    outside="not-a-number",
)
def mean_time_to_failure(spare: Floats, count: Floats, rate: Floats, repair: Floats) -> Floats:
    """Return the mean time until more than some of a number of parts alike are down at once.

    Args:
        spare: how many may be down [1].
        count: how many there are, all running [1].
        rate: rate of failure of one [1/h].
        repair: mean time to replace one [h], one after the other.

    Returns:
        Time [h], from all of them healthy.

    >>> round(mean_time_to_failure(1, 2, 1e-3, 10.0))
    51500
    """
    spare, count = np.asarray(spare, float), np.asarray(count, float)
    valid = (spare >= 0) & (spare < count) & (np.asarray(rate) > 0) & (np.asarray(repair) > 0)
    step = total = np.zeros(())
    with np.errstate(divide="ignore", invalid="ignore"):
        for i in range(int(np.max(np.where(valid, spare, 0), initial=0)) + 1):
            left = np.where(count > i, (count - i) * rate, np.nan)
            step = np.asarray((1 + np.divide(step, repair)) / left)
            total = np.asarray(total + np.where(i <= spare, step, 0.0))
    return within(total, valid)


@equation(
    "V5",
    "T_down = q year",
    source="definition",
    valid="a year of 365 days",
    outside=ASSUMED,
)
def down_time(down: Floats) -> Floats:
    """Return the down time of a year.

    Args:
        down: share of the time that is down [1].

    Returns:
        Time [h].

    >>> round(down_time(2e-5) * 3600)
    631
    """
    return within(np.multiply(down, HOURS_A_YEAR), np.isfinite(down))


@equation(
    "V6",
    "q = 1 - (1 - q_1) (1 - q_2) ...",
    source="parts in series that fail independently; textbook",
    valid="0 <= q <= 1",
    outside="not-a-number",
)
def any_down(*downs: Floats) -> Floats:
    """Return the odds that at least one of some independent parts is down.

    Args:
        downs: odds that each is down [1].

    Returns:
        Odds [1]; small ones keep their digits.

    >>> round(1 - any_down(1e-5, 1e-5), 7)
    0.99998
    """
    with np.errstate(divide="ignore"):
        up = sum((np.log1p(-np.asarray(down, float)) for down in downs), np.zeros(()))
    return within(-np.expm1(up), np.isfinite(up) | (up == -np.inf))


@equation(
    "V13",
    "F = p_board + sum of n_i p_i",
    source="mean of a sum",
    valid="failed parts replaced",
    outside=ASSUMED,
)
def yearly_failures(board: Floats, parts: Floats) -> Floats:
    """Return the part failures of one machine in a year.

    Args:
        board: failures of the board in a year [1].
        parts: failures of all other parts together in a year [1].

    Returns:
        Failures [1].
    """
    return np.add(board, parts)

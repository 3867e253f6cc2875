"""Loss: rebuilds, unreadable sectors, and the odds that an array loses data."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from baywright.sizing.equation import ASSUMED, Floats, Reals, equation, plain, within

HOURS_A_YEAR = 8766.0
"""365.25 days."""

_FACTOR_TWO = (
    "failures are independent and at a constant rate; beyond one failure survived such chains "
    "are off by a factor of two or more (Resch, Volvovski, arXiv 1310.4702)"
)


@equation(
    "S16",
    "t = c / (r (1 - load))",
    source="common practice, no source",
    valid="load from 0 to below 1",
    outside="not decided: other load leaves no time for it",
    estimate=True,
)
def rebuild_time(capacity: Floats, rate: Floats, load: Floats = 0.0) -> Floats:
    """Return how long it takes to write a replaced drive full again.

    Args:
        capacity: capacity of the drive [B].
        rate: rate of the rebuild without other load [B/s].
        load: share of their time that the drives are busy with other load.

    Returns:
        Time [s].

    >>> rebuild_time(2.4e12, 200e6) / 3600
    3.3333333333333335
    """
    valid = (np.asarray(load) >= 0) & (np.asarray(load) < 1)
    left = np.where(valid, np.subtract(1, load), 1.0)
    return within(np.divide(capacity, np.multiply(rate, left)), valid)


@equation(
    "L1",
    "p = 1 - exp(-bits x rate)",
    source="Poisson law; the rate is the one that drives are specified with",
    valid="sectors fail on their own",
    outside=ASSUMED,
    estimate=True,
)
def odds_of_unreadable(read: Floats, rate: Floats) -> Floats:
    """Return the odds of at least one unreadable sector while reading.

    Args:
        read: data read [B].
        rate: unreadable sectors for each bit read.

    Returns:
        Probability.

    >>> round(float(odds_of_unreadable(12e12, 1e-14)), 4)
    0.6171
    """
    return -np.expm1(-np.multiply(np.multiply(read, 8.0), rate))


@equation(
    "L2",
    "rate = -ln(1 - p) / 8766 h",
    source="exponential law: p is the share that fails within a year of 365.25 days",
    valid="p from 0 to below 1",
    outside="not decided",
)
def hourly_rate(yearly: Floats) -> Floats:
    """Return the constant failure rate behind a share that fails in a year.

    Args:
        yearly: share that fails in a year.

    Returns:
        Rate [1/h].
    """
    valid = (np.asarray(yearly) >= 0) & (np.asarray(yearly) < 1)
    return within(-np.log1p(-np.where(valid, yearly, 0.0)) / HOURS_A_YEAR, valid)


@equation(
    "L3",
    "T = h_0 + ... + h_f; h_i = (1 + d_i h_(i-1)) / u_i; u_i = (n - i) x failure, "
    "d_i = repair, or i x repair in parallel; from state f a repair fails with odds q",
    source="mean time to absorption of a birth and death chain, exact",
    valid=_FACTOR_TWO,
    outside="not decided: fewer drives than have to be left",
    estimate=True,
)
def time_to_loss(
    drives: Floats,
    survives: int,
    failure: Floats,
    repair: Floats,
    *,
    parallel: bool = False,
    unreadable: Floats = 0.0,
) -> Floats:
    """Return the mean time until one group of drives loses data.

    Nothing is subtracted on the way, so the result is exact to rounding however rare loss is.

    Args:
        drives: drives n in the group, more than ``survives``.
        survives: drive failures f that it survives.
        failure: failure rate of one drive [1/h].
        repair: repair rate of one drive [1/h].
        parallel: whether failed drives are repaired at the same time, not one after the other.
        unreadable: odds q that a rebuild without any check left meets an unreadable sector.

    Returns:
        Time [h].

    >>> f"{time_to_loss(8, 1, 1e-6, 1 / 24):.6e}"
    '7.443155e+08'
    """
    n = np.where(np.greater(drives, survives), drives, np.nan)
    fails, repairs = np.asarray(failure), np.asarray(repair)
    step: Reals = np.divide(1.0, n * fails)
    total = step
    for failed in range(1, survives + 1):
        down = repairs * (failed if parallel else 1)
        lost = down * unreadable if failed == survives else 0.0
        step = (1 + (down - lost) * step) / ((n - failed) * fails + lost)
        total = total + step
    return plain(total)


@equation(
    "L4",
    "Q m = -1 over the states of g groups; T = m of the state without failures",
    source="mean time to absorption of a Markov chain, by elimination without subtraction "
    "(Grassmann, Taksar, Heyman, Operations Research 33(5) 1985), exact to rounding",
    valid=_FACTOR_TWO,
    outside=ASSUMED,
    estimate=True,
)
def time_to_loss_of_groups(
    groups: int,
    drives: int,
    survives: int,
    failure: float,
    repair: float,
    *,
    parallel: bool = False,
    unreadable: float = 0.0,
) -> float:
    """Return the mean time until one of several groups side by side loses data.

    Repaired one at a time, the group with the most failed drives comes first.

    Args:
        groups: groups g, 1 or more.
        drives: drives in each group, more than ``survives``.
        survives: drive failures that a group survives.
        failure: failure rate of one drive [1/h].
        repair: repair rate of one drive [1/h].
        parallel: whether failed drives are repaired at the same time, not one after the other.
        unreadable: odds that a rebuild without any check left meets an unreadable sector.

    Returns:
        Time [h].

    Raises:
        ValueError: when there is no group, or when a group has too few drives.
    """
    if groups < 1 or drives <= survives:
        raise ValueError("A group has to have more drives than failures it survives.")
    states = _states(groups, survives)
    index = {state: position for position, state in enumerate(states)}
    rates = np.zeros((len(states), len(states) + 1))
    for state, row in zip(states, rates, strict=True):
        for failed, count in enumerate(state):
            if not count:
                continue
            into = -1 if failed == survives else index[_moved(state, failed, failed + 1)]
            row[into] += count * (drives - failed) * failure
        for failed, rate in _repairs(state, repair, parallel=parallel):
            lost = unreadable if failed == survives else 0.0
            row[index[_moved(state, failed, failed - 1)]] += rate * (1 - lost)
            row[-1] += rate * lost
    return _time_to_absorption(rates)


State = tuple[int, ...]
"""How many groups have no, one, two ... failed drives."""


def _states(groups: int, survives: int) -> list[State]:
    """Return every state, the one without failures first."""
    states: list[State] = [()]
    for _ in range(survives):
        states = [(*state, n) for state in states for n in range(groups - sum(state) + 1)]
    return [(groups - sum(state), *state) for state in states]


def _moved(state: State, start: int, end: int) -> State:
    """Return the state after one group went from one number of failed drives to another."""
    counts = list(state)
    counts[start] -= 1
    counts[end] += 1
    return tuple(counts)


def _repairs(state: State, repair: float, *, parallel: bool) -> list[tuple[int, float]]:
    """Return from which number of failed drives a repair leads, and at what rate."""
    degraded = [i for i in range(1, len(state)) if state[i]]
    if parallel:
        return [(i, state[i] * i * repair) for i in degraded]
    return [(degraded[-1], repair)] if degraded else []


def _time_to_absorption(rates: npt.NDArray[np.float64]) -> float:
    """Eliminate the states from the last to the first; the last column is absorption."""
    rates, waits = rates.copy(), np.ones(len(rates))
    for last in range(len(rates) - 1, 0, -1):
        kept = [*range(last), rates.shape[1] - 1]
        share = rates[:last, last] / rates[last, kept].sum()
        rates[np.ix_(range(last), kept)] += np.outer(share, rates[last, kept])
        waits[:last] += share * waits[last]
    return float(waits[0] / rates[0, -1])


@equation(
    "L5",
    "p = 1 - exp(-t / T)",
    source="exponential law: close where repair is much faster than failure",
    valid="T much longer than a repair",
    outside=ASSUMED,
    estimate=True,
)
def odds_within(hours: Floats, mean: Floats) -> Floats:
    """Return the odds that loss comes within some time.

    Args:
        hours: the time t [h].
        mean: mean time T to loss [h].

    Returns:
        Probability.
    """
    return -np.expm1(-np.divide(hours, mean))


@equation(
    "L6",
    "T = MTTF^2 / ((D + C n_G) (G + C - 1) MTTR), n_G = D / G",
    source="Patterson, Gibson, Katz, SIGMOD 1988, sec. 6",
    valid="one failure survived in a group, repair much faster than failure; "
    "kept as a comparison with the chain",
    outside=ASSUMED,
    estimate=True,
)
def classic_time_to_loss(
    data_drives: Floats, group: Floats, checks: Floats, mean: Floats, repair: Floats
) -> Floats:
    """Return the mean time to loss by the classic approximation.

    Args:
        data_drives: data drives D.
        group: data drives G in a group.
        checks: check drives C in a group.
        mean: mean time to failure of one drive [h].
        repair: mean time to repair [h].

    Returns:
        Time [h].

    >>> classic_time_to_loss(100, 1, 1, 30_000, 1)
    4500000.0
    """
    every = data_drives + checks * data_drives / group
    return mean**2 / (every * (group + checks - 1) * repair)


@equation(
    "L7",
    "T = M1 M2 / (N (G - 1) MTTR)",
    source="Chen et al., ACM Computing Surveys 26(2) 1994, sec. 3.4: double disk failure",
    valid="one failure survived in a group; a second failure soon after the first has the mean M2",
    outside=ASSUMED,
    estimate=True,
)
def time_to_double_failure(
    drives: Floats, group: Floats, first: Floats, second: Floats, repair: Floats
) -> Floats:
    """Return the mean time to a second failure in a group, when failures come in company.

    Args:
        drives: drives N in all groups, checks included.
        group: drives G in a group, checks included.
        first: mean time M1 to failure of one drive [h].
        second: mean time M2 to failure of one drive after another has failed [h].
        repair: mean time to repair [h].

    Returns:
        Time [h].
    """
    return first * second / (drives * (group - 1) * repair)


@equation(
    "L8",
    "T = M / (N (1 - p^(G - 1)))",
    source="Chen et al., ACM Computing Surveys 26(2) 1994, sec. 3.4: disk failure and bit error",
    valid="one failure survived in a group",
    outside=ASSUMED,
    estimate=True,
)
def time_to_failure_and_unreadable(
    drives: Floats, group: Floats, mean: Floats, readable: Floats
) -> Floats:
    """Return the mean time to a failure whose rebuild meets an unreadable sector.

    Args:
        drives: drives N in all groups, checks included.
        group: drives G in a group, checks included.
        mean: mean time M to failure of one drive [h].
        readable: odds p that all of one drive can be read.

    Returns:
        Time [h].
    """
    return mean / (drives * (1 - readable ** (group - 1)))

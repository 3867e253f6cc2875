"""Traffic: I/O and throughput of arrays, how busy they are, and how long an I/O takes."""

from __future__ import annotations

import math

import numpy as np

from baywright.sizing.equation import ASSUMED, Floats, equation, within

SATURATED = 0.8
"""Share of busy time above which a mean response time says nothing: near saturation."""

_NEAR = "not decided: near saturation"


@equation(
    "S9",
    "busy = n_r / R + n_w / W for a write; 1 / R for a read",
    source="read-modify-write form: Patterson, Gibson, Katz, SIGMOD 1988, sec. 9 and 11; "
    "common practice for two checks and copies",
    valid="small I/O at random, no cache",
    outside=ASSUMED,
    estimate=True,
)
def drive_time(
    share: Floats, reads: Floats, writes: Floats, per_read: int, per_write: int
) -> Floats:
    """Return the drive time that one I/O of a mix takes, over all drives of an array.

    Args:
        share: share of the I/O that reads, 0 to 1.
        reads: reads each second of one drive [1/s].
        writes: writes each second of one drive [1/s].
        per_read: reads on drives for each small write (R0, R1, R10: 0; R5: 2; R6: 3).
        per_write: writes on drives for each small write (R0: 1; R1, R10: 2; R5: 2; R6: 3).

    Returns:
        Time [s].
    """
    of_write = per_read / reads + per_write / writes
    return share / reads + (1 - share) * of_write


@equation(
    "S10",
    "I/O = min(n / busy, controller)",
    source="common practice, no source: n x I/O / (reads + penalty x writes) for equal drives",
    valid="small I/O at random over all drives alike, no cache",
    outside=ASSUMED,
    estimate=True,
)
def mixed_io(drives: Floats, busy: Floats, controller: Floats = math.inf) -> Floats:
    """Return the small I/O that an array takes each second.

    Args:
        drives: drives in the array.
        busy: drive time of one I/O [s], from ``drive_time``.
        controller: most I/O of the controller [1/s]; without limit unless given.

    Returns:
        I/O [1/s].

    >>> round(float(mixed_io(8, drive_time(0.6, 180, 180, 2, 2))))
    655
    """
    return np.minimum(np.divide(drives, busy), controller)


@equation(
    "S11",
    "rate = min(data drives x rate of one, link, controller)",
    source="common practice, no source",
    valid="long transfers in whole stripes",
    outside=ASSUMED,
    estimate=True,
)
def throughput(data_drives: Floats, each: Floats, *most: Floats) -> Floats:
    """Return the data that an array moves each second.

    Args:
        data_drives: drives' worth of data.
        each: sustained rate of one drive [B/s].
        most: what links and controller on the way carry [B/s].

    Returns:
        Data [B/s].
    """
    rate = np.multiply(data_drives, each)
    for limit in most:
        rate = np.minimum(rate, limit)
    return rate


@equation(
    "S12",
    "u = demand / I/O",
    source="utilisation law of queueing theory",
    valid="any demand; above 1 the queue grows without end",
    outside=ASSUMED,
)
def utilisation(demand: Floats, most: Floats) -> Floats:
    """Return the share of its time that an array is busy.

    Args:
        demand: I/O wanted each second [1/s].
        most: most I/O of the array [1/s].

    Returns:
        Share; above 1 the demand cannot be met.
    """
    return np.divide(demand, most)


@equation(
    "S13",
    "R = S / (1 - u)",
    source="M/M/1 queue: random arrivals, exponential service, one queue before each drive",
    valid=f"u up to {SATURATED}",
    outside=_NEAR,
    estimate=True,
)
def response_one_queue(service: Floats, busy: Floats) -> Floats:
    """Return the mean time of an I/O when each drive has a queue of its own.

    Args:
        service: mean service time [s].
        busy: share of its time that a drive is busy.

    Returns:
        Time [s], waiting included; not-a-number above ``SATURATED``.

    >>> response_one_queue(0.005, 0.5)
    0.01
    """
    valid = (np.asarray(busy) >= 0) & (np.asarray(busy) <= SATURATED)
    left = np.where(valid, np.subtract(1, busy), 1.0)
    return within(np.divide(service, left), valid)


@equation(
    "S14",
    "C = B / (1 - u (1 - B)), B by B_k = a B_(k-1) / (k + a B_(k-1)), a = c u",
    source="Erlang's formulas of delay (C) and loss (B), M/M/c queue",
    valid="u below 1",
    outside="1: every I/O waits",
)
def odds_of_waiting(servers: int, busy: float) -> float:
    """Return the odds that an I/O finds every server busy.

    Args:
        servers: servers c behind one queue, 1 or more.
        busy: share u of its time that a server is busy.

    Raises:
        ValueError: without a server, or for a negative share.

    >>> round(odds_of_waiting(2, 0.75), 6)
    0.642857
    """
    if servers < 1 or busy < 0:
        raise ValueError("One server or more, and a share of zero or more, are needed.")
    if busy >= 1:
        return 1.0
    offered, lost = servers * busy, 1.0
    for server in range(1, servers + 1):
        lost = offered * lost / (server + offered * lost)
    return lost / (1 - busy * (1 - lost))


@equation(
    "S15",
    "R = S (1 + C / (c (1 - u)))",
    source="M/M/c queue: random arrivals, exponential service, one queue before c servers",
    valid=f"u up to {SATURATED}",
    outside=_NEAR,
    estimate=True,
)
def response_shared_queue(service: float, busy: float, servers: int) -> float:
    """Return the mean time of an I/O when any of several drives may take it, as with copies.

    Args:
        service: mean service time of one drive [s].
        busy: share of its time that a drive is busy.
        servers: drives that may take it, 1 or more.

    Returns:
        Time [s], waiting included; not-a-number above ``SATURATED``.
    """
    if not 0 <= busy <= SATURATED:
        return math.nan
    return service * (1 + odds_of_waiting(servers, busy) / (servers * (1 - busy)))

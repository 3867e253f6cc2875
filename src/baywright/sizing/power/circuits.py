"""Feeds: supplies and hosts on them, usable current, inrush and leakage."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within


@equation("P20", "n_j = floor((n + m - 1 - j) / m), j = 0 .. m - 1", source="dealt out in turn")
def supplies_on_feed(supplies: Floats, feeds: int, position: int) -> Floats:
    """Return how many supplies are on one feed when they are dealt out in turn.

    Args:
        supplies: number of supplies, 0 or more.
        feeds: number of feeds, 1 or more.
        position: position of the feed, from 0.

    Returns:
        Number of supplies; those of two feeds differ by at most one.

    Raises:
        ValueError: for a position that is not one of the feeds.

    >>> [int(supplies_on_feed(3, 2, position)) for position in (0, 1)]
    [2, 1]
    """
    if not 0 <= position < feeds:
        raise ValueError(f"{feeds} feeds have no position {position}")
    return np.floor_divide(np.add(supplies, feeds - 1 - position), feeds)


@equation(
    "P21",
    "I_usable = f I_rated",
    source="f is a rule of the site: 0.8 where NEC 210.20(A) holds; IEC 60364-4-43 has none",
    valid="f above 0 and up to 1",
    outside="not decided",
)
def usable_current(rating: Floats, continuous: Floats) -> Floats:
    """Return the current that a feed may carry without end.

    Args:
        rating: rating of its breaker or fuse [A].
        continuous: share of it that local rules let run without end [1].

    Returns:
        Current [A].
    """
    usable = np.logical_and(np.greater(continuous, 0), np.less_equal(continuous, 1))
    return within(np.multiply(rating, continuous), usable)


@equation("P22", "I_feed = n I_each", source="sum; equal power factors")
def feed_current(each: Floats, supplies: Floats) -> Floats:
    """Return the current of one host in a feed.

    Args:
        each: current of one supply [A].
        supplies: supplies of the host on that feed.

    Returns:
        Current [A]; none where none of its supplies is on the feed.
    """
    return np.where(np.equal(supplies, 0), 0.0, np.multiply(each, supplies))


@equation(
    "P23",
    "N = phases floor(I_usable / I_host)",
    source="whole hosts on each phase",
    valid="currents above 0",
    outside="no bound from a feed that carries nothing of the host",
)
def hosts_on_feed(usable: Floats, each: Floats, phases: int = 1) -> Floats:
    """Return how many equal hosts a feed carries.

    Args:
        usable: current it may carry without end in each phase [A].
        each: current of one host in it, on one phase [A].
        phases: 1 or 3.

    Returns:
        Number of hosts; infinite where a host draws nothing from it.

    >>> float(hosts_on_feed(32.0, 6.3))
    5.0
    """
    draws = np.logical_not(np.equal(each, 0))
    # A host that fills its share exactly still fits, whatever the last binary digit says.
    ratio = np.divide(usable, np.where(draws, each, 1.0))
    return np.where(draws, phases * np.floor(np.add(ratio, 1e-9)), np.inf)


@equation(
    "P24",
    "I = sum(n_i I_i)",
    source="sum; all supplies switch on at the same moment and the same point of the wave",
    estimate=True,
)
def inrush(each: Floats, supplies: Floats) -> Floats:
    """Return the highest switch-on current of some supplies: an upper bound.

    Args:
        each: switch-on current of one [A].
        supplies: number of them.

    Returns:
        Current [A].
    """
    return np.multiply(each, supplies)


@equation(
    "P25",
    "I = sum(n_i I_i)",
    source="sum of magnitudes; phases can only make it less",
)
def leakage(each: Floats, supplies: Floats) -> Floats:
    """Return the current to earth of some supplies: an upper bound.

    Args:
        each: current to earth of one, in any unit.
        supplies: number of them.

    Returns:
        Current, in the same unit.
    """
    return np.multiply(each, supplies)

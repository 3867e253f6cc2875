"""How supplies share a load, what they carry, and what is left after a loss."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within


@equation(
    "P11",
    "P_each = P_dc / n",
    source="supplies in parallel share equally; the book says so, or it is assumed",
    valid="one or more supplies",
    outside="not decided: nothing carries the load",
)
def load_of_each(load: Floats, supplies: Floats) -> Floats:
    """Return the load of each of some supplies.

    Args:
        load: DC draw [W].
        supplies: number that share it, 0 or more.

    Returns:
        Load of one [W].

    Raises:
        ValueError: for fewer than no supplies.
    """
    if np.any(np.less(supplies, 0)):
        raise ValueError("there cannot be fewer than no supplies")
    some = np.greater(supplies, 0)
    return within(np.divide(load, np.where(some, supplies, 1.0)), some)


@equation("P12", "P_carried = k P_rated", source="the weakest supply sets the share of all")
def carried(rating: Floats, supplies: Floats) -> Floats:
    """Return the DC draw that some supplies carry together.

    Args:
        rating: rating of the weakest at the voltage in use [W].
        supplies: number that share the load.

    Returns:
        Power [W].
    """
    return np.multiply(rating, supplies)


@equation("P13", "P_left = P_carried - P_dc", source="difference")
def left_over(carried: Floats, load: Floats) -> Floats:
    """Return what supplies could carry beside a load; below 0 they cannot carry it.

    Args:
        carried: what they carry [W].
        load: DC draw [W].

    Returns:
        Power left [W].
    """
    return np.subtract(carried, load)


@equation("P14", "P_shed = max(0, P_dc - P_carried)", source="difference")
def to_shed(load: Floats, carried: Floats) -> Floats:
    """Return the draw that has to go before supplies carry the rest.

    Args:
        load: DC draw [W].
        carried: what they carry [W].

    Returns:
        Power to shed [W], 0 where they carry the load.

    >>> float(to_shed(1159.0, 1000.0))
    159.0
    """
    return np.maximum(0.0, np.subtract(load, carried))


@equation(
    "P15",
    "m = max(0, n - ceil(P_dc / P_rated))",
    source="each of the supplies left carries at most its rating",
    valid="ratings above 0",
    outside="0: nothing may be lost",
)
def spare(load: Floats, rating: Floats, supplies: Floats) -> Floats:
    """Return how many supplies may be lost while the rest carries the load.

    Args:
        load: DC draw [W].
        rating: rating of the weakest at the voltage in use [W].
        supplies: number fitted.

    Returns:
        Number of supplies.
    """
    rated = np.greater(rating, 0)
    # A load on the bound is within it, whatever its last binary digit says.
    share = np.divide(load, np.where(np.logical_or(rated, np.isnan(rating)), rating, 1.0))
    needed = np.maximum(1.0, np.ceil(np.subtract(share, 1e-9)))
    lost = np.maximum(0.0, np.subtract(supplies, needed))
    return np.where(np.logical_or(rated, np.isnan(rating)), lost, 0.0)

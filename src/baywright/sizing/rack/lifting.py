"""Lifting: the user's own bands, and the recommended weight limit of NIOSH.

Source of the limit: Waters, Putz-Anderson and Garg, Applications Manual for the Revised NIOSH
Lifting Equation, publication 94-110, in its metric form. It holds for one person who lifts with
both hands, smoothly, with good footing. Past the range of a variable the manual sets its
multiplier to 0: no mass may be lifted that way.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import Literal

import numpy as np
import numpy.typing as npt

from baywright.sizing.equation import Floats, Reals, equation, plain, within

Coupling = Literal["good", "fair", "poor"]

LOAD_CONSTANT = 23.0
"""Most that the limit can be, kg."""

_MANUAL = "NIOSH 94-110, section 1.3"
_NONE = "0, as the manual says"

_RATES = (0.2, 0.5, *range(1, 16))
"""Lifts a minute, for the rows of the table below."""

_ONE_HOUR = (1, 0.97, 0.94, 0.91, 0.88, 0.84, 0.8, 0.75, 0.7, 0.6, 0.52, 0.45, 0.41, 0.37)
_TWO_HOURS = (0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.6, 0.5, 0.42, 0.35, 0.3, 0.26)
_EIGHT_HOURS = (0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18)

_FREQUENCY: dict[float, tuple[tuple[float, ...], tuple[float, ...]]] = {
    1.0: (_ONE_HOUR, (*_ONE_HOUR, 0.34, 0.31, 0.28)),
    2.0: (_TWO_HOURS, (*_TWO_HOURS, 0.23, 0.21)),
    8.0: (_EIGHT_HOURS, (*_EIGHT_HOURS, 0.15, 0.13)),
}
"""Table 5 by the longest duration in hours: hands below 75 cm, and at 75 cm or above."""

_COUPLING: dict[Coupling, tuple[float, float]] = {
    "good": (1.0, 1.0),
    "fair": (0.95, 1.0),
    "poor": (0.9, 0.9),
}
"""Table 7: hands below 75 cm, and at 75 cm or above."""


@equation("R7", "HM = 25 / H", source=_MANUAL, valid="H to 63 cm, 25 below it", outside=_NONE)
def horizontal_multiplier(horizontal: Floats) -> Floats:
    """Return the multiplier for how far the hands are in front of the ankles [m]."""
    reach = np.asarray(_not_negative(horizontal)) * 100
    return _zero_past(25 / np.maximum(reach, 25), reach <= 63)


@equation("R8", "VM = 1 - 0.003 |V - 75|", source=_MANUAL, valid="V to 175 cm", outside=_NONE)
def vertical_multiplier(vertical: Floats) -> Floats:
    """Return the multiplier for the height of the hands above the floor [m]."""
    height = np.asarray(_not_negative(vertical)) * 100
    return _zero_past(1 - 0.003 * np.abs(height - 75), height <= 175)


@equation(
    "R9", "DM = 0.82 + 4.5 / D", source=_MANUAL, valid="D to 175 cm, 25 below it", outside=_NONE
)
def distance_multiplier(travel: Floats) -> Floats:
    """Return the multiplier for how far up or down the hands go [m]."""
    way = np.asarray(_not_negative(travel)) * 100
    return _zero_past(0.82 + 4.5 / np.maximum(way, 25), way <= 175)


@equation("R10", "AM = 1 - 0.0032 A", source=_MANUAL, valid="A to 135 degrees", outside=_NONE)
def asymmetry_multiplier(angle: Floats) -> Floats:
    """Return the multiplier for how far the body is turned [degrees]."""
    turned = np.asarray(_not_negative(angle))
    return _zero_past(1 - 0.0032 * turned, turned <= 135)


@equation(
    "R11",
    "FM from a table, straight lines between its rows",
    source="NIOSH 94-110, Table 5",
    valid="up to 8 h",
    outside="not a number; past the last rate of its column 0, as the manual says",
)
def frequency_multiplier(rate: Floats, hours: float, vertical: Floats) -> Floats:
    """Return the multiplier for how often and how long one lifts.

    Args:
        rate: lifts a minute.
        hours: how long the lifting goes on [h], above 0.
        vertical: height of the hands at the start [m].
    """
    longest = next((most for most in _FREQUENCY if hours <= most), None)
    if longest is None:
        return within(np.full(np.shape(rate), np.nan), valid=False)
    low, high = (_between(_not_negative(rate), column) for column in _FREQUENCY[longest])
    return plain(np.where(np.less(vertical, 0.75), low, high))


def _between(rate: Floats, column: tuple[float, ...]) -> Reals:
    rates = _RATES[: len(column)]
    return np.asarray(np.interp(rate, rates, column, right=0.0), np.float64)


@equation("R12", "CM from a table", source="NIOSH 94-110, Table 7")
def coupling_multiplier(coupling: Coupling, vertical: Floats) -> Floats:
    """Return the multiplier for how well the hands hold the load.

    Args:
        coupling: how well they hold it.
        vertical: height of the hands [m].
    """
    low, high = _COUPLING[coupling]
    return plain(np.where(np.less(vertical, 0.75), low, high))


@equation(
    "R13",
    "RWL = 23 kg HM VM DM AM FM CM",
    source=_MANUAL,
    valid="one person, both hands, one smooth lift",
    outside="see each multiplier",
)
def weight_limit(
    horizontal: Floats,
    vertical: Floats,
    travel: Floats,
    angle: Floats = 0.0,
    rate: Floats = 0.2,
    hours: float = 1.0,
    coupling: Coupling = "good",
) -> Floats:
    """Return the recommended weight limit of one lift.

    Args:
        horizontal: distance of the hands in front of the ankles [m].
        vertical: height of the hands at the start [m].
        travel: how far up or down they go [m].
        angle: how far the body is turned [degrees].
        rate: lifts a minute; 0.2 stands for less as well.
        hours: how long the lifting goes on [h], up to 8.
        coupling: how well the hands hold the load.

    Returns:
        Mass [kg] that nearly all healthy workers can lift that way.

    Raises:
        ValueError: for a negative distance, angle or rate.

    >>> weight_limit(horizontal=0.25, vertical=0.75, travel=0.25)
    23.0
    """
    posture = np.multiply(horizontal_multiplier(horizontal), vertical_multiplier(vertical))
    way = np.multiply(distance_multiplier(travel), asymmetry_multiplier(angle))
    pace = np.multiply(
        frequency_multiplier(rate, hours, vertical), coupling_multiplier(coupling, vertical)
    )
    return plain(LOAD_CONSTANT * posture * way * pace)


@equation("R14", "LI = m / RWL", source="NIOSH 94-110, section 1.4", outside="limit 0: infinite")
def lifting_index(mass: Floats, limit: Floats) -> Floats:
    """Return how many times the recommended limit a mass is; 1 or less is the aim.

    Args:
        mass: mass lifted [kg].
        limit: recommended weight limit [kg].
    """
    with np.errstate(divide="ignore"):
        return plain(np.divide(mass, limit))


@equation(
    "R15",
    "first band whose mass is at least that of the machine",
    source="the user's own rule for lifting",
    outside="heavier than every band: one past the last",
)
def lift_band(mass: Floats, bands: Sequence[float]) -> Floats:
    """Return the number of the lift band of a mass, from 1.

    Args:
        mass: mass lifted [kg].
        bands: most mass of each band [kg], lightest first.

    Raises:
        ValueError: when the bands do not rise.
    """
    if any(later <= earlier for earlier, later in itertools.pairwise(bands)):
        raise ValueError("lift bands rise from the lightest to the heaviest")
    below = np.searchsorted(np.asarray(bands), np.asarray(mass, float) - 1e-9)
    return within(np.add(below, 1.0), np.isfinite(mass))


def _not_negative(values: Floats) -> Floats:
    if np.any(np.less(values, 0)):
        raise ValueError("a distance, an angle and a rate are never negative")
    return values


def _zero_past(values: npt.ArrayLike, valid: npt.ArrayLike) -> Floats:
    return plain(np.where(valid, values, 0.0))

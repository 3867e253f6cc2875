"""Efficiency of a supply between the points that its data sheet gives."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from baywright.facts.parts import Supply
from baywright.facts.readers import read_ratio
from baywright.sizing.equation import Floats, equation, within

SLACK = 1e-9
"""A load this much past the end of a curve, as a share of the rating, is on it: rounding."""


@dataclass(frozen=True, slots=True)
class Curve:
    """Efficiency of a supply at some loads.

    Args:
        loads: shares of the rating [1], rising, from above 0 to 1.
        values: efficiency at each [1], above 0 to 1.

    Raises:
        ValueError: for a curve without points, out of order or out of range.
    """

    loads: tuple[float, ...]
    values: tuple[float, ...]

    def __post_init__(self) -> None:
        if not self.loads or len(self.loads) != len(self.values):
            raise ValueError("a curve has one efficiency for each of one or more loads")
        if any(low >= high for low, high in pairwise(self.loads)):
            raise ValueError("the loads of a curve rise")
        if not all(0 < number <= 1 for number in (*self.loads, *self.values)):
            raise ValueError("loads and efficiencies of a curve lie above 0 and up to 1")


def curve_of(supply: Supply) -> Curve | None:
    """Return the curve of a supply, or ``None`` where the book lacks it or a point of it."""
    values = [fact.value for fact in supply.efficiency.values()]
    known = [float(value) for value in values if value is not None]
    if not known or len(known) < len(values):
        return None
    return Curve(tuple(float(read_ratio(load)) for load in supply.efficiency), tuple(known))


@equation(
    "P3",
    "eta = eta_1 + (eta_2 - eta_1) (x - x_1) / (x_2 - x_1)",
    source="linear interpolation between the points of the data sheet",
    valid="loads from the lowest to the highest point of the curve",
    outside="not decided: a curve is not extended past its points",
)
def efficiency(share: Floats, curve: Curve) -> Floats:
    """Return the efficiency of a supply at a load between two points of its curve.

    Args:
        share: load as a share of the rating at the voltage in use [1].
        curve: the points of its data sheet.

    Returns:
        Efficiency [1]; not-a-number outside the points.

    >>> round(float(efficiency(0.35, Curve((0.2, 0.5), (0.92, 0.95)))), 9)
    0.935
    """
    low, high = curve.loads[0], curve.loads[-1]
    between = np.interp(share, curve.loads, curve.values)
    inside = np.logical_and(np.greater_equal(share, low), np.less_equal(share, high + SLACK))
    return within(np.asarray(between), inside)


@equation(
    "P4",
    "eta = eta_1 + (eta_2 - eta_1) (x - x_1) / (x_2 - x_1); below the lowest point eta_lowest",
    source="linear interpolation; common practice, no source, for the part below the lowest point",
    valid="loads up to the highest point of the curve",
    outside="not decided above the highest point",
    estimate=True,
)
def efficiency_estimated(share: Floats, curve: Curve) -> Floats:
    """Return the efficiency of a supply, below its lowest point that of the lowest point.

    A real supply is less efficient there, so its input is estimated too low by a few watts.

    Args:
        share: load as a share of the rating at the voltage in use [1].
        curve: the points of its data sheet.

    Returns:
        Efficiency [1]; not-a-number above the highest point.

    >>> efficiency_estimated(0.05, Curve((0.2, 0.5), (0.92, 0.95)))
    0.92
    """
    return efficiency(np.maximum(share, curve.loads[0]), curve)


def below_curve(share: Floats, curve: Curve) -> bool:
    """Return whether any load lies below the lowest point of a curve."""
    return bool(np.any(np.less(share, curve.loads[0])))

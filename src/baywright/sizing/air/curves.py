"""Fan curves against the resistance of the air path: where fans and machine meet."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from baywright.sizing.equation import Reals, equation


@dataclass(frozen=True, slots=True)
class Curve:
    """A fan curve at full speed, straight between its points.

    Args:
        flows: volume flows, rising from nothing [m3/s, or any unit].
        pressures: pressure at each, falling to nothing [Pa].

    Raises:
        ValueError: for less than two points, points out of order, or other ends.
    """

    flows: tuple[float, ...]
    pressures: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.flows) != len(self.pressures) or len(self.flows) < 2:
            raise ValueError("a fan curve has two points or more, each a flow and a pressure")
        if self.flows[0] != 0 or self.pressures[-1] != 0:
            raise ValueError("a fan curve goes from no flow to no pressure")
        if np.any(np.diff(self.flows) < 0) or np.any(np.diff(self.pressures) >= 0):
            raise ValueError("along a fan curve the flow rises and the pressure falls")


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """Where the pressure of the fans is what the air path takes.

    Args:
        flow: volume flow through the machine [unit of the curve].
        pressure: pressure [Pa].
    """

    flow: float
    pressure: float


NOWHERE = OperatingPoint(math.nan, math.nan)
"""The operating point that is not decided."""


@equation(
    "A18",
    "V(p) = V_1(p) + V_2(p) + ...",
    source="fans side by side stand under one pressure, and their flows add up",
    valid="fans that none drives backwards",
    outside="a fan against more than its own pressure at no flow moves nothing",
    estimate=True,
)
def side_by_side(fans: Sequence[tuple[Curve, int]]) -> Curve:
    """Return the curve of fans side by side.

    An estimate: air that flows back through a fan that stands still is not counted.

    Args:
        fans: curves, each with how many fans of it run.

    Returns:
        Their curve together, exact where their own curves are straight between points.

    Raises:
        ValueError: without any fan.
    """
    if not any(count > 0 for _, count in fans):
        raise ValueError("without a fan there is no fan curve")
    pressures = np.unique([p for curve, count in fans if count > 0 for p in curve.pressures])
    flows = sum(count * _flow_against(curve, pressures) for curve, count in fans if count > 0)
    ordered = np.asarray(flows)[::-1]
    return Curve(tuple(ordered.tolist()), tuple(pressures[::-1].tolist()))


def _flow_against(curve: Curve, pressures: Reals) -> Reals:
    """Return the flow of one fan against some pressures."""
    flows = np.interp(pressures, curve.pressures[::-1], curve.flows[::-1], right=0.0)
    return np.asarray(flows, np.float64)


@equation(
    "A19",
    "k = p / V^2",
    source="turbulent flow through a fixed air path; the square law of system curves",
    valid="a flow of more than nothing",
    outside="not-a-number",
)
def resistance_of(flow: float, pressure: float) -> float:
    """Return the resistance of an air path from one point of it.

    Args:
        flow: volume flow [any unit].
        pressure: pressure that it takes [Pa].

    Returns:
        Resistance [Pa over the square of the unit of flow]; not-a-number without any flow.
    """
    return pressure / flow**2 if flow > 0 else math.nan


@equation(
    "A20",
    "p_fans(V) = k V^2",
    source="the fans and the air path have one flow and one pressure",
    valid="a resistance of nothing or more",
    outside="not-a-number",
    estimate=True,
)
def operating_point(curve: Curve, resistance: float) -> OperatingPoint:
    """Return where fans meet the resistance of an air path.

    The curve is straight between its points, so that each piece meets the parabola where a
    quadratic equation says. Both pressures rise alike with the density of the air, so that the
    flow does not depend on it. An estimate: a real curve is not straight between its points.

    Args:
        curve: curve of all fans that run.
        resistance: resistance of the air path [Pa over the square of the unit of flow].

    Returns:
        Flow and pressure in the air for which the curve was stated; not-a-number where the
        resistance is unknown or negative.

    >>> operating_point(Curve((0.0, 10.0), (200.0, 0.0)), 1.0).flow
    7.320508075688773
    """
    points = list(zip(curve.flows, curve.pressures, strict=True))
    for (left, high), (right, low) in pairwise(points):
        if high >= resistance * left**2 and low <= resistance * right**2:
            flow = _crossing(left, high, right, low, resistance)
            return OperatingPoint(flow, resistance * flow**2)
    return NOWHERE


def _crossing(left: float, high: float, right: float, low: float, resistance: float) -> float:
    """Return where a straight piece from (left, high) to (right, low) meets the parabola."""
    if right == left:
        return left
    slope = (low - high) / (right - left)
    start = high - slope * left
    if resistance == 0:
        return right
    root = math.sqrt(slope**2 + 4 * resistance * start)
    # The same as (slope + root) / (2 resistance), without the loss of digits in that difference.
    return 2 * start / (root - slope)

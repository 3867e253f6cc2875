"""Points of curves to plot: efficiency over load, and what one build takes in as its load grows."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from baywright.sizing.case import Case
from baywright.sizing.equation import Floats, Reals
from baywright.sizing.power.bays import Bays, bays_of
from baywright.sizing.power.draw import draw
from baywright.sizing.power.efficiency import Curve, efficiency
from baywright.sizing.power.flow import flow


@dataclass(frozen=True, slots=True)
class Points:
    """A curve as points.

    Args:
        across: what is plotted across, rising.
        up: what is plotted up, one for each; not-a-number where it is not decided.
    """

    across: Reals
    up: Reals


def efficiency_points(curve: Curve, steps: int = 181) -> Points:
    """Return the efficiency of a supply from the lowest to the highest point of its curve.

    Args:
        curve: the points of its data sheet.
        steps: number of points, 2 or more; those of the data sheet come on top.

    Returns:
        Across the load as a share of the rating [1], up the efficiency [1].
    """
    shares = np.union1d(np.linspace(curve.loads[0], curve.loads[-1], steps), curve.loads)
    return Points(shares, np.asarray(efficiency(shares, curve)))


def load_points(case: Case, steps: int = 200) -> Points:
    """Return what one build takes in as its draw grows from idle to what its supplies carry.

    Args:
        case: one build.
        steps: number of points, 2 or more.

    Returns:
        Across the DC draw [W], up the power taken in [W]. From nothing where the idle draw is
        not known; without points where the rating is not decided.
    """
    bays = bays_of(case)
    most = float(np.ravel(bays.rating * bays.count)[0])
    if np.isnan(most):
        return Points(np.zeros(0), np.zeros(0))
    idle = float(np.nan_to_num(np.ravel(draw(case, "idle"))[0]))
    return _taken_in(bays, np.linspace(min(idle, most), most, steps))


def _taken_in(bays: Bays, loads: Reals) -> Points:
    watts: Floats = flow(bays, loads).watts
    return Points(loads, np.broadcast_to(np.asarray(watts), loads.shape))

"""The sheet of power: every figure and limit of some builds."""

from __future__ import annotations

from baywright.sizing.case import Case
from baywright.sizing.figure import Sheet
from baywright.sizing.power.inlets import inlet_limits
from baywright.sizing.power.listings import listings
from baywright.sizing.power.on_feeds import feed_limits, host_figures
from baywright.sizing.power.redundancy import loss_figures, supply_figures, supply_limits
from baywright.sizing.power.scene import Scene
from baywright.sizing.power.states import state_figures
from baywright.sizing.power.surges import hold_up_figures, surge_limits
from baywright.sizing.power.switching import leakage_limits, switching_figures
from baywright.sizing.subject import Subject

CAUTIONS = ("redundancy", "overloaded-circuit", "several-cords", "estimate")


def sheet(case: Case) -> Sheet:
    """Return what builds draw, what carries them, and what is left after a loss.

    Args:
        case: the builds, one or many, and their surroundings.

    Returns:
        Figures and limits; those of cords and of current to earth only where the site states
        a bound.
    """
    scene = Scene(case)
    figures = (
        *state_figures(scene),
        *supply_figures(scene),
        *loss_figures(scene),
        *host_figures(scene),
        *switching_figures(scene),
        *hold_up_figures(scene),
    )
    limits = (
        *supply_limits(scene),
        *inlet_limits(scene),
        *feed_limits(scene),
        *leakage_limits(scene),
        *surge_limits(scene),
    )
    return Sheet(figures, limits, CAUTIONS)


SUBJECT = Subject("power", "Power", sheet, listings)

"""Balance: centres of mass, and what tips a rack.

Moments are taken about the line through the front feet. All of it is statics, as in any textbook.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from baywright.sizing.air.atmosphere import GRAVITY
from baywright.sizing.equation import Floats, equation, plain, within

_STATICS = "statics: equilibrium of moments, as in any textbook"


@equation("R1", "x = sum(m x) / sum(m)", source=_STATICS, outside="no mass: not a number")
def centre_of_mass(masses: Sequence[Floats], positions: Sequence[Floats]) -> Floats:
    """Return where the centre of some masses lies along one direction.

    Args:
        masses: masses [kg], each a number or one for each build, 0 or more.
        positions: where the centre of each lies [m], from any one origin.

    Returns:
        Position of the common centre [m], from the same origin.

    Raises:
        ValueError: when the two differ in length, or a mass is negative.

    >>> centre_of_mass([1.0, 3.0], [0.0, 1.0])
    0.75
    """
    if len(masses) != len(positions):
        raise ValueError(f"{len(masses)} masses and {len(positions)} positions do not go together")
    if any(np.any(np.less(mass, 0)) for mass in masses):
        raise ValueError("a mass is never negative")
    total = sum(np.asarray(mass, float) for mass in masses)
    moment = sum(np.multiply(mass, x) for mass, x in zip(masses, positions, strict=True))
    with np.errstate(divide="ignore", invalid="ignore"):
        return within(np.divide(moment, total), np.greater(total, 0))


@equation("R2", "M_t = m g max(0, travel - centre - setback)", source=_STATICS)
def tipping_moment(mass: Floats, travel: Floats, centre: Floats, setback: Floats = 0.0) -> Floats:
    """Return the moment about the front feet of a machine pulled out on its slides.

    Args:
        mass: mass of the machine [kg].
        travel: how far it is pulled out of the rack [m].
        centre: depth of its centre of mass behind its front [m].
        setback: depth of the front rails behind the front feet [m].

    Returns:
        Moment [N m]; none while the centre of mass stays behind the feet.
    """
    lever = np.subtract(np.subtract(travel, centre), setback)
    return plain(np.multiply(mass, GRAVITY) * np.maximum(lever, 0.0))


@equation("R3", "M_r = m g d", source=_STATICS)
def righting_moment(mass: Floats, depth: Floats) -> Floats:
    """Return the moment about the front feet that keeps a rack down.

    Args:
        mass: mass of the rack with what is in it [kg].
        depth: depth of its centre behind the front feet [m].

    Returns:
        Moment [N m].
    """
    return plain(np.multiply(mass, GRAVITY) * depth)


@equation("R4", "f = M_r / M_t", source=_STATICS, outside="nothing tips: infinite")
def tip_factor(righting: Floats, tipping: Floats) -> Floats:
    """Return how many times over a rack is kept down; below 1 it falls.

    Args:
        righting: moment that keeps it down [N m].
        tipping: moment that tips it [N m], 0 or more.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        factor = np.divide(righting, tipping)
    return plain(np.where(np.equal(tipping, 0), np.inf, factor))


@equation("R5", "a = atan(w / (2 h))", source=_STATICS, valid="h > 0", outside="not a number")
def tilt_angle(width: Floats, height: Floats) -> Floats:
    """Return the angle at which a body falls over sideways.

    Args:
        width: width of its feet [m]; its centre of mass stands over the middle.
        height: height of its centre of mass [m].

    Returns:
        Angle from upright [degrees].
    """
    angle = np.degrees(np.arctan2(np.asarray(width, float) / 2, height))
    return within(angle, np.greater(height, 0))


@equation(
    "R6",
    "q = m / (w d)",
    source="definition: mass over area",
    valid="w d > 0",
    outside="not a number",
)
def floor_load(mass: Floats, width: Floats, depth: Floats) -> Floats:
    """Return the mass on each square metre under a rack, spread evenly over its outline.

    Feet and castors press on points; what one tile bears is another question.

    Args:
        mass: mass of the rack with what is in it [kg].
        width: width of its feet [m].
        depth: depth of its feet [m].

    Returns:
        Load [kg/m2].
    """
    area = np.multiply(width, depth)
    with np.errstate(divide="ignore", invalid="ignore"):
        return within(np.divide(mass, area), np.greater(area, 0))

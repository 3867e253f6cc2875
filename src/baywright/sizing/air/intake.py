"""The intake grille: velocity through it, and flow lost when part of it is blocked."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within

CURVE_DENSITY = 1.2
"""Density of the air for which fan curves and resistances are stated, kg/m3."""


@equation("A23", "A = A_grille f (1 - b)", source="what is neither bar nor blocked is open")
def open_area(grille: Floats, open_share: Floats, blocked: Floats = 0.0) -> Floats:
    """Return the area through which air enters.

    Args:
        grille: area of the grille [m2].
        open_share: share of it that is open, 0 to 1.
        blocked: share of that opening which labels, dust or cables block, 0 to 1.

    Returns:
        Area [m2].

    Raises:
        ValueError: for shares outside 0 to 1.
    """
    _check_shares(open_share, blocked)
    return grille * open_share * (1 - np.asarray(blocked, float))


@equation(
    "A24",
    "v = V / A",
    source="continuity of the stream",
    valid="an opening of more than nothing",
    outside="not-a-number",
)
def intake_velocity(flow: Floats, area: Floats) -> Floats:
    """Return the mean velocity through an opening.

    Args:
        flow: volume flow [m3/s].
        area: open area [m2].

    Returns:
        Velocity [m/s]; not-a-number where nothing is open.
    """
    is_open = np.asarray(area) > 0
    return within(flow / np.where(is_open, area, 1.0), is_open)


@equation(
    "A25",
    "zeta = ((1 - f) + 0.707 (1 - f)^0.375)^2 / f^2",
    source=(
        "Idelchik, Handbook of Hydraulic Resistance, 1994, diagram 4-14, as quoted in the "
        "Modelica standard library (sharp-edged orifice)"
    ),
    valid="0 < f <= 1, Reynolds numbers from 1e5 up",
    outside="not-a-number for shares; an estimate for slower or bevelled openings",
    estimate=True,
)
def grille_loss(open_share: Floats) -> Floats:
    """Return the loss coefficient of a grille, referred to the velocity before it.

    Args:
        open_share: open share of the grille, more than 0 up to 1.

    Returns:
        Loss coefficient: pressure loss over the dynamic pressure of the approaching air.

    Raises:
        ValueError: for shares outside 0 to 1.
    """
    _check_shares(open_share)
    share = np.asarray(open_share, float)
    closed = 1 - share
    root = closed + 0.707 * closed**0.375
    return within(np.square(root / np.where(share > 0, share, 1.0)), share > 0)


@equation(
    "A26",
    "dk = (zeta(f (1 - b)) - zeta(f)) rho / (2 A_grille^2)",
    source="A25; pressure losses along one stream add up",
    valid="0 < f (1 - b) <= 1",
    outside="not-a-number",
    estimate=True,
)
def added_resistance(grille: float, open_share: float, blocked: float) -> float:
    """Return by how much a blocked grille adds to the resistance of the air path.

    Args:
        grille: area of the grille [m2].
        open_share: share of it that is open, 0 to 1.
        blocked: share of that opening which is blocked, 0 to 1.

    Returns:
        Resistance [Pa/(m3/s)2], in air of 1.2 kg/m3.

    Raises:
        ValueError: for shares outside 0 to 1.
    """
    _check_shares(open_share, blocked)
    loss = grille_loss(open_share * (1 - blocked)) - grille_loss(open_share)
    return float(loss * CURVE_DENSITY / (2 * grille**2))


@equation(
    "A27",
    "V = V_full (1 - b)",
    source=(
        "common practice, no source: the velocity through what is open stays the same; with fan "
        "curve and resistance, A20 with the resistance of A26 takes its place"
    ),
    estimate=True,
)
def flow_left(flow: Floats, blocked: Floats) -> Floats:
    """Return the flow that is left when part of the intake is blocked.

    Args:
        flow: volume flow with nothing blocked [any unit].
        blocked: share of the open intake that is blocked, 0 to 1.

    Returns:
        Volume flow [same unit].

    Raises:
        ValueError: for a share outside 0 to 1.
    """
    _check_shares(blocked)
    return flow * (1 - np.asarray(blocked, float))


def _check_shares(*shares: Floats) -> None:
    for share in shares:
        if np.any((np.asarray(share) < 0) | (np.asarray(share) > 1)):
            raise ValueError("a share lies between 0 and 1")

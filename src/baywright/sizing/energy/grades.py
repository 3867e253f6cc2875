"""Efficiency grades of supplies: which row of the published table a curve reaches.

A comparison of numbers, not a certificate: a grade is given to a supply after a test in a
laboratory, and this reads the curve that the book states.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from baywright.sizing.equation import equation

LOWEST_VOLTAGE, HIGHEST_VOLTAGE = 200.0, 240.0
"""The line that the rows for 230 V are compared on, V: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Grade:
    """A row of the table.

    Args:
        name: its name.
        least: least efficiency by load, both as shares [1].
        power_factor: least power factor [1].
        at: load at which the power factor is taken [1].
    """

    name: str
    least: Mapping[float, float]
    power_factor: float
    at: float


GRADES = (
    Grade("Bronze", {0.2: 0.81, 0.5: 0.85, 1.0: 0.81}, 0.9, 0.5),
    Grade("Silver", {0.2: 0.85, 0.5: 0.89, 1.0: 0.85}, 0.9, 0.5),
    Grade("Gold", {0.2: 0.88, 0.5: 0.92, 1.0: 0.88}, 0.9, 0.5),
    Grade("Platinum", {0.2: 0.90, 0.5: 0.94, 1.0: 0.91}, 0.95, 0.5),
    Grade("Titanium", {0.1: 0.90, 0.2: 0.94, 0.5: 0.96, 1.0: 0.91}, 0.95, 0.2),
)
"""80 PLUS, 230 V internal redundant, lowest first. The efficiencies were read in a stored copy of
the table; the power factors are from memory and decide nothing here."""


@equation(
    "U12",
    "grade = highest row with eta(x) >= eta_row(x) at each of its loads",
    source="80 PLUS, table for 230 V internal redundant supplies",
    valid="curves that state the loads of the row; 200 to 240 V",
    outside="none where a load of the row is not stated",
)
def grade_reached(curve: Mapping[float, float]) -> str | None:
    """Return the highest grade whose efficiencies a curve reaches.

    Args:
        curve: efficiency by load, both as shares [1], at the points that are stated.

    Returns:
        Name of the grade, or ``None`` when it reaches none that its points can decide.

    >>> grade_reached({0.1: 0.90, 0.2: 0.94, 0.5: 0.96, 1.0: 0.91})
    'Titanium'
    """
    reached = [grade.name for grade in GRADES if reaches(curve, grade.least)]
    return reached[-1] if reached else None


def reaches(curve: Mapping[float, float], least: Mapping[float, float]) -> bool:
    """Say whether a curve states every load of a table and is at or above it there."""
    return all(load in curve and curve[load] >= wanted for load, wanted in least.items())

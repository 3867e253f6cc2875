"""The mass of each build, and where its centre lies."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from baywright.facts.model import Outline
from baywright.facts.parts import Part
from baywright.facts.places import PlaceBase
from baywright.sizing.amounts import amount
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats, Reals, equation, plain
from baywright.sizing.rack.balance import centre_of_mass


@dataclass(frozen=True)
class Weighed:
    """What builds weigh.

    Args:
        total: mass of each build [kg].
        centre: depth of its centre of mass behind the front [m].
        missing: paths of the facts that the mass still depends on.
        unplaced: paths of the facts that the centre depends on beside those.
    """

    total: Floats
    centre: Floats
    missing: tuple[str, ...]
    unplaced: tuple[str, ...]


@equation("R21", "m = m_empty + sum(n_i m_i)", source="a sum; the masses are those of the book")
def total_mass(empty: Floats, parts: Sequence[Floats]) -> Floats:
    """Return the mass of a machine with its parts.

    Args:
        empty: mass without parts [kg].
        parts: mass in each place [kg].

    Returns:
        Mass [kg].
    """
    return plain(sum(np.asarray(mass, np.float64) for mass in (empty, *parts)))


@equation(
    "R22",
    "x = (m_empty x_empty + sum(m_i x_i)) / m",
    source="statics, as R1; each part at the middle of its place",
    outside="a part in a place that is not drawn: not a number",
    estimate=True,
)
def centre_depth(
    empty: Floats, at: float, parts: Sequence[Floats], places: Sequence[float]
) -> Floats:
    """Return how far behind its front the centre of mass of a machine lies.

    Args:
        empty: mass without parts [kg].
        at: depth of the centre of that mass [m].
        parts: mass in each place [kg].
        places: depth of the middle of each place [m].

    Returns:
        Depth [m].
    """
    return centre_of_mass([empty, *parts], [at, *places])


def weighed(case: Case) -> Weighed:
    """Return what each build weighs, and where.

    A part counts with its mass at the middle of the outline of its place in the view from above,
    or else from the side; one that is drawn only from the front or the rear lies at that face.
    """
    chassis = case.book.chassis
    places = by_place(case)
    empty = np.full(case.size, amount(chassis.mass_empty, "kg"))
    at = amount(chassis.centre_depth, "m")
    depths = {name: _depth(case, case.book.places[name]) for name in places}
    parts = list(places.values())
    return Weighed(
        total_mass(empty, parts),
        centre_depth(empty, at, parts, list(depths.values())),
        _without_mass(case),
        (*(("chassis.centre_depth",) if math.isnan(at) else ()), *_unplaced(depths)),
    )


def by_place(case: Case) -> dict[str, Reals]:
    """Return the mass in each place [kg], of those places where some build has something."""
    masses = {name: case.weighed(_kilograms, (name,)) for name in case.book.places}
    return {name: mass for name, mass in masses.items() if mass.any()}


def _kilograms(name: str, part: Part) -> float:
    return amount(part.mass, "kg")


def _without_mass(case: Case) -> tuple[str, ...]:
    parts = case.book.parts
    return tuple(
        f"parts.{name}.mass" for name in case.fitted if math.isnan(_kilograms(name, parts[name]))
    )


def _unplaced(depths: Mapping[str, float]) -> tuple[str, ...]:
    return tuple(f"places.{name}.at" for name, depth in depths.items() if math.isnan(depth))


def _depth(case: Case, place: PlaceBase) -> float:
    """Return how far behind the front the middle of a place lies [m], if it is drawn."""
    for view in ("inside", "side"):
        outlines = [outline for outline in place.at if outline.view == view]
        if outlines:
            return float(np.mean([_middle(outline) for outline in outlines]))
    drawn = {outline.view for outline in place.at}
    if "front" in drawn:
        return 0.0
    return amount(case.book.chassis.depth, "m") if "rear" in drawn else math.nan


def _middle(outline: Outline) -> float:
    """Return the depth of the middle of an outline that shows depth [m]."""
    if outline.view == "side":
        return amount(outline.x, "m") + amount(outline.width, "m") / 2
    return amount(outline.y, "m") + amount(outline.height, "m") / 2

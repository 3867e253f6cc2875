"""The machine before it goes into a rack: its mass, the centre of it, its height and depth."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from baywright.sizing.amounts import shown
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Input, Limit, Sheet, Side
from baywright.sizing.rack.masses import Weighed, centre_depth, total_mass
from baywright.sizing.rack.packing import units_of
from baywright.sizing.rack.stated import Stated, missing_of, stated


@dataclass(frozen=True, slots=True)
class Mounted:
    """How a machine goes into a rack: on rails of its own, or in a tray with others.

    Args:
        units: rack units that it, or its tray, takes; not-a-number where it goes into none.
        beside: machines side by side in one tray.
        by: what the book says of it.
        missing: what would have to be stated.
    """

    units: float
    beside: int
    by: tuple[Stated, ...]
    missing: tuple[str, ...]

    @property
    def condition(self) -> str:
        """How it is mounted, in words."""
        return f"{self.beside} side by side in a tray" if self.beside > 1 else ""


def mounted(case: Case) -> Mounted:
    """Return how the machine of a book goes into a rack."""
    tray = stated(case, "chassis.tray_height", "m")
    if not tray.missing:
        beside = stated(case, "chassis.side_by_side", "", unless_given=1)
        return Mounted(units_of(tray.value), int(beside.value), (tray, beside), ())
    height, rails = (stated(case, f"chassis.{name}", "m") for name in ("height", "rails_from"))
    if rails.missing or height.missing:
        return Mounted(math.nan, 1, (height,), missing_of(height, rails))
    return Mounted(units_of(height.value), 1, (height,), ())


def sheet(case: Case, weighed: Weighed) -> Sheet:
    """Return what is said of each machine by itself and of the place that it takes."""
    limits = (_heaviest(case, weighed), _units(case), _depth(case), *_rails(case))
    return Sheet((_centre(case, weighed),), limits)


def mass_input(weighed: Weighed) -> Input:
    """Return the mass of the builds as an input of another figure."""
    return Input("mass", shown(weighed.total, "kg"))


def constant(case: Case, value: float) -> Reals:
    """Return a number that is the same for each build."""
    return np.full(case.size, value)


def _mass(case: Case, weighed: Weighed) -> Figure:
    empty = stated(case, "chassis.mass_empty", "kg")
    return Figure(
        "rack.mass",
        "mass of the machine",
        weighed.total,
        "kg",
        "with all its parts, without rails and cords",
        by=total_mass,
        inputs=empty.as_input("mass without parts"),
        missing=weighed.missing + empty.missing,
    )


def _centre(case: Case, weighed: Weighed) -> Figure:
    empty = stated(case, "chassis.centre_depth", "mm")
    return Figure(
        "rack.centre_depth",
        "centre of mass behind the front",
        np.multiply(weighed.centre, 1000.0),
        "mm",
        "each part at the middle of its place",
        by=centre_depth,
        inputs=(mass_input(weighed), *empty.as_input("centre of the mass without parts")),
        missing=weighed.missing + weighed.unplaced,
    )


def _heaviest(case: Case, weighed: Weighed) -> Limit:
    most = stated(case, "chassis.mass_most", "kg")
    return Limit(
        _mass(case, weighed),
        constant(case, most.value),
        "most",
        "The machine is heavier than the book says it can be; one of the masses is wrong.",
        legal=False,
        facts=most.facts,
    )


def _units(case: Case) -> Limit:
    how, runs, free = mounted(case), free_runs(case), stated(case, "site.rack.units", "")
    figure = Figure(
        "rack.units",
        "rack units of the machine, or its tray",
        constant(case, how.units),
        "U",
        how.condition,
        by=units_of,
        inputs=tuple(given for fact in how.by for given in fact.as_input(_word(fact.path))),
        missing=how.missing + (() if runs else free.missing),
    )
    breaks = "No free run of the rack is high enough for the machine."
    bound = constant(case, max(runs, default=math.nan))
    return Limit(figure, bound, "most", breaks, legal=False, facts=free.facts)


def _word(path: str) -> str:
    return path.rsplit(".", maxsplit=1)[-1].replace("_", " ")


def free_runs(case: Case) -> list[int]:
    """Return the free runs of the rack [U]: all its free units are one unless runs are given."""
    rack = case.site.rack
    if rack is None:
        return []
    units = [rack.units] if rack.units else []
    return [run.value for run in rack.runs or units if run.value is not None]


def _depth(case: Case) -> Limit:
    depth = stated(case, "chassis.depth", "mm")
    free = stated(case, "site.rack.depth_free", "mm")
    figure = Figure(
        "rack.depth",
        "depth of the machine",
        constant(case, depth.value),
        "mm",
        "body only; cords and bends need more",
        inputs=depth.as_input("depth"),
        missing=missing_of(depth, free),
    )
    breaks = "The machine stands out past the free depth, and the door does not close."
    return Limit(figure, constant(case, free.value), "most", breaks, legal=False, facts=free.facts)


def _rails(case: Case) -> tuple[Limit, ...]:
    """Return the two ends of the reach of the rails; a tray has none of the machine's own."""
    if case.book.chassis.tray_height:
        return ()
    return (
        _reach(case, "rails_from", "least", "The rails are too long for the rack."),
        _reach(case, "rails_to", "most", "The rails do not reach the rear posts of the rack."),
    )


def _reach(case: Case, name: str, side: Side, breaks: str) -> Limit:
    rails = stated(case, "site.rack.rails", "mm")
    reach = stated(case, f"chassis.{name}", "mm")
    figure = Figure(
        f"rack.{name}",
        f"distance of front and rear rails, at {side} the reach of the machine's",
        constant(case, rails.value),
        "mm",
        inputs=rails.as_input("distance of front and rear rails"),
        missing=missing_of(rails, reach),
    )
    bound = constant(case, reach.value)
    return Limit(figure, bound, side, breaks, legal=False, facts=reach.facts)

"""The rack with the machine in it: whether it tips, and what its floor bears."""

from __future__ import annotations

import math

import numpy as np

from baywright.sizing.amounts import shown
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Input, Limit, Sheet
from baywright.sizing.rack.balance import (
    centre_of_mass,
    floor_load,
    righting_moment,
    tilt_angle,
    tip_factor,
    tipping_moment,
)
from baywright.sizing.rack.machine import constant, mass_input
from baywright.sizing.rack.masses import Weighed
from baywright.sizing.rack.stated import Stated, facts_of, missing_of, stated

_OUT = "this machine alone pulled out, nobody leaning on it"


def sheet(case: Case, weighed: Weighed) -> Sheet:
    """Return what is said of a rack that takes one such machine."""
    height = _centre_height(case, weighed)
    figures = (_tip_factor(case, weighed), height, _tilt(case, height))
    return Sheet(figures, (_tipping(case, weighed), _load(case, weighed), _floor(case, weighed)))


def _travel(case: Case) -> Stated:
    """Return how far the slides let the machine out [m]: its depth unless given."""
    travel = stated(case, "chassis.slide_travel", "m")
    return stated(case, "chassis.depth", "m") if travel.missing else travel


def _tips(case: Case, weighed: Weighed) -> Floats:
    setback = stated(case, "site.rack.setback", "m")
    return tipping_moment(weighed.total, _travel(case).value, weighed.centre, setback.value)


def _rights(case: Case) -> float:
    mass, depth = _standing(case)
    return float(righting_moment(mass.value, depth.value))


def _standing(case: Case) -> tuple[Stated, Stated]:
    mass = stated(case, "site.rack.mass_empty", "kg")
    return mass, stated(case, "site.rack.centre_depth", "m")


def _tip_missing(case: Case, weighed: Weighed) -> tuple[str, ...]:
    setback = stated(case, "site.rack.setback", "m")
    stands = missing_of(setback, _travel(case), *_standing(case))
    return weighed.missing + weighed.unplaced + stands


def _tipping(case: Case, weighed: Weighed) -> Limit:
    wanted = stated(case, "site.rack.tip_factor", "", unless_given=1.0)
    figure = Figure(
        "rack.tipping",
        "moment about the front feet",
        _tips(case, weighed),
        "N·m",
        _OUT,
        by=tipping_moment,
        inputs=(
            mass_input(weighed),
            Input("centre of mass behind the front", shown(weighed.centre, "m")),
            *_travel(case).as_input("travel of the slides"),
            *stated(case, "site.rack.setback", "m").as_input("rails behind the front feet"),
        ),
        missing=_tip_missing(case, weighed),
    )
    return Limit(
        figure,
        constant(case, _rights(case) / wanted.value if wanted.value else math.nan),
        "most",
        "The rack is kept down less firmly than asked when the machine is pulled out; "
        "past its own righting moment it falls forward.",
        legal=False,
        facts=facts_of(wanted, *_standing(case)),
    )


def _tip_factor(case: Case, weighed: Weighed) -> Figure:
    mass, depth = _standing(case)
    return Figure(
        "rack.tip_factor",
        "righting moment over tipping moment",
        tip_factor(_rights(case), _tips(case, weighed)),
        "",
        _OUT,
        by=tip_factor,
        inputs=(*mass.as_input("mass of the rack"), *depth.as_input("centre behind the feet")),
        missing=_tip_missing(case, weighed),
    )


def _load(case: Case, weighed: Weighed) -> Limit:
    most = stated(case, "site.rack.mass_most", "kg")
    figure = Figure(
        "rack.load",
        "mass that the rack takes on",
        weighed.total,
        "kg",
        "one machine",
        inputs=(mass_input(weighed),),
        missing=weighed.missing + most.missing,
    )
    breaks = "The rack carries more than it is made for."
    return Limit(figure, constant(case, most.value), "most", breaks, legal=False, facts=most.facts)


def _floor(case: Case, weighed: Weighed) -> Limit:
    feet = [stated(case, f"site.rack.{name}", "m") for name in ("width", "depth")]
    rack = stated(case, "site.rack.mass_empty", "kg")
    most = stated(case, "site.rack.floor_most", "kg")
    figure = Figure(
        "rack.floor_load",
        "mass on each square metre of floor",
        floor_load(np.add(weighed.total, rack.value), feet[0].value, feet[1].value),
        "kg/m²",
        "rack with one machine, spread over its outline",
        by=floor_load,
        inputs=(mass_input(weighed), *rack.as_input("mass of the rack")),
        missing=weighed.missing + missing_of(rack, most, *feet),
    )
    breaks = "The floor bears more than it is made for."
    return Limit(figure, constant(case, most.value), "most", breaks, legal=False, facts=most.facts)


def _centre_height(case: Case, weighed: Weighed) -> Figure:
    rack = stated(case, "site.rack.mass_empty", "kg")
    centre = stated(case, "site.rack.centre_height", "mm")
    under = stated(case, "site.rack.mounted_at", "mm")
    height = stated(case, "chassis.height", "mm")
    return Figure(
        "rack.centre_height",
        "height of the centre of mass of the rack",
        centre_of_mass(
            [constant(case, rack.value), weighed.total],
            [centre.value, under.value + height.value / 2],
        ),
        "mm",
        "rack with one machine, its mass at half its height",
        by=centre_of_mass,
        inputs=(
            mass_input(weighed),
            *rack.as_input("mass of the rack"),
            *centre.as_input("height of its centre"),
            *under.as_input("underside of the machine"),
        ),
        missing=weighed.missing + missing_of(rack, centre, under, height),
    )


def _tilt(case: Case, height: Figure) -> Figure:
    width = stated(case, "site.rack.width", "mm")
    return Figure(
        "rack.tilt",
        "angle at which the rack falls sideways",
        tilt_angle(width.value, height.values),
        "°",
        height.condition,
        by=tilt_angle,
        inputs=width.as_input("width of its feet"),
        missing=height.missing + width.missing,
    )

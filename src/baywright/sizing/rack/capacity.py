"""How many of each build fit into the rack, and which resource says so."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from baywright.sizing.amounts import conditions, shown
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats, equation, plain
from baywright.sizing.figure import Figure, Input, Listing, Sheet
from baywright.sizing.power.circuits import hosts_on_feed
from baywright.sizing.power.flow import flow
from baywright.sizing.power.scene import ABOVE, NO_FEEDS, TAKEN, Scene
from baywright.sizing.rack.machine import constant, free_runs, mounted
from baywright.sizing.rack.masses import Weighed
from baywright.sizing.rack.packing import machines_by_space, machines_by_total
from baywright.sizing.rack.stated import missing_of, stated


@dataclass(frozen=True, slots=True)
class Resource:
    """Something of the rack or the room that machines share.

    Args:
        key: its word in the keys of figures.
        name: what it is, a few words.
        there: how much of it there is, with its unit.
        machines: how many machines it bears.
        asked: whether the site says anything of it.
        by: the function that counted.
        missing: what the number depends on.
    """

    key: str
    name: str
    there: str
    machines: Floats
    asked: bool
    by: Callable[..., Any]
    missing: tuple[str, ...]


@equation("R23", "n = min over the resources stated", source="counting")
def least_of(counts: tuple[Floats, ...]) -> Floats:
    """Return how many machines every resource bears.

    Args:
        counts: machines that each resource bears; not-a-number where that is not decided.

    Returns:
        The least; not-a-number where one is not decided, or there is none.
    """
    least: Floats = math.inf if counts else math.nan
    for count in counts:
        least = np.minimum(least, count)
    return plain(least)


def sheet(case: Case, scene: Scene, weighed: Weighed) -> Sheet:
    """Return how many machines each resource bears, and all of them together."""
    found = resources(case, scene, weighed)
    return Sheet((*(_figure(case, resource) for resource in found), _together(case, found)))


def listings(case: Case, scene: Scene, weighed: Weighed) -> tuple[Listing, ...]:
    """Return the resources beside each other, for the first build, with the one that binds."""
    found = [each for each in resources(case, scene, weighed) if each.asked]
    if not found:
        return ()
    least = _first(least_of(tuple(resource.machines for resource in found)))
    rows = tuple(
        (resource.name, resource.there, _count(resource), _binds(resource, least))
        for resource in found
    )
    header = ("resource", "there is", "machines", "binds")
    note = "All machines alike. What the site leaves out is not taken into account."
    return (Listing("rack.capacity", "Machines in the rack", header, rows, note, by=least_of),)


def resources(case: Case, scene: Scene, weighed: Weighed) -> tuple[Resource, ...]:
    """Return what machines share: space, mass, floor, feeds and the heat of the room."""
    return (
        _space(case),
        _mass(case, weighed),
        _floor(case, weighed),
        _feeds(case, scene),
        _heat(case, scene),
    )


def _space(case: Case) -> Resource:
    how, runs = mounted(case), free_runs(case)
    decided = bool(runs) and not how.missing
    count = machines_by_space(runs, int(how.units), how.beside) if decided else math.nan
    return Resource(
        "space",
        "rack units",
        " + ".join(f"{run} U" for run in runs),
        constant(case, count),
        bool(runs),
        machines_by_space,
        how.missing + (() if runs else ("site.rack.units",)),
    )


def _mass(case: Case, weighed: Weighed) -> Resource:
    most = stated(case, "site.rack.mass_most", "kg")
    return Resource(
        "mass",
        "mass on the rack",
        shown(most.value, "kg"),
        machines_by_total(most.value, weighed.total),
        not most.missing,
        machines_by_total,
        weighed.missing + most.missing,
    )


def _floor(case: Case, weighed: Weighed) -> Resource:
    most = stated(case, "site.rack.floor_most", "kg")
    feet = [stated(case, f"site.rack.{name}", "m") for name in ("width", "depth")]
    rack = stated(case, "site.rack.mass_empty", "kg")
    left = most.value * feet[0].value * feet[1].value - rack.value
    return Resource(
        "floor",
        "mass on the floor",
        shown(left, "kg"),
        machines_by_total(left, weighed.total),
        not most.missing,
        machines_by_total,
        weighed.missing + missing_of(most, rack, *feet),
    )


def _feeds(case: Case, scene: Scene) -> Resource:
    """Count the machines that the feeds carry once the worst of them is lost."""
    counts = tuple(
        hosts_on_feed(circuit.usable, circuit.lost, circuit.phases) for circuit in scene.circuits
    )
    lacks = tuple(path for circuit in scene.circuits for path in circuit.missing)
    usable = (f"{circuit.name}: {shown(circuit.usable, 'A')}" for circuit in scene.circuits)
    return Resource(
        "feeds",
        "feeds when one is lost",
        ", ".join(usable),
        least_of(counts),
        bool(case.site.feeds),
        hosts_on_feed,
        scene.unknown + scene.bays.lacking(*TAKEN) + (lacks if scene.circuits else NO_FEEDS),
    )


def _heat(case: Case, scene: Scene) -> Resource:
    most = stated(case, "site.room.heat_most", "W")
    other = stated(case, "site.room.heat_other", "W", unless_given=0.0)
    left = most.value - other.value
    return Resource(
        "heat",
        "heat of the room",
        shown(left, "W"),
        machines_by_total(left, heat_of_one(scene)),
        not most.missing,
        machines_by_total,
        heat_missing(scene) + most.missing,
    )


def heat_of_one(scene: Scene) -> Floats:
    """Return what one machine takes in at its peak [W]: all of it becomes heat in the room."""
    return flow(scene.bays, scene.load).watts


def heat_missing(scene: Scene) -> tuple[str, ...]:
    """Return what the heat of one machine depends on, where it is not decided."""
    return scene.unknown + scene.bays.lacking("efficiency")


def _figure(case: Case, resource: Resource) -> Figure:
    return Figure(
        f"rack.machines.{resource.key}",
        f"machines by {resource.name}",
        resource.machines,
        "",
        conditions(case, "at peak") if resource.key in ("feeds", "heat") else "",
        by=resource.by,
        inputs=(Input(resource.name, resource.there),) if resource.asked else (),
        missing=resource.missing,
        outside=ABOVE if resource.key in ("feeds", "heat") else "",
    )


def _together(case: Case, found: tuple[Resource, ...]) -> Figure:
    asked = [resource for resource in found if resource.asked]
    return Figure(
        "rack.machines",
        "machines that fit",
        np.add(least_of(tuple(r.machines for r in asked)), constant(case, 0.0)),
        "",
        conditions(case, "at peak", f"by {', '.join(r.name for r in asked) or 'nothing stated'}"),
        by=least_of,
        inputs=tuple(Input(r.name, r.there) for r in asked),
        missing=tuple(dict.fromkeys(path for r in asked or found for path in r.missing)),
        outside=ABOVE,
    )


def _first(values: Floats) -> float:
    return float(np.ravel(values)[0])


def _count(resource: Resource) -> str:
    count = _first(resource.machines)
    return (
        f"not decided: depends on {', '.join(resource.missing)}"
        if math.isnan(count)
        else f"{count:g}"
    )


def _binds(resource: Resource, least: float) -> str:
    return "yes" if _first(resource.machines) == least else ""

"""Rack and room: what the machine weighs, how many fit, what tips, and what the room takes."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.sizing.case import Case
from baywright.sizing.figure import Listing, Sheet
from baywright.sizing.power.scene import Scene
from baywright.sizing.rack import capacity, handling, machine, standing, warmth
from baywright.sizing.rack.masses import weighed
from baywright.sizing.subject import Subject


def sheet(case: Case) -> Sheet:
    """Return the figures and limits of rack and room."""
    mass, scene = weighed(case), Scene(case)
    found = (
        machine.sheet(case, mass),
        standing.sheet(case, mass),
        handling.sheet(case, mass),
        capacity.sheet(case, scene, mass),
        warmth.sheet(case, scene),
    )
    return Sheet(
        tuple(figure for part in found for figure in part.figures),
        tuple(limit for part in found for limit in part.limits),
        tuple(dict.fromkeys(caution for part in found for caution in part.cautions)),
    )


def listings(case: Case) -> Iterable[Listing]:
    """Yield the tables of rack and room about one build."""
    mass = weighed(case)
    yield from capacity.listings(case, Scene(case), mass)
    yield from handling.listings(case, mass)


SUBJECT = Subject("rack", "Rack and room", sheet, listings)

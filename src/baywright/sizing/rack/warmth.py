"""The room: the heat of the machines in it, and the air that carries it away."""

from __future__ import annotations

import numpy as np

from baywright.sizing.air.flow import flow_needed
from baywright.sizing.amounts import conditions, shown
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Input, Limit, Sheet
from baywright.sizing.power.intake import heat_by_hour
from baywright.sizing.power.scene import ABOVE, Scene
from baywright.sizing.rack.capacity import heat_missing, heat_of_one
from baywright.sizing.rack.machine import constant
from baywright.sizing.rack.room import air_changes, room_heat
from baywright.sizing.rack.stated import missing_of, stated


def sheet(case: Case, scene: Scene) -> Sheet:
    """Return what the machines give to their room, and what the room bears."""
    heat = _heat(case, scene)
    flow = _flow(case, heat)
    return Sheet((_by_hour(heat), flow, _changes(case, flow)), (_most(case, heat),))


def _heat(case: Case, scene: Scene) -> Figure:
    count = stated(case, "site.room.machines", "", unless_given=1.0)
    other = stated(case, "site.room.heat_other", "W", unless_given=0.0)
    one = heat_of_one(scene)
    words = f"{count.value:g} of this build" + (" and all else" if other.value else "")
    return Figure(
        "rack.room_heat",
        "heat given to the room",
        room_heat(count.value, one, other.value),
        "W",
        conditions(case, "at peak", words),
        by=room_heat,
        inputs=(
            Input("heat of one", shown(one, "W")),
            *count.as_input("machines"),
            *other.as_input("heat of all else"),
        ),
        missing=heat_missing(scene),
        outside=ABOVE,
    )


def _by_hour(heat: Figure) -> Figure:
    return Figure(
        "rack.room_heat_by_hour",
        "heat given to the room, by hour",
        heat_by_hour(heat.values),
        "BTU/h",
        heat.condition,
        by=heat_by_hour,
        inputs=heat.inputs,
        missing=heat.missing,
        outside=heat.outside,
    )


def _most(case: Case, heat: Figure) -> Limit:
    most = stated(case, "site.room.heat_most", "W")
    figure = Figure(
        heat.key,
        heat.name,
        heat.values,
        heat.unit,
        heat.condition,
        heat.by,
        heat.inputs,
        heat.missing + most.missing,
        heat.outside,
    )
    breaks = "The room cannot carry the heat away, and the air that is taken in grows warmer."
    return Limit(figure, constant(case, most.value), "most", breaks, legal=False, facts=most.facts)


def _flow(case: Case, heat: Figure) -> Figure:
    rise = stated(case, "site.room.rise", "K")
    return Figure(
        "rack.room_flow",
        "air that the room needs",
        np.multiply(flow_needed(heat.values, rise.value, case.around.altitude), 3600.0),
        "m³/h",
        heat.condition,
        by=flow_needed,
        inputs=(Input(heat.name, shown(heat.values, "W")), *rise.as_input("rise of its air")),
        missing=heat.missing + rise.missing,
        outside=f"{heat.outside} Or the altitude is outside the standard atmosphere.",
    )


def _changes(case: Case, flow: Figure) -> Figure:
    volume = stated(case, "site.room.volume", "m³")
    by_second: Floats = np.divide(flow.values, 3600.0)
    return Figure(
        "rack.air_changes",
        "air changes of the room in an hour",
        air_changes(by_second, volume.value),
        "1/h",
        flow.condition,
        by=air_changes,
        inputs=(Input(flow.name, shown(flow.values, "m³/h")), *volume.as_input("volume")),
        missing=flow.missing + missing_of(volume),
        outside=flow.outside,
    )

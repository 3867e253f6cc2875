"""Tables about the air and noise of one build."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from baywright.facts.sections import InletLimit
from baywright.sizing.air.atmosphere import density
from baywright.sizing.air.curves import operating_point
from baywright.sizing.air.fans import speed_for
from baywright.sizing.air.flow import CFM, heat_carried, outlet_temperature
from baywright.sizing.air.inlet import (
    CLASSES,
    RECOMMENDED,
    EnvironmentalClass,
    derated,
    highest_for_inlet,
)
from baywright.sizing.air.noise import FREE_FIELD, at_distance, at_speed
from baywright.sizing.air.noise_levels import full_level, idle_level, room_level
from baywright.sizing.air.operating import lacks_curves, operating
from baywright.sizing.air.stream import Stream
from baywright.sizing.amounts import amount
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Listing

ALTITUDES = (0.0, 500.0, 1000.0, 1500.0, 2000.0, 2500.0, 3000.0)
"""Rows of the table by altitude beside that of the site, m."""

MACHINES = (1, 2, 4, 10, 20)
DISTANCES = (1.0, 2.0, 4.0, 8.0)
"""Columns of the table of a room, m in front."""

ESTIMATE = "Estimates by the fan laws; measure before you promise a number."


def listings(case: Case) -> Iterator[Listing]:
    """Yield the tables about one build: states, inlet limits, classes, altitudes, noise."""
    stream = Stream(case)
    yield _states(stream)
    if not lacks_curves(stream):
        yield _operating(stream)
    yield _inlet_limits(stream)
    yield _classes(stream)
    yield _altitudes(stream)
    yield _room(stream)


def told(value: Floats, places: int = 0) -> str:
    """Write the number of the one build, or that it is not decided."""
    number = float(np.ravel(value)[0])
    return "not decided" if math.isnan(number) else f"{number:,.{places}f}"


def _states(stream: Stream) -> Listing:
    header = ("state", "speed, %", "flow, CFM", "rise, K", "blown out, °C", "noise, dB(A)")
    all_fans, failed = stream.flow, stream.flow_failed
    return Listing(
        "air.states",
        "Fans by state",
        header,
        (
            _state(stream, "all fans at full speed", all_fans, 1.0),
            _state(stream, "all fans at the speed needed", all_fans, stream.speed),
            _state(stream, "one failed, the others at full speed", failed, 1.0),
            _state(
                stream, "one failed, the others at the speed needed", failed, stream.speed_failed
            ),
        ),
        f"At the peak draw. {ESTIMATE}",
        by=speed_for,
    )


def _state(stream: Stream, name: str, full_flow: Floats, speed: Floats) -> tuple[str, ...]:
    reached = bool(np.ravel(speed)[0] <= 1)
    flow = full_flow * (speed if reached else math.nan)
    rise = stream.allowed_rise * stream.needed / np.where(flow > 0, flow, math.nan)
    share = told(100 * np.asarray(speed))
    return (
        name,
        share if reached or share == "not decided" else f"{share}: more than there is",
        told(flow / CFM),
        told(rise, 1),
        told(outlet_temperature(stream.inlet, rise), 1),
        told(at_speed(full_level(stream), speed, idle_level(stream)), 1),
    )


def _operating(stream: Stream) -> Listing:
    most = round(float(stream.case.counted("fan")[0]))
    points = ((failed, operating(stream, failed=failed)) for failed in range(min(3, most)))
    rows = ((str(failed), told(point.flow / CFM), told(point.pressure)) for failed, point in points)
    return Listing(
        "air.operating",
        "Operating points by the fan curves",
        ("fans of each set failed", "flow, CFM", "pressure in air of 1.2 kg/m³, Pa"),
        tuple(rows),
        "Straight lines between the points of the curves; no flow back through a failed fan.",
        by=operating_point,
    )


def _inlet_limits(stream: Stream) -> Listing:
    entries = stream.air.inlet_limits
    applies = int(stream.case.first_that_holds(entry.when for entry in entries)[0])
    rows = (
        _inlet_row(stream, entry, here=position == applies)
        for position, entry in enumerate(entries)
    )
    return Listing(
        "air.inlet_limits",
        "Inlet limits by build",
        (
            "holds for",
            "at low altitude, °C",
            "at the site, °C",
            "inlet held up to, m",
            "this build",
        ),
        tuple(rows),
        "The first line that applies counts.",
        by=derated,
    )


def _inlet_row(stream: Stream, entry: InletLimit, *, here: bool) -> tuple[str, ...]:
    limit = amount(entry.limit, "°C")
    return (
        stream.case.frame.say(entry.when) if entry.when else "every other build",
        told(limit, 1),
        told(derated(limit, *stream.fall, stream.altitude), 1),
        told(highest_for_inlet(limit, *stream.fall, stream.inlet)),
        "yes" if here else "",
    )


def _classes(stream: Stream) -> Listing:
    low, high = RECOMMENDED
    return Listing(
        "air.classes",
        "Equipment classes for air",
        (
            "class",
            "allowed, °C",
            "at the site up to, °C",
            "dew point up to, °C",
            "the build bears it",
        ),
        tuple(_class_row(stream, each) for each in CLASSES),
        f"Recommended for all: {low:g} to {high:g} °C. Classes of ASHRAE TC 9.9, 2021; that their "
        "limits fall from 900 m on is from memory. Only the highest temperature is compared.",
        by=derated,
    )


def _class_row(stream: Stream, each: EnvironmentalClass) -> tuple[str, ...]:
    high = each.high_at(stream.altitude)
    bears = np.ravel(stream.limit)[0] >= np.ravel(high)[0]
    known = not np.isnan(np.ravel(stream.limit)[0])
    return (
        each.name,
        f"{each.low:g} to {each.high:g}",
        told(high, 1),
        f"{each.dew_point:g}",
        ("yes" if bears else "no") if known else "not decided",
    )


def _altitudes(stream: Stream) -> Listing:
    here = float(np.ravel(stream.altitude)[0])
    rows = (_altitude_row(stream, height) for height in sorted({*ALTITUDES, here}))
    return Listing(
        "air.altitudes",
        "Air by altitude",
        ("altitude, m", "density, kg/m³", "all fans carry, W", "one fewer carries, W", "inlet, °C"),
        tuple(rows),
        f"The build draws {told(stream.heat)} W at its peak, DC.",
        by=heat_carried,
    )


def _altitude_row(stream: Stream, altitude: float) -> tuple[str, ...]:
    rise = stream.allowed_rise
    return (
        told(altitude),
        told(density(altitude), 4),
        told(heat_carried(stream.flow, rise, altitude)),
        told(heat_carried(stream.flow_failed, rise, altitude)),
        told(derated(stream.low_limit, *stream.fall, altitude), 1),
    )


def _room(stream: Stream) -> Listing:
    full = full_level(stream)
    rows = (
        (str(count), *(told(room_level(stream, full, far, count), 1) for far in DISTANCES))
        for count in MACHINES
    )
    room = stream.case.site.room
    there = f" {room.noise_there.text} is there without them." if room and room.noise_there else ""
    return Listing(
        "air.noise_rooms",
        "Noise of several machines at full speed, dB(A)",
        ("machines", *(f"{far:g} m in front" for far in DISTANCES)),
        tuple(rows),
        f"An estimate for a {FREE_FIELD}; a room is louder.{there}",
        by=at_distance,
    )

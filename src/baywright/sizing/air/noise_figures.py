"""Figures of noise: of one machine by state, and of all machines at the place that matters."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from baywright.facts.site import Room
from baywright.sizing.air.noise import FREE_FIELD, at_distance, at_speed, summed
from baywright.sizing.air.noise_levels import (
    full_level,
    idle_level,
    needed_level,
    room_level,
    stated_at,
)
from baywright.sizing.air.saying import at_site
from baywright.sizing.air.stream import Stream
from baywright.sizing.amounts import amount
from baywright.sizing.figure import Figure, Input


def noise_figures(stream: Stream) -> Iterator[Figure]:
    """Yield the noise of one machine idle, at the speed needed and at full speed, and of all."""
    yield _idle(stream)
    yield _needed(stream)
    yield _full(stream)
    yield room_noise(stream)


def _idle(stream: Stream) -> Figure:
    return Figure(
        "air.noise_idle",
        "noise at idle",
        idle_level(stream),
        "dB(A)",
        _front(stream),
        inputs=_inputs(stream),
        missing=stream.lacks("noise_idle"),
    )


def _needed(stream: Stream) -> Figure:
    return Figure(
        "air.noise_needed",
        "noise at the speed needed",
        needed_level(stream),
        "dB(A)",
        at_site(stream, _front(stream)),
        by=at_speed,
        inputs=_inputs(stream),
        missing=_lacks_full(stream) + stream.lacks("noise_idle") + stream.lacks_flow(),
        outside="full speed is not enough",
    )


def _full(stream: Stream) -> Figure:
    return Figure(
        "air.noise_full",
        "noise at full speed",
        full_level(stream),
        "dB(A)",
        _front(stream),
        by=summed if stream.air.noise_full is None else None,
        inputs=_inputs(stream),
        missing=_lacks_full(stream),
    )


def room_noise(stream: Stream) -> Figure:
    """Return the noise of all machines of the room at full speed, with what else is there."""
    room = stream.case.site.room or Room()
    here = stated_at(stream)
    distance = here if room.noise_distance is None else amount(room.noise_distance, "m")
    count = room.machines.value if room.machines and room.machines.value else 1
    machines = f"{count} machines" if count > 1 else "one machine"
    there = f", {room.noise_there.text} there without them" if room.noise_there else ""
    return Figure(
        "air.noise_room",
        "noise in the room at full speed",
        room_level(stream, full_level(stream), distance, count),
        "dB(A)",
        f"{machines}, {distance:g} m in front{there}; {FREE_FIELD}",
        by=at_distance,
        inputs=_inputs(stream),
        missing=_lacks_full(stream),
    )


def _front(stream: Stream) -> str:
    return f"{stated_at(stream):g} m in front"


def _lacks_full(stream: Stream) -> tuple[str, ...]:
    undecided = bool(np.isnan(full_level(stream)).any())
    return ("air.noise_full",) if undecided else ()


def _inputs(stream: Stream) -> tuple[Input, ...]:
    stated = (("idle", stream.air.noise_idle), ("full speed", stream.air.noise_full))
    return tuple(
        Input(f"noise at {name}", fact.text, stream.case.cite(fact))
        for name, fact in stated
        if fact is not None
    )

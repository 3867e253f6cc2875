"""Levels of noise of the builds: by state, of their fans, and of a room of machines."""

from __future__ import annotations

import math

import numpy as np

from baywright.facts.parts import Fan
from baywright.facts.places import Fans
from baywright.laws.frame import Option
from baywright.sizing.air.noise import at_distance, at_speed, of_equal_sources, summed
from baywright.sizing.air.stream import Stream
from baywright.sizing.amounts import amount
from baywright.sizing.equation import Floats, Reals

USUAL_DISTANCE = 1.0
"""Distance in front at which a book states noise unless it says another, m."""


def stated_at(stream: Stream) -> float:
    """Return the distance in front at which the book states noise [m]."""
    distance = stream.air.noise_distance
    return USUAL_DISTANCE if distance is None else amount(distance, "m")


def idle_level(stream: Stream) -> Reals:
    """Return the level of each build at idle, at the distance of the book [dB(A)]."""
    return np.full(stream.case.size, amount(stream.air.noise_idle, "dB(A)"))


def full_level(stream: Stream) -> Reals:
    """Return the level of each build at full speed [dB(A)].

    As the book states it for the machine, and otherwise the sum of its fans.
    """
    if stream.air.noise_full is not None:
        return np.full(stream.case.size, amount(stream.air.noise_full, "dB(A)"))
    sets = [
        stream.case.looked_up(name, lambda option: _of_fans(stream, option))
        for name in stream.book.places_of(Fans)
    ]
    return np.asarray(summed(*sets)) if sets else np.full(stream.case.size, math.nan)


def _of_fans(stream: Stream, option: Option) -> float:
    levels = [
        of_equal_sources(amount(part.noise, "dB(A)"), count)
        for _, part, count in stream.case.frame.parts_in(option)
        if isinstance(part, Fan)
    ]
    return float(summed(*levels)) if levels else -math.inf


def needed_level(stream: Stream) -> Floats:
    """Return the level of each build at the speed it needs [dB(A)]."""
    return at_speed(full_level(stream), stream.speed, idle_level(stream))


def room_level(stream: Stream, level: Floats, distance: float, count: float) -> Floats:
    """Return the level of several machines at a distance, with what else sounds there.

    Args:
        stream: the air through the builds.
        level: level of one machine at the distance of the book [dB(A)].
        distance: distance in front [m], taken as the same for every machine: the loud side.
        count: machines.
    """
    machines = at_distance(of_equal_sources(level, count), stated_at(stream), distance)
    room = stream.case.site.room
    if room is None or room.noise_there is None:
        return machines
    return summed(machines, amount(room.noise_there, "dB(A)"))

"""Figures of altitude: the inlet limit at the site, and how high a build holds."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from baywright.sizing.air.flow import highest_altitude
from baywright.sizing.air.inlet import derated, highest_for_inlet
from baywright.sizing.air.saying import (
    NEVER,
    lacks_stream,
    limit_inputs,
    one_failed,
    peak,
    said,
    stream_inputs,
    with_inlet,
)
from baywright.sizing.air.stream import Stream
from baywright.sizing.amounts import amount
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure


def altitude_figures(stream: Stream) -> Iterator[Figure]:
    """Yield the inlet limit, and the altitudes for all fans, one failed, the inlet, and all."""
    yield _inlet_limit(stream)
    yield _for_all_fans(stream)
    yield _for_one_failed(stream)
    yield _for_the_inlet(stream)
    yield _highest(stream)


def _inlet_limit(stream: Stream) -> Figure:
    return Figure(
        "air.inlet_limit",
        "inlet limit at the site",
        stream.limit,
        "°C",
        said(stream.altitude, "m"),
        by=derated,
        inputs=limit_inputs(stream),
        missing=stream.lacks_limit(),
    )


def _for_all_fans(stream: Stream) -> Figure:
    return Figure(
        "air.altitude_fans",
        "highest altitude for all fans",
        highest_altitude(stream.heat, stream.flow, stream.allowed_rise),
        "m",
        peak(stream),
        by=highest_altitude,
        inputs=stream_inputs(stream)[:3],
        missing=lacks_stream(stream),
        outside=NEVER,
    )


def _for_one_failed(stream: Stream) -> Figure:
    return Figure(
        "air.altitude_failed",
        "highest altitude with one fan failed",
        highest_altitude(stream.heat, stream.flow_failed, stream.allowed_rise),
        "m",
        f"{one_failed(stream)}, {peak(stream)}",
        by=highest_altitude,
        inputs=stream_inputs(stream)[:3],
        missing=lacks_stream(stream),
        outside=NEVER,
    )


def _for_the_inlet(stream: Stream) -> Figure:
    return Figure(
        "air.altitude_inlet",
        "highest altitude for the inlet",
        highest_for_inlet(stream.low_limit, *stream.fall, stream.inlet),
        "m",
        with_inlet(stream),
        by=highest_for_inlet,
        inputs=limit_inputs(stream),
        missing=stream.lacks_limit() + stream.lacks_inlet(),
        outside="the inlet is above the limit at every altitude",
    )


def _highest(stream: Stream) -> Figure:
    """The altitude up to which a build is legal, by all that the site and the book say."""
    asked = not stream.lacks_inlet()
    return Figure(
        "air.altitude_most",
        "highest altitude",
        _least(stream, inlet_counts=asked),
        "m",
        f"{peak(stream)}, {with_inlet(stream) if asked else 'whatever the inlet'}",
        by=highest_altitude,
        inputs=(*stream_inputs(stream)[:3], *limit_inputs(stream)),
        missing=lacks_stream(stream) + (stream.lacks_limit() if asked else ()),
        outside=NEVER,
    )


def _least(stream: Stream, *, inlet_counts: bool) -> Floats:
    highest = highest_altitude(stream.heat, stream.flow, stream.allowed_rise)
    if inlet_counts:
        inlet = highest_for_inlet(stream.low_limit, *stream.fall, stream.inlet)
        highest = np.minimum(highest, inlet)
    up_to = amount(stream.air.derating.up_to, "m")
    return highest if np.isnan(up_to) else np.minimum(highest, up_to)

"""Figures of flow: what the fans give, what is needed, and at what speed and draw."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.sizing.air.atmosphere import density
from baywright.sizing.air.fans import power_at, speed_for
from baywright.sizing.air.flow import CFM, flow_needed
from baywright.sizing.air.saying import (
    LAYER,
    at_site,
    fan_inputs,
    lacks_stream,
    one_failed,
    said,
    stream_inputs,
)
from baywright.sizing.air.stream import Stream
from baywright.sizing.figure import Figure


def flow_figures(stream: Stream) -> Iterator[Figure]:
    """Yield density, flow, flow needed, and the speed and draw of the fans for it."""
    yield _density(stream)
    yield _flow(stream)
    yield _flow_needed(stream)
    yield _speed(stream)
    yield _speed_failed(stream)
    yield _fan_power(stream)


def _density(stream: Stream) -> Figure:
    values, where = density(stream.altitude), said(stream.altitude, "m")
    name = "density of the standard atmosphere"
    return Figure("air.density", name, values, "kg/m³", where, by=density, outside=LAYER)


def _flow(stream: Stream) -> Figure:
    return Figure(
        "air.flow",
        "flow of all fans",
        stream.flow / CFM,
        "CFM",
        "full speed",
        inputs=fan_inputs(stream)[:1],
        missing=stream.lacks_flow(),
    )


def _flow_needed(stream: Stream) -> Figure:
    return Figure(
        "air.flow_needed",
        "flow needed",
        stream.needed / CFM,
        "CFM",
        at_site(stream, f"rise {stream.air.rise.text}"),
        by=flow_needed,
        inputs=stream_inputs(stream),
        missing=stream.lacks("rise"),
        outside=LAYER,
    )


def _speed(stream: Stream) -> Figure:
    return Figure(
        "air.speed",
        "fan speed needed, share of full",
        100 * stream.speed,
        "%",
        at_site(stream),
        by=speed_for,
        inputs=stream_inputs(stream),
        missing=lacks_stream(stream),
        outside=LAYER,
    )


def _speed_failed(stream: Stream) -> Figure:
    return Figure(
        "air.speed_failed",
        "fan speed needed with one failed, share of full",
        100 * stream.speed_failed,
        "%",
        at_site(stream, one_failed(stream)),
        by=speed_for,
        inputs=stream_inputs(stream),
        missing=lacks_stream(stream),
        outside=f"{LAYER}; without a fan there is no speed",
    )


def _fan_power(stream: Stream) -> Figure:
    return Figure(
        "air.fan_power",
        "draw of the fans at the speed needed",
        power_at(stream.fan_power, stream.speed),
        "W",
        at_site(stream),
        by=power_at,
        inputs=stream_inputs(stream),
        missing=lacks_stream(stream) + stream.case.lacking("fan", "power"),
        outside="full speed is not enough",
    )

"""Figures of heat: what the fans carry, and how warm the air leaves."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.sizing.air.atmosphere import moist_density, pressure
from baywright.sizing.air.flow import heat_carried, heat_carried_by, outlet_temperature, rise_of
from baywright.sizing.air.saying import (
    LAYER,
    at_site,
    fan_inputs,
    lacks_stream,
    one_failed,
    said,
    stream_inputs,
    with_inlet,
)
from baywright.sizing.air.stream import Stream
from baywright.sizing.figure import Figure, Input


def heat_figures(stream: Stream) -> Iterator[Figure]:
    """Yield the heat that the fans carry, and the temperatures of the air."""
    yield _carried(stream)
    yield _carried_failed(stream)
    yield _carried_warm(stream)
    yield _rise(stream)
    yield _exhaust(stream)
    yield _exhaust_most(stream)


def _carried(stream: Stream) -> Figure:
    return Figure(
        "air.carried",
        "heat that all fans carry",
        stream.carried,
        "W",
        f"{said(stream.altitude, 'm')}, rise {stream.air.rise.text}",
        by=heat_carried,
        inputs=fan_inputs(stream),
        missing=lacks_stream(stream),
        outside=LAYER,
    )


def _carried_failed(stream: Stream) -> Figure:
    return Figure(
        "air.carried_failed",
        "heat that the fans carry with one failed",
        stream.carried_failed,
        "W",
        f"{one_failed(stream)}, {said(stream.altitude, 'm')}, rise {stream.air.rise.text}",
        by=heat_carried,
        inputs=fan_inputs(stream),
        missing=lacks_stream(stream),
        outside=LAYER,
    )


def _carried_warm(stream: Stream) -> Figure:
    """The limits take standard air, as books do; air of the inlet temperature is thinner."""
    warm = moist_density(pressure(stream.altitude), stream.inlet)
    return Figure(
        "air.carried_warm",
        "heat that all fans carry in dry air of the inlet temperature",
        heat_carried_by(warm, stream.flow, stream.allowed_rise),
        "W",
        f"{said(stream.altitude, 'm')}, {with_inlet(stream)}, rise {stream.air.rise.text}",
        by=heat_carried_by,
        inputs=(*fan_inputs(stream)[:2], Input("density of that air", said(warm, "kg/m³", 4))),
        missing=lacks_stream(stream) + stream.lacks_inlet(),
        outside=f"{LAYER}, and air from 0 to 200 °C",
    )


def _rise(stream: Stream) -> Figure:
    return Figure(
        "air.rise",
        "rise of the air at full speed",
        stream.full_rise,
        "K",
        at_site(stream),
        by=rise_of,
        inputs=stream_inputs(stream),
        missing=stream.lacks_flow(),
        outside=LAYER,
    )


def _exhaust(stream: Stream) -> Figure:
    return Figure(
        "air.exhaust",
        "temperature of the air blown out at full speed",
        outlet_temperature(stream.inlet, stream.full_rise),
        "°C",
        at_site(stream, with_inlet(stream)),
        by=outlet_temperature,
        inputs=stream_inputs(stream),
        missing=stream.lacks_flow() + stream.lacks_inlet(),
        outside=LAYER,
    )


def _exhaust_most(stream: Stream) -> Figure:
    return Figure(
        "air.exhaust_most",
        "temperature of the air blown out at the speed just needed",
        outlet_temperature(stream.inlet, stream.allowed_rise),
        "°C",
        with_inlet(stream),
        by=outlet_temperature,
        inputs=fan_inputs(stream)[1:2],
        missing=stream.lacks_inlet() + stream.lacks("rise"),
    )

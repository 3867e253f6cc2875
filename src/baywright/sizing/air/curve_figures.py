"""Figures of operating points, where the book has fan curves and the air path."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.sizing.air.atmosphere import density
from baywright.sizing.air.curves import operating_point
from baywright.sizing.air.fans import pressure_at
from baywright.sizing.air.flow import CFM
from baywright.sizing.air.intake import CURVE_DENSITY
from baywright.sizing.air.operating import lacks_curves, operating
from baywright.sizing.air.saying import LAYER, one_failed, said
from baywright.sizing.air.stream import Stream
from baywright.sizing.figure import Figure, Input


def curve_figures(stream: Stream) -> Iterator[Figure]:
    """Yield where the fan curves meet the air path, all fans running and one failed."""
    yield _flow(stream)
    yield _flow_failed(stream)
    yield _pressure(stream)


def _flow(stream: Stream) -> Figure:
    return Figure(
        "air.operating_flow",
        "flow by the fan curves",
        operating(stream).flow / CFM,
        "CFM",
        "all fans at full speed",
        by=operating_point,
        inputs=_inputs(stream),
        missing=lacks_curves(stream),
    )


def _flow_failed(stream: Stream) -> Figure:
    return Figure(
        "air.operating_failed",
        "flow by the fan curves with one failed",
        operating(stream, failed=1).flow / CFM,
        "CFM",
        f"{one_failed(stream)}, no flow back through it",
        by=operating_point,
        inputs=_inputs(stream),
        missing=lacks_curves(stream),
    )


def _pressure(stream: Stream) -> Figure:
    thinner = density(stream.altitude) / CURVE_DENSITY
    return Figure(
        "air.operating_pressure",
        "pressure of the fans by their curves",
        pressure_at(operating(stream).pressure, 1.0, thinner),
        "Pa",
        f"all fans at full speed, {said(stream.altitude, 'm')}",
        by=pressure_at,
        inputs=_inputs(stream),
        missing=lacks_curves(stream),
        outside=LAYER,
    )


def _inputs(stream: Stream) -> tuple[Input, ...]:
    return (*_curves(stream), *_paths(stream))


def _curves(stream: Stream) -> Iterator[Input]:
    for fan in stream.fans.values():
        text = ", ".join(f"{point.pressure.text} at {point.flow.text}" for point in fan.curve)
        facts = stream.case.cite(*(point.pressure for point in fan.curve))
        yield Input(f"curve of the {fan.name}", text, facts)


def _paths(stream: Stream) -> Iterator[Input]:
    for entry in stream.air.resistance:
        when = f" if {stream.case.frame.say(entry.when)}" if entry.when else ""
        text = f"{entry.pressure.text} at {entry.flow.text}{when}"
        yield Input("resistance", text, stream.case.cite(entry.flow, entry.pressure))

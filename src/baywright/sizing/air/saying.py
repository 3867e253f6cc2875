"""How figures of air are said: rounded amounts, their condition, and what they stand on."""

from __future__ import annotations

import numpy as np

from baywright.facts.places import Fans
from baywright.sizing.air.atmosphere import density
from baywright.sizing.air.stream import Stream
from baywright.sizing.amounts import shown
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Input

LAYER = "the standard atmosphere is computed from -1,000 to 11,000 m"
NEVER = "at no altitude that can be computed"


def said(values: Floats, unit: str, places: int = 0) -> str:
    """Write rounded numbers with their unit, or the range of several.

    >>> said(4398.67, "W"), said(float("nan"), "°C")
    ('4,399 W', '°C not decided')
    """
    every = np.ravel(values)
    known = every[~np.isnan(every)]
    return shown(np.round(known, places), unit) if known.size else f"{unit} not decided"


def one_failed(stream: Stream) -> str:
    """Return that a fan has failed: one, or one of each set where there are several."""
    several = len(stream.book.places_of(Fans)) > 1
    return "one fan of each set failed" if several else "one fan failed"


def peak(stream: Stream) -> str:
    """Return the load that a figure holds for."""
    return f"peak {said(stream.heat, 'W')} DC"


def at_site(stream: Stream, *words: str) -> str:
    """Return what a figure holds for: some words, the load and the altitude."""
    return ", ".join((*words, peak(stream), said(stream.altitude, "m")))


def with_inlet(stream: Stream) -> str:
    """Return the inlet temperature that a figure holds for."""
    return f"inlet {said(stream.inlet, '°C', 1)}"


def load_input(stream: Stream) -> Input:
    """Return the draw that the fans have to carry."""
    facts = stream.case.cite(stream.book.power.base)
    return Input("peak draw, DC, and what is asked on top", said(stream.heat, "W"), facts)


def fan_inputs(stream: Stream) -> tuple[Input, ...]:
    """Return the fans, the rise allowed, and the air they move."""
    kinds = ", ".join(f"{fan.flow.text} each" for fan in stream.fans.values())
    return (
        Input("fans at full speed", kinds, stream.cited_fans()),
        Input("allowed rise", stream.air.rise.text, stream.case.cite(stream.air.rise)),
        Input("density of the air", said(density(stream.altitude), "kg/m³", 4)),
    )


def stream_inputs(stream: Stream) -> tuple[Input, ...]:
    """Return what a figure of heat, flow or speed is computed from."""
    return (load_input(stream), *fan_inputs(stream))


def limit_inputs(stream: Stream) -> tuple[Input, ...]:
    """Return what the inlet limit at the site is computed from."""
    entries, derating = stream.air.inlet_limits, stream.air.derating
    fall = f"{derating.by.text} per {derating.per.text} above {derating.above.text}"
    limits = stream.case.cite(*(entry.limit for entry in entries))
    falls = stream.case.cite(derating.by, derating.per, derating.above)
    return (
        Input("inlet limit at low altitude", said(stream.low_limit, "°C", 1), limits),
        Input("fall with altitude", fall, falls),
    )


def lacks_stream(stream: Stream) -> tuple[str, ...]:
    """Return what is missing for the heat that the fans carry."""
    return stream.lacks_flow() + stream.lacks("rise")

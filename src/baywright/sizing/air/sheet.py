"""Air and noise of any number of builds: figures, and the limits that they have to keep."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from baywright.sizing.air.altitude_figures import altitude_figures
from baywright.sizing.air.curve_figures import curve_figures
from baywright.sizing.air.flow import heat_in_stream
from baywright.sizing.air.flow_figures import flow_figures
from baywright.sizing.air.heat_figures import heat_figures
from baywright.sizing.air.intake_figures import (
    blocked,
    cover_figure,
    intake_figures,
    share_left,
)
from baywright.sizing.air.listings import listings
from baywright.sizing.air.noise_figures import noise_figures, room_noise
from baywright.sizing.air.saying import (
    LAYER,
    at_site,
    lacks_stream,
    limit_inputs,
    one_failed,
    said,
    stream_inputs,
)
from baywright.sizing.air.stream import Stream
from baywright.sizing.amounts import amount, conditions
from baywright.sizing.case import Case
from baywright.sizing.figure import Figure, Limit, Sheet
from baywright.sizing.subject import Subject

INLET_SCALE = 10.0
"""Kelvin that a margin of temperature is measured against: a temperature has no zero."""

NOISE_SCALE = 10.0
"""Decibels that a margin of noise is measured against: 10 dB more sound about twice as loud."""

_HOT = "parts slow down, switch off or fail early"


def sheet(case: Case) -> Sheet:
    """Return figures and limits of air and noise."""
    stream = Stream(case)
    figures = (
        *flow_figures(stream),
        *heat_figures(stream),
        *altitude_figures(stream),
        *curve_figures(stream),
        *intake_figures(stream),
        cover_figure(stream),
        *noise_figures(stream),
    )
    return Sheet(figures, tuple(_limits(stream)), ("redundancy", "no-airflow", "estimate"))


def _limits(stream: Stream) -> Iterator[Limit]:
    yield _all_fans(stream)
    yield _one_failed(stream)
    yield _inlet(stream)
    yield _altitude(stream)
    # What the site does not ask for is not taken into account.
    room = stream.case.site.room
    if room is not None and room.grille_blocked is not None:
        yield _blocked(stream)
    if room is not None and room.noise_most is not None:
        yield _noise(stream)


def _heat(stream: Stream, key: str, name: str, condition: str) -> Figure:
    return Figure(
        key,
        name,
        np.asarray(stream.heat),
        "W",
        condition,
        by=heat_in_stream,
        inputs=stream_inputs(stream),
        missing=lacks_stream(stream),
        outside=LAYER,
    )


def _all_fans(stream: Stream) -> Limit:
    return Limit(
        _heat(stream, "air.heat", "heat against what all fans carry", at_site(stream)),
        stream.carried,
        "most",
        f"The air warms by more than allowed: {_HOT}.",
        facts=stream.cited_fans() + stream.case.cite(stream.air.rise),
    )


def _one_failed(stream: Stream) -> Limit:
    """The voltage is said with every redundancy; it does not change the draw on the DC side."""
    load = f"peak {said(stream.heat, 'W')} DC"
    condition = conditions(stream.case, one_failed(stream), load)
    return Limit(
        _heat(stream, "air.heat_failed", "heat against what one fan fewer carries", condition),
        stream.carried_failed,
        "most",
        "When a fan fails, the others cannot carry the heat, and the machine slows down or stops.",
        legal=False,
        facts=stream.cited_fans() + stream.case.cite(stream.air.rise),
    )


def _blocked(stream: Stream) -> Limit:
    share = f"{100 * blocked(stream):.3g} % of the open intake blocked"
    condition = at_site(stream, share)
    return Limit(
        _heat(stream, "air.heat_blocked", "heat against a blocked intake", condition),
        stream.carried * share_left(stream),
        "most",
        f"Too little air gets past what blocks the intake: {_HOT}.",
        legal=False,
        facts=stream.case.cite(stream.air.grille, stream.air.grille_open),
    )


def _inlet(stream: Stream) -> Limit:
    figure = Figure(
        "air.inlet",
        "inlet temperature",
        np.asarray(stream.inlet),
        "°C",
        said(stream.altitude, "m"),
        inputs=limit_inputs(stream),
        missing=stream.lacks_inlet() + stream.lacks_limit(),
    )
    breaks = f"The air is too warm for the parts of the build: {_HOT}."
    facts = stream.case.cite(*(entry.limit for entry in stream.air.inlet_limits))
    return Limit(figure, stream.limit, "most", breaks, facts=facts, scale=INLET_SCALE)


def _altitude(stream: Stream) -> Limit:
    up_to = stream.air.derating.up_to
    figure = Figure(
        "air.altitude",
        "altitude",
        np.asarray(stream.altitude),
        "m",
        "highest altitude of use",
        missing=stream.lacks("derating.up_to"),
    )
    breaks = "The air is thinner than the machine is made for, and nothing is stated for it there."
    return Limit(figure, amount(up_to, "m"), "most", breaks, facts=stream.case.cite(up_to))


def _noise(stream: Stream) -> Limit:
    room = stream.case.site.room
    most = room.noise_most if room else None
    breaks = "It is louder at that distance than the room allows."
    bound = amount(most, "dB(A)")
    return Limit(room_noise(stream), bound, "most", breaks, legal=False, scale=NOISE_SCALE)


SUBJECT = Subject("air", "Air and noise", sheet, listings)

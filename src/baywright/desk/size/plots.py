"""Charts of a sized build: its limits, its efficiency over load, its inlet limit over altitude."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from baywright.desk.size.sized import Sized
from baywright.desk.size.telling import first, room_text, site_in_words, value_text
from baywright.drawing.charts.curves import Chart, Curve, Mark, chart
from baywright.drawing.charts.margins import Row, margin_bars
from baywright.sizing.case import Swept
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Limit
from baywright.sizing.limits import sheets

STEPS = 121
"""Points of a curve."""


@dataclass(frozen=True, slots=True)
class Plot:
    """A chart with the name of its file."""

    name: str
    svg: str


def plots(sized: Sized) -> Iterator[Plot]:
    """Yield the charts of a build; one whose numbers are not decided is left out."""
    rows = [_row(limit) for limit in sized.limits if not np.isnan(first(limit.margin))]
    yield Plot("limits", margin_bars("Limits, the least margin first", _of(sized), rows))
    yield from _efficiency(sized)
    yield from _inlet(sized)


def _of(sized: Sized) -> str:
    return f"{sized.build.name.known}; {site_in_words(sized)}"


def _row(limit: Limit) -> Row:
    return Row(limit.figure.name, 1 - first(limit.margin), room_text(limit))


def _efficiency(sized: Sized) -> Iterator[Plot]:
    load = _figure(sized, "power.dc.peak")
    if load is None:
        return
    added = np.linspace(-0.9, 1.5, STEPS) * load.value
    values = _along(sized, "extra", added, "power.efficiency.peak")
    watts = load.value + added
    yield from _curve(
        Chart(
            "Efficiency over load",
            _of(sized),
            "DC load, W",
            "efficiency, %",
            (Curve("its supplies", _points(watts, values)),),
            _marked(sized, "power.efficiency.peak", load.value, "at the peak"),
        ),
        "efficiency",
    )


def _inlet(sized: Sized) -> Iterator[Plot]:
    highest = sized.case.book.air.derating.up_to
    metres = np.linspace(0.0, float(highest.known.to("m")) if highest else 4000.0, STEPS)
    values = _along(sized, "altitude", metres, "air.inlet_limit")
    here = float(np.ravel(sized.case.around.altitude)[0])
    yield from _curve(
        Chart(
            "Inlet limit over altitude",
            _of(sized),
            "altitude, m",
            "inlet limit, °C",
            (Curve("inlet limit", _points(metres, values)),),
            _marked(sized, "air.inlet_limit", here, "here"),
        ),
        "inlet",
    )


def _curve(drawn: Chart, name: str) -> Iterator[Plot]:
    if len(drawn.curves[0].points) > 1:
        yield Plot(name, chart(drawn))


def _figure(sized: Sized, key: str) -> Figure | None:
    figures = (f for sheet in sized.sheets.values() for f in sheet.figures)
    return next((f for f in figures if f.key == key and np.isfinite(f.value)), None)


def _along(sized: Sized, what: Swept, values: Reals, key: str) -> Reals:
    swept = sized.case.amid(sized.case.around.changed(what, values))
    for sheet in sheets(swept).values():
        for figure in sheet.figures:
            if figure.key == key:
                return np.broadcast_to(np.asarray(figure.values, float), values.shape)
    return np.full(values.shape, np.nan)


def _points(xs: Reals, ys: Reals) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in zip(xs, ys, strict=True) if np.isfinite(y)]


def _marked(sized: Sized, key: str, at: float, words: str) -> tuple[Mark, ...]:
    figure = _figure(sized, key)
    if figure is None:
        return ()
    return (Mark(f"{words}: {value_text(figure.value, figure.unit)}", at, figure.value),)

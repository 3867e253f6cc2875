"""Figures of each state: what a build draws, takes in and gives off."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, TypeAlias

import numpy as np

from baywright.sizing.amounts import conditions, shown, undecided
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Input
from baywright.sizing.power.draw import STATES, State, draw, lacking, total_draw
from baywright.sizing.power.efficiency import efficiency, efficiency_estimated
from baywright.sizing.power.flow import Flow, flow
from baywright.sizing.power.intake import (
    apparent_power,
    current,
    heat,
    heat_by_hour,
    input_power,
    loss,
)
from baywright.sizing.power.scene import ABOVE, Scene
from baywright.sizing.power.sharing import load_of_each

BELOW = "estimate: below the lowest point of the efficiency curve its efficiency is taken"


def state_figures(scene: Scene) -> Iterator[Figure]:
    """Yield the figures of each state."""
    for state in STATES:
        load = draw(scene.case, state)
        yield _drawn(scene, state, load)
        yield from _taken(scene, state, load)


def _drawn(scene: Scene, state: State, load: Floats) -> Figure:
    power = scene.case.book.power
    base = {"idle": power.base_idle, "typical": power.base_typical, "peak": power.base}[state]
    text = "not stated" if base is None else base.text
    return Figure(
        f"power.dc.{state}",
        f"draw behind the supplies, {state}",
        load,
        "W",
        _when(state),
        total_draw,
        (Input("base", text, scene.quoted(base)),),
        lacking(scene.case, state),
    )


def _taken(scene: Scene, state: State, load: Floats) -> Iterator[Figure]:
    """Yield what the supplies take in: each figure with its unit and formula."""
    bays, found = scene.bays, flow(scene.bays, load)
    words = (_when(state), *((BELOW,) if found.estimated else ()))
    inputs = _inputs(scene, load)
    unknown = lacking(scene.case, state) + bays.unset + bays.missing
    for key, name, values, unit, function in _rows(scene, load, found):
        yield Figure(
            f"power.{key}.{state}",
            f"{name}, {state}",
            values,
            unit,
            conditions(scene.case, *words),
            function,
            inputs,
            undecided(values, *unknown, *bays.lacking(*_NEEDED.get(key, _CURVE))),
            ABOVE,
        )


_Row: TypeAlias = tuple[str, str, Floats, str, Callable[..., Any]]
"""Key, name, numbers, unit and the function that computed them."""


def _rows(scene: Scene, load: Floats, found: Flow) -> tuple[_Row, ...]:
    volts = scene.case.around.volts
    by = efficiency_estimated if found.estimated else efficiency
    share = np.multiply(found.share, 100)
    amps = current(found.apparent, np.nan if volts is None else volts)
    by_hour = heat_by_hour(found.watts)
    return (
        ("share", "load of each supply, of its rating", share, "%", load_of_each),
        ("efficiency", "efficiency of the supplies", _percent(load, found), "%", by),
        ("input", "power taken in", found.watts, "W", input_power),
        ("loss", "loss in the supplies", loss(found.watts, load), "W", loss),
        ("apparent", "apparent power", found.apparent, "VA", apparent_power),
        ("current", "current of all cords together", amps, "A", current),
        ("heat", "heat given off", heat(found.watts), "W", heat),
        ("heat_by_hour", "heat given off, by hour", by_hour, "BTU/h", heat_by_hour),
    )


_CURVE = ("efficiency",)
_NEEDED = {
    "share": (),
    "apparent": ("efficiency", "power_factor"),
    "current": ("efficiency", "power_factor"),
}
"""Facts of supplies that a figure needs; the efficiency unless said here."""


def _percent(load: Floats, found: Flow) -> Floats:
    takes = np.greater(found.watts, 0)
    share = np.divide(load, np.where(takes, found.watts, 1.0))
    return np.where(takes, np.multiply(share, 100), np.nan)


def _inputs(scene: Scene, load: Floats) -> tuple[Input, ...]:
    points = [fact for model in scene.bays.models for fact in model.supply.efficiency.values()]
    factors = scene.of_supplies("power_factor")
    volts = scene.case.around.volts
    return (
        Input("draw, DC", shown(load, "W")),
        Input("voltage", "not stated" if volts is None else shown(volts, "V")),
        Input("efficiency", ", ".join(fact.text for fact in points), scene.quoted(*points)),
        Input("power factor", ", ".join(fact.text for fact in factors), factors),
    )


def _when(state: State) -> str:
    return "under a usual load" if state == "typical" else f"at {state}"

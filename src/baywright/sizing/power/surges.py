"""Hold-up of builds: the time without input, and surges of accelerators."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from baywright.facts.parts import Accelerator
from baywright.sizing.amounts import amount, shown
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Input, Limit
from baywright.sizing.power.draw import part_draw, total_draw
from baywright.sizing.power.hold_up import bridged, stored_energy, surge_energy
from baywright.sizing.power.scene import Scene
from baywright.sizing.power.sharing import carried


def hold_up_figures(scene: Scene) -> Iterator[Figure]:
    """Yield how long the supplies carry the peak without input, and the draw in a surge."""
    energy = _stored(scene, scene.bays.count)
    facts = scene.of_supplies("hold_up")
    yield scene.figure(
        "hold_up",
        "time without input",
        np.multiply(bridged(energy, scene.load), 1000),
        "ms",
        bridged,
        "all supplies",
        missing=scene.bays.lacking("hold_up"),
        inputs=(Input("hold-up at full rating", ", ".join(f.text for f in facts), facts),),
    )
    surge, missing = _surge(scene.case)
    yield scene.figure(
        "dc.surge",
        "draw behind the supplies in a surge of all accelerators",
        np.add(scene.load, surge),
        "W",
        total_draw,
        missing=missing,
    )


def surge_limits(scene: Scene) -> Iterator[Limit]:
    """Yield the energy that a surge of all accelerators takes beyond what supplies carry."""
    surge, missing = _surge(scene.case)
    bays = scene.bays
    carries = carried(bays.rating, bays.legal)
    bound = _stored(scene, bays.legal)
    time = _longest(scene.case)
    needed = surge_energy(np.add(scene.load, surge), carries, time)
    figure = scene.figure(
        "surge",
        "energy of a surge beyond what the supplies carry",
        # Without a surge none is taken, however long the peak itself is too high.
        np.where(np.equal(surge, 0), 0.0, needed),
        "J",
        surge_energy,
        "all accelerators at once",
        missing=missing + bays.lacking("hold_up"),
        inputs=(
            Input("draw in the surge", shown(np.add(scene.load, surge), "W")),
            Input("time", shown(np.multiply(time, 1000), "ms")),
        ),
        bound=bound,
    )
    breaks = (
        "A surge of all accelerators at once pulls the supplies down, and the machine goes off."
    )
    yield Limit(figure, bound, "most", breaks, legal=False, facts=scene.of_supplies("hold_up"))


def _stored(scene: Scene, active: Floats) -> Floats:
    bays = scene.bays
    time = bays.of_weakest(amount(model.supply.hold_up, "s") for model in bays.models)
    return stored_energy(bays.rating, active, time)


def _surge(case: Case) -> tuple[Floats, tuple[str, ...]]:
    """Return what surges add to the peak of each build [W], and the facts that it lacks."""
    cards = {
        name: part for name in case.fitted if isinstance(part := case.book.parts[name], Accelerator)
    }
    extra = {
        name: amount(card.surge, "W") - part_draw(case.book, card, "peak")
        for name, card in cards.items()
    }
    missing = tuple(
        f"parts.{name}.{field}"
        for name, card in cards.items()
        for field, number in (("surge", amount(card.surge, "W")), ("surge_time", _time(card)))
        if math.isnan(number)
    )
    return case.weighed(lambda name, part: extra.get(name, 0.0)), missing


def _longest(case: Case) -> Floats:
    """Return the longest surge of an accelerator of each build [s]."""
    longest: Floats = np.zeros(case.size)
    for name in case.fitted:
        part = case.book.parts[name]
        if isinstance(part, Accelerator):
            longest = np.where(case.has(name), np.maximum(longest, _time(part)), longest)
    return longest


def _time(card: Accelerator) -> float:
    return amount(card.surge_time, "s")

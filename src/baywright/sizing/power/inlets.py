"""Current of inlets and cords of builds at their peak, and their limits."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from baywright.sizing.amounts import amount
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Limit
from baywright.sizing.power.flow import current_of_one
from baywright.sizing.power.intake import current
from baywright.sizing.power.scene import NONE_LEFT, TAKEN, Scene
from baywright.sizing.power.sharing import carried

ALONE = "on the supplies left after the loss they are made for, with no more than these carry"


def inlet_limits(scene: Scene) -> Iterator[Limit]:
    """Yield the current of one inlet and its bound, with all supplies and with those left."""
    bays = scene.bays
    still = np.minimum(scene.load, carried(bays.rating, bays.redundant))
    rows: tuple[tuple[str, str, Floats, Floats], ...] = (
        ("inlet.all", "on all supplies", scene.load, bays.count),
        ("inlet.left", ALONE, still, bays.redundant),
    )
    bound = bays.of_weakest(amount(m.supply.inlet_current, "A") for m in bays.models)
    for key, words, load, active in rows:
        amps = current_of_one(bays, load, active, scene.case.around.volts)
        figure = scene.figure(
            key,
            "current of one inlet",
            amps,
            "A",
            current,
            words,
            missing=bays.lacking(*TAKEN, "inlet_current"),
            bound=bound,
            outside=NONE_LEFT,
        )
        breaks = "The inlet carries more than its rating and overheats."
        facts = scene.of_supplies("inlet_current")
        yield Limit(figure, bound, "most", breaks, legal=False, facts=facts)
        yield from _cords(scene, figure) if key == "inlet.left" else ()


def _cords(scene: Scene, inlet: Figure) -> Iterator[Limit]:
    """Yield the bound of the weakest cord, where the site states any."""
    cords = [amount(c.feed.cord, "A") for c in scene.circuits if c.feed and c.feed.cord]
    if cords:
        figure = scene.figure(
            "cord", "current of one cord", inlet.values, "A", current, ALONE, missing=inlet.missing
        )
        breaks = "The cord carries more than its rating and overheats."
        yield Limit(figure, min(cords), "most", breaks, legal=False)

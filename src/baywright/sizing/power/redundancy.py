"""What the supplies carry, what is left after a loss, and the limits of it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from baywright.sizing.amounts import shown
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Input, Limit
from baywright.sizing.power.draw import total_draw
from baywright.sizing.power.scene import NO_FEEDS, Scene
from baywright.sizing.power.sharing import carried, left_over, spare, to_shed


def supply_figures(scene: Scene) -> Iterator[Figure]:
    """Yield what the supplies carry at the voltage of the site."""
    bays, figure = scene.bays, scene.figure
    each = (Input("rating of one supply", shown(bays.rating, "W"), scene.ratings),)
    lost = spare(scene.load, bays.rating, bays.count)
    yield figure("rating", "rating of one supply", bays.rating, "W", carried, inputs=each)
    yield figure("carried", "what the supplies carry", _legal(scene), "W", carried, inputs=each)
    yield figure(
        "carried_redundant",
        "what the supplies carry after the loss they are made for",
        _redundant(scene),
        "W",
        carried,
        inputs=each,
    )
    yield figure("spare", "supplies that may be lost", lost, "", spare, inputs=each)


def loss_figures(scene: Scene) -> Iterator[Figure]:
    """Yield what is left, and what has to be shed, after each kind of loss."""
    feeds = () if scene.circuits else NO_FEEDS
    losses: tuple[tuple[str, str, Floats, tuple[str, ...]], ...] = (
        ("all", "with all supplies", _legal(scene), ()),
        ("redundant", "after the loss the supplies are made for", _redundant(scene), ()),
        ("supply", "with one supply lost", _without_supply(scene), ()),
        ("feed", "with one feed lost", _without_feed(scene), feeds),
    )
    for key, words, carries, missing in losses:
        left, shed = left_over(carries, scene.load), to_shed(scene.load, carries)
        inputs = (Input("carried", shown(carries, "W"), scene.ratings),)
        yield scene.figure(
            f"left.{key}", "power left", left, "W", left_over, words, missing=missing, inputs=inputs
        )
        yield scene.figure(
            f"shed.{key}",
            "power to shed",
            shed,
            "W",
            to_shed,
            words,
            missing=missing,
            inputs=inputs,
        )


def supply_limits(scene: Scene) -> Iterator[Limit]:
    """Yield the bounds on the peak: what is legal, and what redundancy promises."""
    yield _bounded(
        scene,
        "carry",
        "peak draw against what the supplies carry",
        _legal(scene),
        "The supplies are overloaded and the machine goes off.",
        legal=True,
    )
    yield _bounded(
        scene,
        "redundancy",
        "peak draw against what is left after the loss the supplies are made for",
        _redundant(scene),
        "The loss of a supply stops the machine.",
    )
    if scene.circuits:
        yield _bounded(
            scene,
            "feed_loss",
            "peak draw against what is left after the loss of a feed",
            _without_feed(scene),
            "The loss of a feed stops the machine.",
        )


def _bounded(
    scene: Scene, key: str, name: str, bound: Floats, breaks: str, *, legal: bool = False
) -> Limit:
    peak = scene.figure(key, name, scene.load, "W", total_draw, bound=bound)
    return Limit(peak, bound, "most", breaks, legal, scene.ratings)


def _legal(scene: Scene) -> Floats:
    return carried(scene.bays.rating, scene.bays.legal)


def _redundant(scene: Scene) -> Floats:
    return carried(scene.bays.rating, scene.bays.redundant)


def _without_supply(scene: Scene) -> Floats:
    return carried(scene.bays.rating, np.maximum(0.0, np.subtract(scene.bays.count, 1)))


def _without_feed(scene: Scene) -> Floats:
    """Return what is carried after the loss of the feed with most supplies."""
    return carried(scene.bays.rating, np.subtract(scene.bays.count, scene.most_on_feed))

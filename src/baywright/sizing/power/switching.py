"""Switch-on current and current to earth of builds, and their bound."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Input, Limit
from baywright.sizing.power.amounts import amount
from baywright.sizing.power.circuits import inrush, leakage
from baywright.sizing.power.scene import NO_FEEDS, Scene


def switching_figures(scene: Scene) -> Iterator[Figure]:
    """Yield the switch-on current and the current to earth of each build."""
    yield from _summed(scene, "inrush", "peak of the switch-on current", "A", inrush)
    yield from _summed(scene, "leakage", "current to earth", "mA", leakage)


def _summed(
    scene: Scene, field: str, name: str, unit: str, by: Callable[[Floats, Floats], Floats]
) -> Iterator[Figure]:
    """Yield the sum of a current over all supplies, and over those on one feed."""
    bays = scene.bays
    each = [amount(getattr(model.supply, field), unit) for model in bays.models]
    on_feed = by(bays.of_strongest(each), scene.most_on_feed)
    facts = scene.of_supplies(field)
    inputs = (Input("of one supply", ", ".join(fact.text for fact in facts), facts),)
    missing = bays.unset + bays.lacking(field)
    feeds = () if scene.circuits else NO_FEEDS
    yield Figure(
        f"power.{field}", name, bays.total(each), unit, "all supplies", by, inputs, missing
    )
    words = "supplies on the feed with most of them"
    yield Figure(f"power.{field}.feed", name, on_feed, unit, words, by, inputs, missing + feeds)


def leakage_limits(scene: Scene) -> Iterator[Limit]:
    """Yield the bound of the current to earth of one host, where the site states any."""
    bounds = [
        amount(c.feed.leakage_most, "mA") for c in scene.circuits if c.feed and c.feed.leakage_most
    ]
    if bounds:
        each = (amount(model.supply.leakage, "mA") for model in scene.bays.models)
        figure = Figure(
            "power.leakage.bound",
            "current to earth of one host",
            leakage(scene.bays.of_strongest(each), scene.most_on_feed),
            "mA",
            "supplies on the feed with most of them",
            leakage,
            missing=scene.bays.lacking("leakage"),
        )
        breaks = "The earth-leakage protection of the feed trips, and every machine on it stops."
        yield Limit(figure, min(bounds), "most", breaks, legal=False)

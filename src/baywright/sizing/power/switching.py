"""Switch-on current and current to earth of builds, and their bound."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from baywright.sizing.amounts import amount, undecided
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Input, Limit
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
    feeds = () if scene.circuits else NO_FEEDS
    for key, words, values in (
        (field, "all supplies", bays.total(each)),
        (f"{field}.feed", "supplies on the feed with most of them", on_feed),
    ):
        missing = undecided(values, *bays.unset, *bays.lacking(field), *feeds)
        yield Figure(f"power.{key}", name, values, unit, words, by, inputs, missing)


def leakage_limits(scene: Scene) -> Iterator[Limit]:
    """Yield the bound of the current to earth of one host, where the site states any."""
    bounds = [
        amount(c.feed.leakage_most, "mA") for c in scene.circuits if c.feed and c.feed.leakage_most
    ]
    if bounds:
        bays = scene.bays
        each = bays.of_strongest(amount(model.supply.leakage, "mA") for model in bays.models)
        values = leakage(each, scene.most_on_feed)
        figure = Figure(
            "power.leakage.bound",
            "current to earth of one host",
            values,
            "mA",
            "supplies on the feed with most of them",
            leakage,
            missing=undecided(values, *bays.unset, *bays.lacking("leakage")),
        )
        breaks = "The earth-leakage protection of the feed trips, and every machine on it stops."
        yield Limit(figure, min(bounds), "most", breaks, legal=False)

"""Current of builds at their peak in their feeds, and how many hosts these carry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from baywright.sizing.amounts import amount, shown
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Input, Limit
from baywright.sizing.power.circuits import feed_current, hosts_on_feed, leakage
from baywright.sizing.power.feeds import Circuit
from baywright.sizing.power.scene import ABOVE, NO_FEEDS, TAKEN, Scene


def feed_limits(scene: Scene) -> Iterator[Limit]:
    """Yield the current in the feed that is nearest to its bound, before and after a loss."""
    circuits = scene.circuits
    missing = scene.bays.lacking(*TAKEN) + tuple(m for c in circuits for m in c.missing)
    rows = (
        ("feed.all", "with all feeds", [circuit.now for circuit in circuits]),
        ("feed.left", "with another feed lost", [circuit.lost for circuit in circuits]),
    )
    for key, words, currents in rows:
        amps, bound = _nearest(scene, currents)
        figure = scene.figure(
            key,
            "current of one host in a feed",
            amps,
            "A",
            feed_current,
            words,
            missing=missing if circuits else NO_FEEDS,
            inputs=(Input("usable current of the feed", shown(bound, "A")),),
            bound=bound,
            outside=ABOVE,
        )
        breaks = "The breaker of the feed trips, and every machine on it stops."
        yield Limit(figure, bound, "most", breaks, legal=False)


def _nearest(scene: Scene, currents: Sequence[Floats]) -> tuple[Floats, Floats]:
    """Return the current and the bound of the feed with the least room, as a share.

    While the bound of any feed is not known, it is the feed with most current, without a bound.
    """
    nothing = np.full(scene.case.size, np.nan)
    if not scene.circuits:
        return nothing, nothing
    known = not any(circuit.missing for circuit in scene.circuits)
    bounds = [circuit.usable if known else nothing for circuit in scene.circuits]
    amps, bound = currents[0], bounds[0]
    for flowing, usable in zip(currents[1:], bounds[1:], strict=True):
        nearer = flowing / usable > amps / bound if known else np.greater(flowing, amps)
        # One that is not decided leaves all of it so.
        chosen = np.logical_or(nearer, np.isnan(flowing))
        amps, bound = np.where(chosen, flowing, amps), np.where(chosen, usable, bound)
    return amps, bound


def host_figures(scene: Scene) -> Iterator[Figure]:
    """Yield how many hosts like each build the feeds carry, before and after the loss of one."""
    circuits = scene.circuits
    missing = scene.bays.lacking(*TAKEN) + tuple(m for c in circuits for m in c.missing)
    rows = (
        ("hosts.all", "with all feeds", [circuit.now for circuit in circuits]),
        ("hosts.left", "with one feed lost", [circuit.lost for circuit in circuits]),
    )
    usable = Input("usable current", ", ".join(shown(c.usable, "A") for c in circuits))
    for key, words, currents in rows:
        yield scene.figure(
            key,
            "hosts on the feeds",
            _fewest(scene, currents),
            "",
            hosts_on_feed,
            words,
            missing=missing if circuits else NO_FEEDS,
            inputs=(usable,),
            outside=ABOVE,
        )


def _fewest(scene: Scene, currents: Sequence[Floats]) -> Floats:
    fewest: Floats = np.full(scene.case.size, np.inf if scene.circuits else np.nan)
    for circuit, flowing in zip(scene.circuits, currents, strict=True):
        fewest = np.minimum(fewest, hosts_on_feed(circuit.usable, flowing, circuit.phases))
        fewest = np.minimum(fewest, _by_outlets(circuit))
        fewest = np.minimum(fewest, _by_leakage(scene, circuit))
    return np.where(np.isinf(fewest), np.nan, fewest)


def _by_outlets(circuit: Circuit) -> Floats:
    outlets = circuit.feed.outlets.value if circuit.feed and circuit.feed.outlets else None
    return np.inf if outlets is None else hosts_on_feed(float(outlets), circuit.supplies)


def _by_leakage(scene: Scene, circuit: Circuit) -> Floats:
    if circuit.feed is None or circuit.feed.leakage_most is None:
        return np.inf
    bays = scene.bays
    each = bays.of_strongest(amount(model.supply.leakage, "mA") for model in bays.models)
    of_host = leakage(each, circuit.supplies)
    return hosts_on_feed(amount(circuit.feed.leakage_most, "mA"), of_host)

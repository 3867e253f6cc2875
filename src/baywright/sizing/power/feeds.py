"""The feeds of a site and the supplies of each build on them."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from baywright.facts.site import Feed
from baywright.sizing.amounts import amount, ratio
from baywright.sizing.case import Case, Truths
from baywright.sizing.equation import Floats
from baywright.sizing.power.bays import Bays
from baywright.sizing.power.circuits import feed_current, supplies_on_feed, usable_current
from baywright.sizing.power.flow import current_of_one
from baywright.sizing.power.sharing import carried


@dataclass(frozen=True, slots=True)
class Circuit:
    """One feed and what each build has on it.

    Args:
        name: id of the feed.
        feed: what the site says of it, or ``None``.
        supplies: supplies of each build on it.
        lost: current in it while the worst other feed is lost, the load no more than what the
            supplies left carry [A]; that with all feeds where there is no other.
        now: current in it with all feeds [A].
        usable: current it may carry without end [A].
        missing: what that depends on, where it is not decided.
    """

    name: str
    feed: Feed | None
    supplies: Floats
    now: Floats
    lost: Floats
    usable: Floats
    missing: tuple[str, ...]

    @property
    def phases(self) -> int:
        """Number of its phases."""
        stated = self.feed.phases.value if self.feed and self.feed.phases else None
        return stated or 1


def circuits_of(case: Case, bays: Bays, load: Floats) -> tuple[Circuit, ...]:
    """Return the feeds with what each build at a load has on them.

    Supplies are on the feeds that the machine fixes, or else are dealt out over those of the
    site in turn. None are returned where neither says anything.

    Args:
        case: the builds and their site.
        bays: their supplies.
        load: DC draw [W].
    """
    on = supplies_by_feed(case, bays)
    stated = _feeds(case, tuple(on))
    now = current_of_one(bays, load, bays.count, case.around.volts)
    return tuple(
        Circuit(
            name,
            stated.get(name),
            supplies,
            feed_current(now, supplies),
            _worst(case, bays, load, name, on),
            _usable(case, stated.get(name)),
            _missing(case, name, stated.get(name)),
        )
        for name, supplies in on.items()
    )


def supplies_by_feed(case: Case, bays: Bays) -> Mapping[str, Floats]:
    """Return how many supplies each build has on each feed, not-a-number where nobody says."""
    if bays.place is not None and bays.place.feeds:
        fixed = {name: float(fact.value or 0) for name, fact in bays.place.feeds.items()}
        # What the machine fixes holds for all its bays filled.
        full = bays.count == sum(fixed.values())
        return {name: np.where(full, count, np.nan) for name, count in fixed.items()}
    names = tuple(case.site.feeds)
    return {
        name: supplies_on_feed(bays.count, len(names), position)
        for position, name in enumerate(names)
    }


def _feeds(case: Case, names: Sequence[str]) -> Mapping[str, Feed]:
    """Return what the site says of each feed, by name or, where names differ, in order."""
    stated = case.site.feeds
    if set(names) <= set(stated) or len(names) != len(stated):
        return stated
    return dict(zip(names, stated.values(), strict=True))


def _worst(case: Case, bays: Bays, load: Floats, name: str, on: Mapping[str, Floats]) -> Floats:
    """Return the current in a feed after the loss of whichever other feed leaves it most."""
    volts = case.around.volts
    others = [count for other, count in on.items() if other != name] or [np.zeros(1)]
    currents = []
    for gone in others:
        left = np.subtract(bays.count, gone)
        still = np.minimum(load, carried(bays.rating, left))
        currents.append(feed_current(current_of_one(bays, still, left, volts), on[name]))
    worst = currents[0]
    for current in currents[1:]:
        worst = np.maximum(worst, current)
    return worst


def _usable(case: Case, feed: Feed | None) -> Floats:
    """Return what a feed may carry; not decided where its voltage is not that of the site."""
    if feed is None:
        return np.nan
    usable = usable_current(amount(feed.current, "A"), ratio(feed.continuous))
    return np.where(_same_voltage(case, feed), usable, np.nan)


def _same_voltage(case: Case, feed: Feed) -> Truths:
    if feed.voltage is None or case.around.volts is None:
        return np.asarray(1, bool)
    return np.asarray(np.isclose(case.around.volts, amount(feed.voltage, "V")))


def _missing(case: Case, name: str, feed: Feed | None) -> tuple[str, ...]:
    path = f"site.feeds.{name}"
    if feed is None:
        return (path,)
    stated = {"current": amount(feed.current, "A"), "continuous": ratio(feed.continuous)}
    unknown = tuple(f"{path}.{field}" for field, number in stated.items() if math.isnan(number))
    differs = not np.all(_same_voltage(case, feed))
    return (*unknown, *((f"{path}.voltage that agrees with that of the site",) if differs else ()))

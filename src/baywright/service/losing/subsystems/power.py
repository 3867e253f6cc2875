"""Power: supplies, their cords and feeds, and how many of them carry the peak."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.facts.parts import Supply
from baywright.facts.places import Supplies
from baywright.service.losing.items import (
    STARTS,
    Effect,
    Function,
    Item,
    Measure,
    Named,
    Open,
    Thing,
)
from baywright.service.losing.nodes import Ground, Node, at_least, every, some
from baywright.service.losing.standing import Standing, label_of, place_of

ONE_FEED = "feed"
"""Id of the only feed where neither the machine nor the site names any."""


def power(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield supplies, cords and feeds, and what they carry."""
    supplies = [unit for place in at.book.places_of(Supplies) for unit in at.units(place)]
    feeds = feed_of(at)
    for feed in dict.fromkeys(feeds[unit] for unit, _ in supplies):
        yield Thing(feed, feed.replace(".", " "), "feed", feed)
    for unit, part in supplies:
        named = f"supply {label_of(unit)}".strip()
        yield Thing(unit, f"{named}, {at.part(part).name}", "supply", unit, part)
        yield Thing(f"{unit}.cord", f"cord of {named}", "cord", unit)
        yield Named(f"fed {unit}", _fed(at, nodes, unit, feeds[unit]))
    fed = {unit: nodes[f"fed {unit}"] for unit, _ in supplies}
    yield from _carried(at, nodes, fed, feeds)


def feed_of(at: Standing) -> Mapping[str, str]:
    """Return the feed of each supply: as the machine fixes it, or dealt out in turn."""
    found = {}
    for name, place in at.book.places_of(Supplies).items():
        fixed = [str(feed) for feed, count in place.feeds.items() for _ in range(count.known)]
        there = list(fixed or at.build.site.feeds)
        for position, (unit, _) in enumerate(at.units(name)):
            feed = there[position % len(there)] if there else ""
            found[unit] = f"feed.{feed}" if feed else ONE_FEED
    return found


def _fed(at: Standing, nodes: Mapping[str, Node], unit: str, feed: str) -> Node:
    sentence = f"{unit} hangs on {feed.replace('.', ' ')}."
    place = at.book.places[place_of(unit)]
    fixed = place.feeds.get(label_of(feed)) if isinstance(place, Supplies) else None
    because = Ground("losing.feed", sentence, at.cite(fixed))
    return every(nodes[unit], every(nodes[f"{unit}.cord"], nodes[feed], because=because))


def _carried(
    at: Standing, nodes: Mapping[str, Node], fed: Mapping[str, Node], feeds: Mapping[str, str]
) -> Iterator[Item]:
    needed = at.loads.supplies
    if not fed or needed is None:
        yield from _undecided(at, fed)
        return
    because = _because(at)
    yield Named("power works", at_least(needed, fed.values(), because=because))
    more = at_least(needed + 1, fed.values(), because=because)
    bare = f"No further supply may fail: {needed} of {len(fed)} are needed at this load and line."
    yield Function(
        "power.redundant",
        "a supply to spare",
        more,
        Effect.BARE,
        bare,
        served=False,
        covered=STARTS,
    )
    names = tuple(dict.fromkeys(feeds[unit] for unit in fed))
    if len(names) > 1:
        ways = [_without(feed, needed, fed, feeds) for feed in names]
        bare = "No further feed may fail at this load and line."
        node = every(*ways, because=because)
        yield Function(
            "power.feeds", "a feed to spare", node, Effect.BARE, bare, served=False, covered=STARTS
        )
    carried = tuple((node, at.loads.rating) for node in fed.values())
    yield Measure("power", "power the supplies carry", "W", carried, because, served=False)


def _without(feed: str, needed: int, fed: Mapping[str, Node], feeds: Mapping[str, str]) -> Node:
    return at_least(needed, [node for unit, node in fed.items() if feeds[unit] != feed])


def _undecided(at: Standing, fed: Mapping[str, Node]) -> Iterator[Item]:
    """Without a known load only this is certain: the last supply that is fed may not go."""
    depends = at.loads.power_open or ("supplies in the build",)
    yield Open("how many supplies may fail", depends)
    because = Ground("losing.power", "The machine needs at least one supply that is fed.")
    yield Named("power works", some(*fed.values(), because=because) if fed else every())


def _because(at: Standing) -> Ground:
    needed, loads, line = at.loads.supplies, at.loads, at.build.site.voltage
    held = [at.part(part) for name in at.book.places_of(Supplies) for _, part in at.units(name)]
    ratings = [fact for part in held if isinstance(part, Supply) for fact in part.ratings.values()]
    volts = f" at {line.text}" if line is not None else ""
    verb = "is" if needed == 1 else "are"
    sentence = (
        f"The peak draws {loads.peak:,.0f} W, and a supply carries {loads.rating:,.0f} W{volts}: "
        f"{needed} {verb} needed."
    )
    return Ground("losing.supplies", sentence, at.cite(line, *dict.fromkeys(ratings)))

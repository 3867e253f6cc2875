"""Whether the values of a site can be those of a place."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.facts.fact import Fact
from baywright.facts.site import Site
from baywright.problems import Problem
from baywright.units import Quantity


def check_site(site: Site) -> Iterator[Problem]:
    """Yield what no feed has: a voltage or a rating that is not above 0.

    Altitude and inlet temperature are checked where the air is computed, since they may also be
    given beside a site.

    Kinds of problem: ``not-positive``.
    """
    yield from _above_zero(site.voltage, "voltage")
    for name, feed in site.feeds.items():
        yield from _above_zero(feed.voltage, f"voltage of feed {name}")
        yield from _above_zero(feed.current, f"current of feed {name}")


def _above_zero(fact: Fact[Quantity] | None, name: str) -> Iterator[Problem]:
    if fact is not None and fact.value is not None and fact.value.canonical <= 0:
        hint = "Write it as it is, or leave it out."
        yield Problem("not-positive", f"{name}: {fact.text} is not above 0.", fact.mark, hint)

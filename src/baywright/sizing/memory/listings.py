"""Tables about the memory of one build: its regions, and the ways to its capacity."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from baywright.facts.parts import MemoryModule
from baywright.facts.places import Bank
from baywright.sizing.case import Case
from baywright.sizing.figure import Listing
from baywright.sizing.memory.interleave import even_bandwidth, region_bandwidth, regions
from baywright.sizing.memory.modules import channel_bandwidth, module_name
from baywright.sizing.memory.population import channels_of, speed_of, total
from baywright.sizing.memory.ways import Ways, ways_to

GIGA = 1e9
MEGA = 1e6


def listings(case: Case) -> Iterator[Listing]:
    """Yield the tables about the memory of one build."""
    if not case.book.places_of(Bank):
        return
    if not case.counted("memory").any():
        return
    yield _modules(case)
    yield _regions(case)
    yield _ways(case)


def _modules(case: Case) -> Listing:
    """The modules of the build, with the names the trade gives them by their own rate."""
    modules = (
        (name, part)
        for name in case.fitted
        if isinstance(part := case.book.parts[name], MemoryModule)
    )
    rows = tuple(
        (
            part.name,
            _whole(_count(case, name)),
            part.type,
            part.ranks.text if part.ranks else "not stated",
            part.speed.text if part.speed else "not stated",
            _trade_name(part) or "not decided",
        )
        for name, part in modules
    )
    header = ("module", "fitted", "type", "ranks", "own data rate", "name by its rate")
    return Listing("memory.modules", "Memory modules", header, rows)


def _count(case: Case, part: str) -> float:
    return float(case.weighed(lambda name, _: float(name == part))[0])


def _trade_name(part: MemoryModule) -> str:
    if part.speed is None or part.speed.value is None:
        return ""
    return module_name(part.generation, float(part.speed.known.to("MT/s")) * MEGA)


def _regions(case: Case) -> Listing:
    """The interleave regions of each processor, widest first."""
    channel = float(np.ravel(channel_bandwidth(speed_of(case)))[0])
    rows = []
    for each in channels_of(case):
        found = regions(each.capacities)
        bandwidths = np.asarray(region_bandwidth(found.widths, channel))
        place = case.book.places[each.owner].name
        for size, width, bandwidth in zip(
            found.sizes[0], found.widths[0], bandwidths[0], strict=True
        ):
            if size > 0:
                rows.append((place, f"{width:.0f}", _whole(size), _rate(bandwidth)))
    return Listing(
        "memory.regions",
        "Interleave regions",
        ("processor", "channels", "memory [GB]", "peak bandwidth [GB/s]"),
        tuple(rows),
        "Addresses of one region go round its channels. One region over all channels is best.",
        regions,
    )


def _ways(case: Case) -> Listing:
    """The ways to the capacity that the build has."""
    sizes = (each.capacities.sum(axis=-1) for each in channels_of(case))
    capacity = float(total(sizes, case)[0])
    return ways_listing(case, ways_to(case, capacity, capacity), f"{_whole(capacity)} GB")


def ways_listing(case: Case, ways: Ways, wanted: str) -> Listing:
    """Return ways as a table.

    Args:
        case: the build they are for.
        ways: the ways.
        wanted: what they reach, in words.
    """
    rows = tuple(_way(ways, index) for index in range(len(ways.of_processor)))
    return Listing(
        "memory.ways",
        f"Ways to {wanted} of memory, the best first",
        (
            "each processor",
            "modules",
            "memory [GB]",
            "data rate [MT/s]",
            "bandwidth over all of it [GB/s]",
            "regions",
            f"price [{case.book.book.currency}]",
            "sockets left",
        ),
        rows,
        "Each fitted processor holds the same. Balanced and fast comes first, then the lower "
        "price. These keep the laws of memory; check the whole build for all others.",
        even_bandwidth,
    )


def _way(ways: Ways, index: int) -> tuple[str, ...]:
    return (
        ways.of_processor[index],
        _whole(ways.modules[index]),
        _whole(ways.capacity[index]),
        _whole(ways.speed[index] / MEGA),
        _rate(ways.bandwidth[index]),
        _whole(ways.regions[index]),
        _whole(ways.price[index], "not stated"),
        _whole(ways.free[index]),
    )


def _whole(value: float, otherwise: str = "not decided") -> str:
    return f"{value:,.0f}" if np.isfinite(value) else otherwise


def _rate(value: float) -> str:
    return f"{value / GIGA:,.1f}" if np.isfinite(value) else "not decided"

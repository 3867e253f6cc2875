"""Numbers of sizing before and after a loss: memory, load of the supplies, current of the feeds."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np

from baywright.desk.service.loads import first
from baywright.facts.parts import MemoryModule
from baywright.facts.places import Bank
from baywright.service.losing.graph import Graph
from baywright.service.losing.losing import Lost
from baywright.service.losing.nodes import Scenarios
from baywright.service.losing.standing import label_of
from baywright.service.losing.subsystems.power import feed_of
from baywright.sizing.case import Case
from baywright.sizing.equation import Equation, Reals, equation_of
from baywright.sizing.memory.interleave import even_bandwidth, region_bandwidth
from baywright.sizing.memory.kept_back import mirrored
from baywright.sizing.memory.view import memory_of
from baywright.sizing.power.bays import Bays, bays_of
from baywright.sizing.power.circuits import feed_current
from baywright.sizing.power.feeds import circuits_of
from baywright.sizing.power.flow import current_of_one
from baywright.sizing.power.sharing import load_of_each

BEFORE, AFTER = 0, 1

UNPAIRED = "channels cannot be paired"
UNSAID = "not decided: memory.speeds"


@dataclass(frozen=True, slots=True)
class Change:
    """A number before and after a loss.

    Args:
        name: what it is, a few words.
        before: with everything there; not-a-number where it is not decided.
        after: with what is left.
        unit: its unit.
        condition: what it holds for.
        equation: the formula behind it.
        bound: what it may be at most, where that is known.
        outside: why it may have no value at all.
    """

    name: str
    before: float
    after: float
    unit: str
    condition: str
    equation: Equation
    bound: float = float("nan")
    outside: str = ""

    @property
    def over(self) -> bool:
        """Whether it is past its bound after the loss."""
        return self.after > self.bound * (1 + 1e-9)


def changes(case: Case, graph: Graph, lost: Lost) -> Iterator[Change]:
    """Yield the numbers of sizing that a loss can change.

    Args:
        case: the build as sizing reads it.
        graph: its functions.
        lost: what is lost.
    """
    scenarios = graph.without((), lost.things)
    yield from _memory(case, graph, scenarios)
    yield from _power(case, graph, scenarios)


def _memory(case: Case, graph: Graph, scenarios: Scenarios) -> Iterator[Change]:
    owners = _by_owner(graph)
    if not owners:
        return
    channel = first(memory_of(case).channel)
    rate = "peak, at the data rate before the loss"
    rows: tuple[tuple[str, str, str, Callable[..., object], Callable[[Reals], float]], ...] = (
        ("bandwidth of memory", "GB/s", rate, region_bandwidth, lambda held: _peak(held, channel)),
        (
            "bandwidth over all of memory",
            "GB/s",
            rate,
            even_bandwidth,
            lambda held: first(even_bandwidth(held, channel)),
        ),
        ("memory when mirrored", "GB", "where the machine offers it", mirrored, _mirrored),
    )
    for name, unit, condition, by, value in rows:
        before, after = (
            sum(value(held) for held in _held(graph, owners, scenarios, row) if held.any())
            for row in (BEFORE, AFTER)
        )
        change = Change(name, float(before), float(after), unit, condition, equation_of(by))
        yield replace(change, outside=UNPAIRED if by is mirrored else UNSAID)


def _peak(held: Reals, channel: float) -> float:
    return first(region_bandwidth(float(np.sum(held > 0)), channel))


def _mirrored(held: Reals) -> float:
    return first(mirrored(held))


def _by_owner(graph: Graph) -> dict[str, list[str]]:
    """Return the banks of each processor that hold modules."""
    found: dict[str, list[str]] = {}
    for place, bank in graph.standing.book.places_of(Bank).items():
        if graph.standing.held[place]:
            found.setdefault(str(bank.owner), []).append(place)
    return found


def _held(
    graph: Graph, owners: dict[str, list[str]], scenarios: Scenarios, scenario: int
) -> Iterator[Reals]:
    """Yield the capacity of each channel of each processor that works [GB]."""
    measures = {measure.key: measure for measure in graph.measures}
    for owner, banks in owners.items():
        key = f"memory.{owner}" if f"memory.{owner}" in measures else "memory"
        works = scenarios.weight(measures[key].inputs)[scenario] > 0
        rows = [_channels(graph, bank, scenarios, scenario) for bank in banks]
        yield np.concatenate(rows) * float(works)


def _channels(graph: Graph, place: str, scenarios: Scenarios, scenario: int) -> Reals:
    bank = graph.standing.book.places_of(Bank)[place]
    held = np.zeros(bank.channels.known)
    letters = [_channel(unit) for unit, _ in graph.standing.units(place)]
    order = list(dict.fromkeys(letters))
    gone = scenarios.lost[scenario]
    for unit, name in graph.standing.units(place):
        module = graph.standing.part(name)
        stands = not gone[graph.ids.index(unit)]
        if isinstance(module, MemoryModule) and stands:
            held[order.index(_channel(unit))] += float(module.size.known.to("GB"))
    return held


def _channel(unit: str) -> str:
    """Return the letters of the channel of a module socket, such as ``a`` of ``M1.a2``."""
    return label_of(unit).rstrip("0123456789")


def _power(case: Case, graph: Graph, scenarios: Scenarios) -> Iterator[Change]:
    """Yield the load of each supply that is fed, and the current in each feed."""
    fed = [_fed(graph, scenarios, row) for row in (BEFORE, AFTER)]
    peak, rating = graph.standing.loads.peak, graph.standing.loads.rating
    if not fed[BEFORE] or np.isnan(rating):
        return
    before, after = (_share(peak, len(units)) for units in fed)
    yield Change(
        "load of each supply that is fed",
        before,
        after,
        "W",
        "at peak, shared equally",
        equation_of(load_of_each),
        rating,
    )
    yield from _feeds(case, graph, fed)


def _share(peak: float, supplies: int) -> float:
    return first(load_of_each(peak, float(supplies))) if supplies else 0.0


def _fed(graph: Graph, scenarios: Scenarios, scenario: int) -> list[str]:
    feeds, gone = feed_of(graph.standing), scenarios.lost[scenario]

    def stands(thing: str) -> bool:
        return not gone[graph.ids.index(thing)]

    room = stands("room")
    return [
        unit
        for unit, feed in feeds.items()
        if room and stands(unit) and stands(f"{unit}.cord") and stands(feed)
    ]


def _feeds(case: Case, graph: Graph, fed: list[list[str]]) -> Iterator[Change]:
    bays, feeds = bays_of(case), feed_of(graph.standing)
    peak = graph.standing.loads.peak
    for circuit in circuits_of(case, bays, peak):
        before, after = (_amps(case, bays, peak, units, circuit.name, feeds) for units in fed)
        yield Change(
            f"current of this machine in feed {circuit.name}",
            before,
            after,
            "A",
            "at peak; its bound is shared with all else on the feed",
            equation_of(feed_current),
            first(circuit.usable),
        )


def _amps(
    case: Case, bays: Bays, peak: float, fed: list[str], feed: str, feeds: Mapping[str, str]
) -> float:
    """Return the current in a feed while the supplies that are fed share the peak [A]."""
    each = current_of_one(bays, peak, max(1.0, float(len(fed))), case.around.volts)
    return first(feed_current(each, float(sum(feeds[unit] == f"feed.{feed}" for unit in fed))))

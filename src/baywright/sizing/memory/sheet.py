"""What sizing says of memory."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from baywright.facts.parts import MemoryModule, Processor
from baywright.facts.places import Bank
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Input, Limit, Sheet
from baywright.sizing.memory.interleave import even_bandwidth, region_bandwidth, regions
from baywright.sizing.memory.kept_back import mirrored, with_spares
from baywright.sizing.memory.listings import listings
from baywright.sizing.memory.modules import channel_bandwidth, total_width
from baywright.sizing.memory.population import (
    Channels,
    channels_of,
    speed_of,
    speed_spread,
    total,
)
from baywright.sizing.part import Part

GIGA = 1e9
NONE = "no memory is fitted"
BINARY = "1 TB = 1,024 GB"
PEAK = "peak, at the data rate of the population"


@dataclass(frozen=True, slots=True)
class _Memory:
    """The memory of some builds.

    Args:
        case: the builds.
        channels: the channels of each processor.
        speed: data rate [transfers/s].
    """

    case: Case
    channels: tuple[Channels, ...]
    speed: Reals

    @property
    def channel(self) -> Reals:
        """Bandwidth of one channel [GB/s]."""
        return np.asarray(channel_bandwidth(self.speed)) / GIGA

    @property
    def undecided(self) -> tuple[str, ...]:
        """What the data rate depends on and the book does not say."""
        asked = self.case.counted("memory") > 0
        return ("memory.speeds",) if bool((asked & np.isnan(self.speed)).any()) else ()

    def summed(self, of: Callable[[Channels], Any]) -> Reals:
        """Return the sum over processors of a number for each build."""
        return total((np.asarray(of(each), float) for each in self.channels), self.case)


def sheet(case: Case) -> Sheet:
    """Return the figures and limits of memory of some builds."""
    if not case.book.places_of(Bank):
        return Sheet()
    memory = _Memory(case, channels_of(case), speed_of(case))
    figures = (
        *_capacity(memory),
        *_speed(memory),
        *_bandwidth(memory),
        *_balance(memory),
        *_kept_back(memory),
        *_width(memory),
    )
    return Sheet(figures, tuple(_limits(memory)), ("estimate",))


def _capacity(memory: _Memory) -> Iterator[Figure]:
    capacity = memory.summed(lambda each: each.capacities.sum(axis=-1))
    modules = memory.summed(lambda each: each.modules.sum(axis=-1))
    yield Figure("memory.modules", "memory modules", modules, "")
    yield Figure("memory.capacity", "memory", capacity, "GB", BINARY, inputs=_sizes(memory))
    cores = memory.case.weighed(lambda _, part: _cores(part))
    share, alone = _ratio(capacity, cores), "no processor is fitted"
    yield Figure("memory.core", "memory for each core", share, "GB", BINARY, outside=alone)
    free = np.maximum(_sockets(memory) - modules, 0.0)
    yield Figure("memory.free", "free sockets of fitted processors", free, "")


def _cores(part: object) -> float:
    return float(part.cores.known) if isinstance(part, Processor) else 0.0


def _sockets(memory: _Memory) -> Reals:
    """Module sockets of the processors that are fitted."""

    def of_processor(each: Channels) -> Reals:
        return memory.case.looked_up(each.owner, lambda o: each.sockets if o.parts else 0)

    return memory.summed(of_processor)


def _sizes(memory: _Memory) -> tuple[Input, ...]:
    return tuple(
        Input(f"size of the {part.name}", part.size.text, memory.case.book.cite(part.size))
        for _, part in _modules(memory.case)
    )


def _modules(case: Case) -> Iterator[tuple[str, MemoryModule]]:
    for name in case.fitted:
        part = case.book.parts[name]
        if isinstance(part, MemoryModule):
            yield name, part


def _speed(memory: _Memory) -> Iterator[Figure]:
    section = memory.case.book.memory
    entries = section.speeds if section else []
    said = tuple(
        Input("data rate by population", entry.speed.text, memory.case.book.cite(entry.speed))
        for entry in entries
    )
    yield Figure(
        "memory.speed",
        "data rate of memory",
        memory.speed / 1e6,
        "MT/s",
        "the slowest population sets it for all",
        inputs=said,
        missing=memory.undecided,
        outside=NONE,
    )
    yield Figure(
        "memory.speed_spread",
        "data rate with no channel doubled",
        speed_spread(memory.case) / 1e6,
        "MT/s",
        "the same modules, at most one on a channel",
        inputs=said,
        missing=memory.undecided,
        outside=NONE,
    )
    yield Figure(
        "memory.channel",
        "bandwidth of one channel",
        memory.channel,
        "GB/s",
        PEAK,
        channel_bandwidth,
        missing=memory.undecided,
        outside=NONE,
    )


def _bandwidth(memory: _Memory) -> Iterator[Figure]:
    """Peak over the channels that hold anything, and evened over all of memory."""

    def peak(each: Channels) -> Reals:
        found = np.asarray(region_bandwidth(each.filled, memory.channel))
        return np.where(each.filled > 0, found, 0.0)

    def even(each: Channels) -> Reals:
        found = np.asarray(even_bandwidth(each.capacities, memory.channel))
        return np.where(each.filled > 0, found, 0.0)

    everywhere = "read once from end to end, each processor its own"
    yield from _by_owner(memory, "bandwidth", "bandwidth of memory", PEAK, region_bandwidth, peak)
    yield from _by_owner(
        memory, "even", "bandwidth over all of memory", everywhere, even_bandwidth, even
    )


def _by_owner(
    memory: _Memory,
    word: str,
    name: str,
    condition: str,
    by: Callable[..., Any],
    of: Callable[[Channels], Reals],
) -> Iterator[Figure]:
    """Yield a bandwidth of the whole machine and, where there are several, of each processor."""
    values, key = memory.summed(of), f"memory.{word}"
    missing = memory.undecided
    yield Figure(key, name, values, "GB/s", condition, by, missing=missing)
    for each in memory.channels if len(memory.channels) > 1 else ():
        own, titled = of(each), f"{name} of {memory.case.book.places[each.owner].name}"
        unsaid = missing if np.isnan(own).any() else ()
        yield Figure(f"{key}.{each.owner}", titled, own, "GB/s", condition, by, missing=unsaid)


def _balance(memory: _Memory) -> Iterator[Figure]:
    counts = [regions(each.capacities).count for each in memory.channels]
    most = np.max(counts, axis=0)
    yield Figure(
        "memory.regions",
        "interleave regions of a processor, most",
        most,
        "",
        "1 when every channel that holds anything holds the same",
        regions,
    )
    yield Figure(
        "memory.evenness",
        "share of the bandwidth of channels all filled alike",
        _evenness(memory),
        "%",
        "over all of memory, at the same data rate",
        even_bandwidth,
        outside="no processor with banks is fitted",
    )


def _evenness(memory: _Memory) -> Reals:
    """Channels' worth of bandwidth that all of memory gets, of those that are there [%]."""

    def reached(each: Channels) -> Reals:
        return np.where(
            each.filled > 0, np.asarray(even_bandwidth(each.capacities, 1.0), float), 0.0
        )

    def there(each: Channels) -> Reals:
        width = each.capacities.shape[-1]
        return memory.case.looked_up(each.owner, lambda option: width if option.parts else 0)

    return 100 * _ratio(memory.summed(reached), memory.summed(there))


def _ratio(part: Reals, whole: Reals) -> Reals:
    """Return a ratio, not decided where there is nothing to measure against."""
    return np.where(whole > 0, part / np.where(whole > 0, whole, 1.0), np.nan)


def _kept_back(memory: _Memory) -> Iterator[Figure]:
    lacking = memory.case.lacking("memory", "ranks")
    offered = f"where the machine offers it; {BINARY}"
    yield Figure(
        "memory.mirrored",
        "memory left when mirrored",
        memory.summed(lambda each: mirrored(each.capacities)),
        "GB",
        offered,
        mirrored,
        outside="the channels of a processor cannot be paired",
    )
    yield Figure(
        "memory.rank_spared",
        "memory left with one rank of each channel spare",
        memory.summed(lambda each: with_spares(each.capacities, each.rank)),
        "GB",
        offered,
        with_spares,
        missing=lacking,
        outside="" if lacking else "a channel holds one rank alone",
    )
    yield Figure(
        "memory.module_spared",
        "memory left with one module of each channel spare",
        memory.summed(lambda each: with_spares(each.capacities, each.module)),
        "GB",
        offered,
        with_spares,
        outside="a channel holds one module alone",
    )


def _width(memory: _Memory) -> Iterator[Figure]:
    """The width of the narrowest modules; they are alike in nearly every machine."""
    case = memory.case
    narrowest = np.full(case.size, np.inf)
    for name, part in _modules(case):
        bits = part.check_bits.value if part.check_bits is not None else None
        width = np.nan if bits is None else total_width(bits)
        narrowest = np.minimum(narrowest, np.where(case.has(name), width, np.inf))
    yield Figure(
        "memory.width",
        "bits of a module with those for error correction",
        np.where(np.isinf(narrowest), np.nan, narrowest),
        "bit",
        "64 of them carry data",
        total_width,
        missing=case.lacking("memory", "check_bits"),
        outside=NONE,
    )


def _limits(memory: _Memory) -> Iterator[Limit]:
    section = memory.case.book.memory
    most = section.ranks_per_channel if section else None
    if most is not None and most.value is not None:
        fullest = np.max([each.ranks.max(axis=-1) for each in memory.channels], axis=0)
        lacking = memory.case.lacking("memory", "ranks")
        yield Limit(
            Figure("memory.ranks", "ranks on the fullest channel", fullest, "", missing=lacking),
            float(most.known),
            "most",
            "A channel cannot drive more ranks.",
            facts=memory.case.book.cite(most),
        )


PART = Part("memory", "Memory", sheet, listings)

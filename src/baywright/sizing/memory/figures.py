"""Figures of memory: capacity, data rate, bandwidth, balance, and what modes keep back."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from baywright.facts.parts import Processor
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Input
from baywright.sizing.memory.interleave import even_bandwidth, region_bandwidth, regions
from baywright.sizing.memory.kept_back import mirrored, with_spares
from baywright.sizing.memory.modules import channel_bandwidth, total_width
from baywright.sizing.memory.population import Channels, speed_spread
from baywright.sizing.memory.view import Memory

NONE = "no memory is fitted"
BINARY = "1 TB = 1,024 GB"
PEAK = "peak, at the data rate of the population"


def figures(memory: Memory) -> Iterator[Figure]:
    """Yield the figures of memory of some builds."""
    yield from _capacity(memory)
    yield from _speed(memory)
    yield from _bandwidth(memory)
    yield from _balance(memory)
    yield from _kept_back(memory)
    yield from _width(memory)


def _capacity(memory: Memory) -> Iterator[Figure]:
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


def _sockets(memory: Memory) -> Reals:
    """Module sockets of the processors that are fitted."""

    def of_processor(each: Channels) -> Reals:
        return memory.case.looked_up(each.owner, lambda o: each.sockets if o.parts else 0)

    return memory.summed(of_processor)


def _sizes(memory: Memory) -> tuple[Input, ...]:
    return tuple(
        Input(f"size of the {part.name}", part.size.text, memory.case.cite(part.size))
        for _, part in memory.modules()
    )


def _speed(memory: Memory) -> Iterator[Figure]:
    speed = "the slowest population sets it for all"
    yield _rate(memory, "speed", "data rate of memory", memory.speed, speed)
    alone = "the same modules, at most one on a channel"
    spread = speed_spread(memory.case)
    yield _rate(memory, "speed_spread", "data rate with no channel doubled", spread, alone)
    yield Figure(
        "memory.channel",
        "bandwidth of one channel",
        memory.channel,
        "GB/s",
        PEAK,
        channel_bandwidth,
        _rates(memory),
        memory.undecided,
        outside=NONE,
    )


def _rates(memory: Memory) -> tuple[Input, ...]:
    """The data rates by population that the book states."""
    section = memory.case.book.memory
    return tuple(
        Input("data rate by population", entry.speed.text, memory.case.cite(entry.speed))
        for entry in (section.speeds if section else ())
    )


def _rate(memory: Memory, word: str, name: str, rate: Reals, condition: str) -> Figure:
    return Figure(
        f"memory.{word}",
        name,
        rate / 1e6,
        "MT/s",
        condition,
        inputs=_rates(memory),
        missing=memory.undecided,
        outside=NONE,
    )


def _bandwidth(memory: Memory) -> Iterator[Figure]:
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
    memory: Memory,
    word: str,
    name: str,
    condition: str,
    by: Callable[..., Any],
    of: Callable[[Channels], Reals],
) -> Iterator[Figure]:
    """Yield a bandwidth of the whole machine and, where there are several, of each processor."""
    values, key, said = memory.summed(of), f"memory.{word}", _rates(memory)
    yield Figure(key, name, values, "GB/s", condition, by, said, memory.undecided)
    for each in memory.channels if len(memory.channels) > 1 else ():
        own, titled = of(each), f"{name} of {memory.case.book.places[each.owner].name}"
        unsaid = memory.undecided if np.isnan(own).any() else ()
        yield Figure(f"{key}.{each.owner}", titled, own, "GB/s", condition, by, said, unsaid)


def _balance(memory: Memory) -> Iterator[Figure]:
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


def _evenness(memory: Memory) -> Reals:
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


def _kept_back(memory: Memory) -> Iterator[Figure]:
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
        _ranks(memory),
        lacking,
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


def _ranks(memory: Memory) -> tuple[Input, ...]:
    return tuple(
        Input(f"ranks of the {part.name}", part.ranks.text, memory.case.cite(part.ranks))
        for _, part in memory.modules()
        if part.ranks is not None
    )


def _width(memory: Memory) -> Iterator[Figure]:
    """The width of the narrowest modules; they are alike in nearly every machine."""
    case = memory.case
    narrowest = np.full(case.size, np.inf)
    for name, part in memory.modules():
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
        tuple(
            Input(
                f"check bits of the {part.name}",
                part.check_bits.text,
                case.cite(part.check_bits),
            )
            for _, part in memory.modules()
            if part.check_bits is not None
        ),
        case.lacking("memory", "check_bits"),
        outside=NONE,
    )

"""Every way to reach a capacity with the modules and counts of a book, the best first."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np

from baywright.facts.parts import Part
from baywright.facts.places import Bank
from baywright.laws.frame import Option
from baywright.laws.memory import agree, carries, takes
from baywright.laws.parts import orderable_from
from baywright.sizing.case import Case, Codes
from baywright.sizing.equation import Reals
from baywright.sizing.memory.interleave import even_bandwidth, regions
from baywright.sizing.memory.modules import channel_bandwidth
from baywright.sizing.memory.population import Channels, channels_of, speed_of, total

Population = tuple[Option, ...]
"""What each bank of one processor holds, in the order of the book."""


@dataclass(frozen=True, slots=True)
class Ways:
    """Ways to populate the processors of a build, the best first.

    Balanced ways come first, then the ones with more bandwidth over all of memory, then the
    cheaper ones.

    Args:
        of_processor: what each processor holds, in words.
        modules: modules in the machine.
        capacity: memory of the machine [GB, 1 TB = 1,024 GB].
        speed: data rate [transfers/s].
        bandwidth: bandwidth over all of memory [B/s].
        regions: interleave regions of a processor.
        balanced: whether every channel of every fitted processor holds the same.
        price: list price of the modules, in the currency of the book.
        free: sockets of fitted processors that stay free.
    """

    of_processor: tuple[str, ...]
    modules: Reals
    capacity: Reals
    speed: Reals
    bandwidth: Reals
    regions: Reals
    balanced: Reals
    price: Reals
    free: Reals


def ways_to(case: Case, least: float, most: float = np.inf) -> Ways:
    """Return the ways to give the processors of a build a capacity, each processor alike.

    They keep the laws of memory and the dates of modules; whether the whole build keeps the
    rest, such as power and rules of the book, is for the check of the build.

    Args:
        case: one build; its processors stay.
        least: least memory of the machine [GB, 1 TB = 1,024 GB].
        most: most memory of the machine [GB].
    """
    owners = _owners(case)
    found = list(_populations(case, owners[0])) if owners else []
    tried = [(each, codes) for each in found if (codes := _codes(case, owners, each)) is not None]
    if not tried:
        return _none()
    populated = replace(case, codes=_populated(case, [codes for _, codes in tried]))
    every = _measured(populated, owners, tuple(_said(case, each) for each, _ in tried))
    reached = (every.capacity >= least) & (every.capacity <= most)
    order = np.lexsort((every.price, -every.bandwidth, -every.balanced))
    return _kept(every, _unlike(every, [int(i) for i in order if reached[i]]))


def _owners(case: Case) -> list[str]:
    """Return the processors that are fitted and have banks."""
    owners = dict.fromkeys(str(bank.owner) for bank in case.book.places_of(Bank).values())
    return [owner for owner in owners if case.options(owner)[0].parts]


def _banks(case: Case, owner: str) -> dict[str, Bank]:
    banks = case.book.places_of(Bank)
    return {name: bank for name, bank in banks.items() if bank.owner == owner}


def _populations(case: Case, owner: str) -> Iterator[Population]:
    """Yield what one processor may hold by the laws of memory."""
    columns = [
        [option for option in case.frame.options(name) if _allowed(case, bank, option)]
        for name, bank in _banks(case, owner).items()
    ]
    for population in itertools.product(*columns):
        if any(option.parts for option in population) and _together(case, population):
            yield population


def _allowed(case: Case, bank: Bank, option: Option) -> bool:
    orderable = all(_orderable(case, case.book.parts[part]) for part, _ in option.parts)
    return orderable and takes(bank, option) and carries(case.frame, bank, option)


def _orderable(case: Case, part: Part) -> bool:
    day = orderable_from(case.frame)
    ships, last = part.ships, part.last_order
    return (ships is None or day >= ships.known) and (last is None or day <= last.known)


def _together(case: Case, population: Population) -> bool:
    section = case.book.memory
    one_size = section is not None and section.one_size is not None and section.one_size.known
    alike = ("type", "generation", "size") if one_size else ("type", "generation")
    return all(
        agree(case.frame, first, second, what)
        for first, second in itertools.combinations(population, 2)
        for what in alike
    )


def _codes(case: Case, owners: list[str], population: Population) -> dict[str, int] | None:
    """Return the codes of all banks when every processor holds the same, or ``None``."""
    codes: dict[str, int] = {}
    for owner in owners:
        for name, option in zip(_banks(case, owner), population, strict=False):
            wanted = (i for i, o in enumerate(case.frame.options(name)) if o.parts == option.parts)
            code = next(wanted, None)
            if code is None:
                return None
            codes[name] = code
    return codes


def _populated(case: Case, rows: list[dict[str, int]]) -> Mapping[str, Codes]:
    """Return the codes of the build once for each way, with its banks as the way has them."""
    codes = {name: np.repeat(own[:1], len(rows)) for name, own in case.codes.items()}
    return codes | {name: np.array([row[name] for row in rows]) for name in rows[0]}


def _said(case: Case, population: Population) -> str:
    counts: dict[str, int] = {}
    for option in population:
        for part, count in option.parts:
            counts[part] = counts.get(part, 0) + count
    return " + ".join(f"{n} x {case.book.parts[part].name}" for part, n in counts.items())


def _measured(case: Case, owners: list[str], said: tuple[str, ...]) -> Ways:
    channels = [each for each in channels_of(case) if each.owner in owners]
    speed = speed_of(case)
    channel = np.asarray(channel_bandwidth(speed))
    modules = total((each.modules.sum(axis=-1) for each in channels), case)
    even = (np.asarray(even_bandwidth(each.capacities, channel)) for each in channels)
    return Ways(
        of_processor=said,
        modules=modules,
        capacity=total((each.capacities.sum(axis=-1) for each in channels), case),
        speed=speed,
        bandwidth=total(even, case),
        regions=np.max([regions(each.capacities).count for each in channels], axis=0),
        balanced=np.min([_level(each) for each in channels], axis=0),
        price=case.weighed(lambda _, part: _price(part), case.book.places_of(Bank)),
        free=sum(each.sockets for each in channels) - modules,
    )


def _level(each: Channels) -> Reals:
    """Return 1 where all channels of a processor hold the same, else 0."""
    return np.asarray(np.ptp(each.capacities, axis=-1) == 0, np.float64)


def _price(part: Part) -> float:
    known = part.price is not None and part.price.value is not None
    return float(part.price.known.canonical) if known and part.price else np.nan


def _unlike(every: Ways, order: list[int]) -> list[int]:
    """Return one of each that only differ in which of the banks alike holds what."""
    seen: dict[tuple[str, float], int] = {}
    for index in order:
        seen.setdefault((every.of_processor[index], float(every.bandwidth[index])), index)
    return list(seen.values())


def _kept(every: Ways, order: list[int]) -> Ways:
    numbers = {
        name: getattr(every, name)[order] for name in Ways.__slots__ if name != "of_processor"
    }
    return Ways(tuple(every.of_processor[i] for i in order), **numbers)


def _none() -> Ways:
    empty = np.zeros(0)
    return Ways((), empty, empty, empty, empty, empty, empty, empty, empty)

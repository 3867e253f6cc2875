"""The population of memory: what each channel of each processor holds, and its speed."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial

import numpy as np

from baywright.facts.fact import UnknownFactError
from baywright.facts.parts import MemoryModule
from baywright.facts.places import Bank
from baywright.laws.frame import Option
from baywright.laws.memory import bank_speed, module_of, processor_speed
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.memory.interleave import spread

MEGA = 1e6
"""Transfers in one MT."""


@dataclass(frozen=True, slots=True)
class Channels:
    """What the memory channels of one processor hold, for each build.

    Args:
        owner: the processor socket.
        modules: modules on each channel; builds by channels, as all that follow.
        capacities: capacity of each channel [GB, 1 TB = 1,024 GB].
        ranks: ranks on each channel; not-a-number where the module does not say.
        module: capacity of one module on each channel [GB], 0 where there is none.
        sockets: module sockets of the processor.
    """

    owner: str
    modules: Reals
    capacities: Reals
    ranks: Reals
    module: Reals
    sockets: int

    @property
    def filled(self) -> Reals:
        """Channels that hold something."""
        return np.asarray(np.sum(self.capacities > 0, axis=-1), np.float64)

    @property
    def rank(self) -> Reals:
        """Capacity of one rank on each channel [GB], 0 where there is no module."""
        held = self.modules > 0
        each = self.ranks / np.where(held, self.modules, 1.0)
        return np.where(held, self.module / np.where(held, each, 1.0), 0.0)


def channels_of(case: Case) -> tuple[Channels, ...]:
    """Return the channels of every processor that has banks, in the order of the book."""
    banks = case.book.places_of(Bank)
    owners = dict.fromkeys(str(bank.owner) for bank in banks.values())
    return tuple(
        _joined(case, owner, {name: bank for name, bank in banks.items() if bank.owner == owner})
        for owner in owners
    )


def _joined(case: Case, owner: str, banks: dict[str, Bank]) -> Channels:
    """All banks of one processor side by side."""

    def each(value: Callable[[MemoryModule], float]) -> Reals:
        return np.concatenate(
            [_by_channel(case, name, bank, value) for name, bank in banks.items()], axis=-1
        )

    counts = each(lambda module: 1.0)
    return Channels(
        owner=owner,
        modules=counts,
        capacities=each(_size),
        ranks=each(_ranks),
        module=each(_size) / np.where(counts > 0, counts, 1.0),
        sockets=sum(bank.channels.known * bank.per_channel.known for bank in banks.values()),
    )


def _by_channel(case: Case, name: str, bank: Bank, value: Callable[[MemoryModule], float]) -> Reals:
    """Return the total of a number of each module on each channel of a bank, for each build."""
    rows = [_spread(case, bank, option, value) for option in case.frame.options(name)]
    return np.array(rows)[case.codes[name]]


def _spread(
    case: Case, bank: Bank, option: Option, value: Callable[[MemoryModule], float]
) -> Reals:
    module = module_of(case.frame, option)
    counts = spread(option.count, bank.channels.known)
    return counts if module is None else np.where(counts > 0, counts * value(module), 0.0)


def _size(module: MemoryModule) -> float:
    return float(module.size.known.to("GB"))


def _ranks(module: MemoryModule) -> float:
    ranks = module.ranks.value if module.ranks is not None else None
    return np.nan if ranks is None else float(ranks)


def speed_of(case: Case) -> Reals:
    """Return the data rate of all memory of each build [transfers/s].

    It is that of the slowest population, or of the slowest processor that says what it drives;
    not-a-number where a population has no speed in the book, or there is no memory.
    """
    return _slowest(case, _of_bank)


def speed_spread(case: Case) -> Reals:
    """Return the data rate with the same modules, but no more than one on each channel."""
    return _slowest(case, _of_one)


def _slowest(case: Case, of_bank: Callable[[Case, str, Option], float]) -> Reals:
    slowest = np.full(case.size, np.inf)
    for name, bank in case.book.places_of(Bank).items():
        slowest = np.minimum(slowest, case.looked_up(name, partial(of_bank, case, name)))
        slowest = np.minimum(slowest, case.looked_up(bank.owner, partial(_of_processor, case)))
    empty = case.counted("memory") == 0
    return np.where(empty | np.isinf(slowest), np.nan, slowest * MEGA)


def _of_bank(case: Case, name: str, option: Option) -> float:
    if not option.parts:
        return np.inf
    try:
        speed = bank_speed(case.frame, name, option)
    except UnknownFactError:
        return np.nan
    return np.nan if speed is None else float(speed.to("MT/s"))


def _of_one(case: Case, name: str, option: Option) -> float:
    """Look up the speed of a single module of the kind that a bank holds."""
    parts = tuple((part, 1) for part, _ in option.parts)
    return _of_bank(case, name, Option(option.label, parts))


def _of_processor(case: Case, option: Option) -> float:
    try:
        speed = processor_speed(case.frame, option)
    except UnknownFactError:
        return np.nan
    return np.inf if speed is None else float(speed.to("MT/s"))


def total(values: Iterable[Reals], case: Case) -> Reals:
    """Return the sum over processors of a number for each build."""
    return sum(values, np.zeros(case.size))

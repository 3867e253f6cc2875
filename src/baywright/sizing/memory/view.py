"""The memory of some builds, as figures and limits read it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from baywright.facts.parts import MemoryModule
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.memory.modules import channel_bandwidth
from baywright.sizing.memory.population import Channels, channels_of, speed_of, total

GIGA = 1e9


@dataclass(frozen=True, slots=True)
class Memory:
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

    def modules(self) -> Iterator[tuple[str, MemoryModule]]:
        """Yield the modules that some build has, with their ids."""
        for name in self.case.fitted:
            part = self.case.book.parts[name]
            if isinstance(part, MemoryModule):
                yield name, part


def memory_of(case: Case) -> Memory:
    """Return the memory of some builds."""
    return Memory(case, channels_of(case), speed_of(case))

"""Regulation (EU) 2019/424 on servers: supplies, idle power and active efficiency.

Planning figures: the regulation is met by measuring machines as its Annex III says, and exempts
some kinds of machine that a book cannot tell. Rows for multi-output supplies and for machines of
several nodes are kept so that they can be asked for; nothing here decides that one applies.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from baywright.sizing.equation import Floats, equation, within

SOURCE = "Regulation (EU) 2019/424"

SINGLE_OUTPUT: Mapping[float, float] = MappingProxyType(
    {0.1: 0.90, 0.2: 0.94, 0.5: 0.96, 1.0: 0.91}
)
"""Least efficiency by load, supplies with one output, since 1 January 2023: Annex II 1.1.2."""

MULTI_OUTPUT: Mapping[float, float] = MappingProxyType({0.2: 0.90, 0.5: 0.94, 1.0: 0.91})
"""The same for supplies with several outputs."""

POWER_FACTOR = 0.95
"""Least power factor at half load, since 1 January 2023: Annex II 1.1.2."""

EFFICIENCY_TOLERANCE = 0.02
"""What a market authority's own measurement may fall below, share of the value: Annex IV."""

IDLE_TOLERANCE = 0.10
"""What a market authority's own measurement may lie above, share of the value: Annex IV."""


@dataclass(frozen=True, slots=True)
class Kind:
    """What the regulation asks of one kind of machine.

    Args:
        name: the kind.
        base: base of the idle limit [W], Annex II, Table 3.
        by_performance: idle watts for each unit of processor performance, Table 4.
        least_active: least active efficiency [1], Table 5.
    """

    name: str
    base: float
    by_performance: float
    least_active: float


ONE_SOCKET = Kind("one socket", 25.0, 10.0, 9.0)
TWO_SOCKETS = Kind("two sockets", 38.0, 7.0, 9.5)
BLADE_OR_NODE = Kind("blade or node of several", 40.0, 7.0, 8.0)

SUPPLY, DRIVE, GIGABYTE, CHANNEL = 10.0, 5.0, 0.18, 4.0
"""Idle watts of a redundant supply, a drive, a GB of memory and a buffered channel: Table 4."""

MEMORY_FREE, CHANNELS_FREE, PORTS_FREE = 4.0, 8.0, 2.0
"""Gigabytes, channels and onboard ports of 1 Gb/s or more that bring no allowance: Table 4."""

_PORT_BANDS = ((1.0, 0.0), (10.0, 4.0), (25.0, 15.0), (50.0, 20.0))
"""Idle watts of a port below each speed in Gb/s; exactly 1 Gb/s and the top band stand apart."""


@equation(
    "U13",
    "w = 0 below 1 Gb/s, 2 at 1, 4 up to 10, 15 up to 25, 20 up to 50, 26 from 50 Gb/s",
    source=f"{SOURCE}, Annex II, Table 4",
    valid="speeds above 0",
    outside="nothing is allowed",
)
def port_allowance(speed: float) -> float:
    """Return the idle power allowed for one more active port.

    Args:
        speed: rate of the port [Gb/s].

    Returns:
        Power [W].

    >>> [port_allowance(speed) for speed in (0.1, 1, 2.5, 10, 25, 100)]
    [0.0, 2.0, 4.0, 15.0, 20.0, 26.0]
    """
    if speed == 1.0:
        return 2.0
    return next((watts for below, watts in _PORT_BANDS if speed < below), 26.0)


@dataclass(frozen=True, slots=True)
class Additions:
    """What raises the idle limit of a machine.

    Args:
        performance: performance of all processors as Annex III measures it [1].
        supplies: supplies fitted for redundancy only.
        drives: drives.
        memory: memory [GB].
        channels: buffered memory channels in use.
        ports: idle power allowed for ports beyond those that are free [W].
    """

    performance: Floats
    supplies: Floats
    drives: Floats
    memory: Floats
    channels: Floats
    ports: Floats


@equation(
    "U14",
    "P_idle <= base + c Perf + 10 n_supplies + 5 n_drives + 0.18 (GB - 4) + 4 (channels - 8) "
    "+ ports",
    source=f"{SOURCE}, Annex II 2.1, Tables 3 and 4",
    valid="one or two processor sockets; not resilient machines or those for high-performance "
    "computing",
    outside="not-a-number for negative counts",
)
def idle_limit(kind: Kind, additions: Additions) -> Floats:
    """Return the most that a machine may draw at idle.

    Args:
        kind: kind of machine.
        additions: what raises the limit.

    Returns:
        Power at its inlets [W].
    """
    given = (additions.supplies, additions.drives, additions.memory, additions.channels)
    limit = (
        kind.base
        + np.multiply(kind.by_performance, additions.performance)
        + np.multiply(SUPPLY, additions.supplies)
        + np.multiply(DRIVE, additions.drives)
        + GIGABYTE * np.maximum(np.subtract(additions.memory, MEMORY_FREE), 0.0)
        + CHANNEL * np.maximum(np.subtract(additions.channels, CHANNELS_FREE), 0.0)
        + additions.ports
    )
    valid = np.logical_and.reduce([np.all(np.asarray(each) >= 0) for each in given])
    return within(limit, valid)


@equation(
    "U15",
    "Eff = exp(0.65 ln Eff_processor + 0.30 ln Eff_memory + 0.05 ln Eff_storage)",
    source=f"{SOURCE}, Annex III 3",
    valid="results above 0",
    outside="not-a-number",
)
def active_efficiency(processor: Floats, memory: Floats, storage: Floats) -> Floats:
    """Return the active efficiency of a machine from its three measured results.

    Args:
        processor: result of the processor tests [1].
        memory: result of the memory tests [1].
        storage: result of the storage tests [1].

    Returns:
        Active efficiency [1].

    >>> round(active_efficiency(10.0, 10.0, 10.0), 9)
    10.0
    """
    results = [np.asarray(each, float) for each in (processor, memory, storage)]
    valid = np.logical_and.reduce([each > 0 for each in results])
    logs = [np.log(np.where(each > 0, each, 1.0)) for each in results]
    weighted = sum(share * log for share, log in zip((0.65, 0.30, 0.05), logs, strict=True))
    return within(np.exp(weighted), valid)

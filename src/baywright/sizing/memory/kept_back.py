"""Memory that is kept back: mirrored, spare, or for the host beneath its guests."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, Reals, equation, within


@equation(
    "M8",
    "C_mirrored = C / 2",
    source="Linux kernel documentation of error detection: in mirror mode the same data is "
    "written to two modules",
    valid="channels that can be paired, each with one that holds the same",
    outside="not decided",
)
def mirrored(capacities: Reals) -> Floats:
    """Return what is left when each channel mirrors another of one processor.

    Args:
        capacities: capacity of each channel, any unit; the channels are the last axis.

    Returns:
        Capacity, in the same unit.

    >>> mirrored(np.array([64.0, 64.0, 32.0, 32.0]))
    96.0
    """
    levels = np.sort(capacities, axis=-1)
    if levels.shape[-1] % 2:
        levels = np.concatenate([np.zeros_like(levels[..., :1]), levels], axis=-1)
    paired = np.all(levels[..., 0::2] == levels[..., 1::2], axis=-1)
    return within(np.sum(capacities, axis=-1) / 2, paired)


@equation(
    "M9",
    "C_spare = sum (c_i - u_i) over the channels that hold something",
    source="common practice, no source: one rank, or one module, of each channel waits",
    valid="channels that hold nothing, or two ranks or modules and more",
    outside="not decided",
)
def with_spares(capacities: Reals, units: Reals) -> Floats:
    """Return what is left when one rank or one module of each channel is spare.

    Args:
        capacities: capacity of each channel, any unit; the channels are the last axis.
        units: capacity of one rank or module of each channel, in the same unit; not-a-number
            where it is not known.

    Returns:
        Capacity, in the same unit.

    >>> with_spares(np.array([64.0, 64.0]), np.array([16.0, 16.0]))
    96.0
    """
    held = capacities > 0
    enough = np.all(~held | (capacities >= 2 * units), axis=-1)
    return within(np.sum(np.where(held, capacities - units, 0.0), axis=-1), enough)


@equation(
    "M10",
    "C_guests = (C - C_host) / (1 + overhead)",
    source="definition: each guest costs its memory and a share on top",
    valid="an overhead of 0 and above; nothing is left where the host takes all",
    outside="a negative overhead is refused",
)
def guest_memory(installed: Floats, kept_back: Floats, overhead: Floats) -> Floats:
    """Return the memory that guests of one host can be given.

    Args:
        installed: memory of the host, any unit.
        kept_back: what the host keeps for itself, in the same unit.
        overhead: what a guest costs on top, as a share of its memory [1].

    Returns:
        Memory, in the same unit.

    Raises:
        ValueError: for a negative overhead.

    >>> round(guest_memory(2048, 32, 0.08), 2)
    1866.67
    """
    if np.any(np.less(overhead, 0)):
        raise ValueError("the overhead of a guest cannot be negative")
    left = np.maximum(np.subtract(installed, kept_back), 0.0) / np.add(1.0, overhead)
    return float(left) if np.ndim(left) == 0 else left


@equation(
    "M11",
    "guests = floor(C_guests / c)",
    source="definition: no guest is shared between hosts",
    valid="guests that have some memory",
    outside="not decided",
)
def guests(memory: Floats, each: Floats) -> Floats:
    """Return how many guests of one size fit into the memory of one host.

    Args:
        memory: what guests can be given, any unit.
        each: memory of one guest, in the same unit.

    Returns:
        Guests, a whole number.

    >>> guests(1866.67, 12)
    155.0
    """
    usable = np.greater(each, 0)
    # A guest that fits exactly fits, whatever the last binary digit of the division says.
    return within(np.floor(np.divide(memory, np.where(usable, each, 1.0)) + 1e-9), usable)

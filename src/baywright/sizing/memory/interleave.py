"""Interleaving: the regions of a population, and what they make of its bandwidth.

The model: consecutive addresses go round the channels that still have room, so memory is a stack
of regions. The lowest reaches over every channel that holds anything; each further one over the
channels that hold more. A region moves data at the channels it reaches over; a program that reads
all of memory once spends in each region the time the region takes.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from baywright.sizing.equation import Floats, Reals, equation, within

_TWO_ZONES = (
    "common practice, no source for more than two channels; for two, processor data sheets in "
    "print describe one zone over both channels and one over the larger alone"
)


@equation(
    "M4",
    "m_i = floor((m + n - 1 - i) / n), i = 0 .. n-1",
    source="common practice, no source: modules are spread over channels before any is doubled",
)
def spread(modules: Floats, channels: int) -> Reals:
    """Return the modules on each channel.

    Args:
        modules: modules on all the channels.
        channels: channels, 1 or more.

    Returns:
        Modules by channel, the fullest first; the channels are the last axis.

    Raises:
        ValueError: without a channel or for a negative number of modules.

    >>> spread(5, 4).tolist()
    [2.0, 1.0, 1.0, 1.0]
    """
    if channels < 1 or np.any(np.less(modules, 0)):
        raise ValueError("modules and channels are counted: no module is negative, a channel is 1")
    shifted = np.asarray(modules, np.float64)[..., np.newaxis] + channels - 1 - np.arange(channels)
    return np.asarray(np.floor(shifted / channels), np.float64)


@dataclass(frozen=True, slots=True)
class Regions:
    """The interleave regions of the channels of one processor, widest first.

    Args:
        sizes: capacity of each region, 0 for those that are none; regions are the last axis.
        widths: channels that each reaches over.
    """

    sizes: Reals
    widths: Reals

    @property
    def count(self) -> Reals:
        """How many regions hold anything."""
        return np.asarray(np.sum(self.sizes > 0, axis=-1), np.float64)


@equation(
    "M5",
    "C_r = n_r (c_r - c_{r-1}); n_r channels hold at least c_r, the r-th smallest capacity",
    source=_TWO_ZONES,
)
def regions(capacities: Reals) -> Regions:
    """Return the interleave regions of some channels.

    Args:
        capacities: capacity of each channel, any unit; the channels are the last axis.

    Returns:
        Their regions, in the same unit.

    Raises:
        ValueError: for a negative capacity.

    >>> found = regions(np.array([64.0, 64.0, 32.0, 32.0]))
    >>> found.sizes[found.sizes > 0].tolist(), found.widths[found.sizes > 0].tolist()
    ([128.0, 64.0], [4.0, 2.0])
    """
    if np.any(np.less(capacities, 0)):
        raise ValueError("the capacity of a channel cannot be negative")
    levels = np.sort(capacities, axis=-1)
    steps = np.diff(levels, axis=-1, prepend=0.0)
    widths = np.arange(capacities.shape[-1], 0, -1, dtype=float)
    return Regions(steps * widths, np.broadcast_to(widths, levels.shape))


@equation(
    "M6",
    "B_r = n_r B_channel",
    source="common practice, no source: channels work side by side",
)
def region_bandwidth(widths: Floats, channel: Floats) -> Floats:
    """Return the peak bandwidth of regions, or of any number of channels side by side.

    Args:
        widths: channels that each reaches over.
        channel: bandwidth of one channel [B/s].

    Returns:
        Bandwidth [B/s].
    """
    return np.multiply(widths, channel)


@equation(
    "M7",
    "B = sum C_r / sum (C_r / B_r) = B_channel sum c_i / max c_i",
    source="all of memory read once, each region at its own bandwidth; the model of M5",
    valid="channels of which one holds something",
    outside="not decided",
    estimate=True,
)
def even_bandwidth(capacities: Reals, channel: Floats) -> Floats:
    """Return the bandwidth over the whole memory of one processor, regions weighted by size.

    Args:
        capacities: capacity of each channel, any unit; the channels are the last axis.
        channel: bandwidth of one channel [B/s].

    Returns:
        Bandwidth [B/s]: that of all channels when they hold the same, less otherwise.

    >>> even_bandwidth(np.array([64.0, 32.0, 32.0, 32.0]), 40e9) / 1e9
    100.0
    """
    fullest = np.max(capacities, axis=-1)
    ratio = np.sum(capacities, axis=-1) / np.where(fullest > 0, fullest, 1.0)
    return within(np.multiply(ratio, channel), fullest > 0)

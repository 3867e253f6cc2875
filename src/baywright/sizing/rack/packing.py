"""Packing: how many machines fit into free rack units, and which goes where."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from baywright.sizing.equation import Floats, equation, within

UNIT = 0.04445
"""Height of a rack unit, m: EIA-310."""


@equation("R16", "u = ceil(height / 44.45 mm)", source="EIA-310: 1 U is 1.75 in")
def units_of(height: float) -> int:
    """Return the rack units that a machine takes.

    Args:
        height: its height [m]; one that comes out even takes no unit more.

    Raises:
        ValueError: when the height is not above 0.

    >>> units_of(0.0889), units_of(0.09)
    (2, 3)
    """
    if not height > 0:
        raise ValueError("a machine has some height")
    return math.ceil(height / UNIT - 1e-9)


@equation("R17", "n = b sum(floor(run / u))", source="counting")
def machines_by_space(runs: Sequence[int], units: int, beside: int = 1) -> int:
    """Return how many equal machines fit into free runs of rack units.

    Args:
        runs: rack units of each free run.
        units: rack units that one machine, or one tray, takes.
        beside: machines side by side in one tray.

    Raises:
        ValueError: when a machine takes no unit, or a run is negative.

    >>> (
    ...     machines_by_space([42], 2),
    ...     machines_by_space([5, 5], 2),
    ...     machines_by_space([3], 1, beside=2),
    ... )
    (21, 4, 6)
    """
    if units < 1 or beside < 1 or any(run < 0 for run in runs):
        raise ValueError("runs are 0 or more units, and a machine takes 1 or more")
    return beside * sum(run // units for run in runs)


@equation(
    "R18",
    "n = floor(available / each)",
    source="counting",
    valid="each > 0",
    outside="not-a-number",
)
def machines_by_total(available: Floats, each: Floats) -> Floats:
    """Return how many equal machines a shared total bears, such as mass, current or heat.

    A total that comes out even counts in full, whatever its last binary digit says.

    Args:
        available: what there is, in any unit; below 0 it bears none.
        each: what one machine takes, in that unit.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.divide(np.maximum(available, 0.0), each)
        return within(np.floor(share * (1 + 1e-12) + 1e-9), np.greater(each, 0))


def packed(heights: Sequence[int], runs: Sequence[int]) -> tuple[tuple[int, ...], ...] | None:
    """Return which machines go into which free run, or nothing when they do not all fit.

    Exact: every way is tried, the highest machine first, and no way twice.

    Args:
        heights: rack units of each machine, 1 or more.
        runs: rack units of each free run.

    Returns:
        For each run the positions in ``heights`` of the machines in it.

    Raises:
        ValueError: when a machine takes no unit.

    >>> packed([2, 4, 1], [3, 4])
    ((0, 2), (1,))
    >>> packed([2, 2, 2], [3, 3]) is None
    True
    """
    if any(height < 1 for height in heights):
        raise ValueError("a machine takes 1 rack unit or more")
    order = sorted(range(len(heights)), key=lambda position: -heights[position])
    chosen = _place([heights[position] for position in order], list(runs), set())
    if chosen is None:
        return None
    return tuple(
        tuple(sorted(machine for machine, run in zip(order, chosen, strict=True) if run == number))
        for number in range(len(runs))
    )


def _place(
    heights: list[int], free: list[int], hopeless: set[tuple[int, tuple[int, ...]]]
) -> list[int] | None:
    """Return the run of each machine, or nothing; what cannot work is remembered."""
    state = (len(heights), tuple(sorted(free)))
    if not heights:
        return []
    if state in hopeless or sum(heights) > sum(free):
        return None
    for run in _different(free, heights[0]):
        free[run] -= heights[0]
        rest = _place(heights[1:], free, hopeless)
        free[run] += heights[0]
        if rest is not None:
            return [run, *rest]
    hopeless.add(state)
    return None


def _different(free: list[int], height: int) -> Iterator[int]:
    """Yield runs with room for a height; of runs with the same room only the first."""
    seen = set()
    for run, room in enumerate(free):
        if room >= height and room not in seen:
            seen.add(room)
            yield run

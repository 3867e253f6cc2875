"""Axes: round steps, and where a number stands on the sheet."""

from __future__ import annotations

import math
from dataclasses import dataclass

ROUND = (1.0, 2.0, 2.5, 5.0, 10.0)


@dataclass(frozen=True, slots=True)
class Axis:
    """A straight axis.

    Args:
        title: what is on it, with its unit.
        low: number at its start.
        high: number at its end.
        start: where it starts on the sheet [px].
        end: where it ends [px].
    """

    title: str
    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Return where a number stands on the sheet [px]."""
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)

    def ticks(self, about: int = 5) -> list[float]:
        """Return round numbers along the axis, about so many."""
        step = round_step((self.high - self.low) / about)
        first = math.ceil(self.low / step - 1e-9)
        last = math.floor(self.high / step + 1e-9)
        return [round(i * step, 10) for i in range(first, last + 1)]


def round_step(step: float) -> float:
    """Return the next round number that is at least a step.

    >>> round_step(0.13), round_step(7.0)
    (0.2, 10.0)
    """
    scale = float(10.0 ** math.floor(math.log10(step)))
    return float(next(each * scale for each in ROUND if each * scale >= step * (1 - 1e-9)))


def spanned(values: list[float], about: int = 5) -> tuple[float, float]:
    """Return round bounds around some numbers."""
    low, high = min(values), max(values)
    step = round_step(max(high - low, abs(high) * 1e-3, 1e-9) / about)
    return math.floor(low / step + 1e-9) * step, math.ceil(high / step - 1e-9) * step

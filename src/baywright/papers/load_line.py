"""The load line: a load to scale, its bound always at the same place of the width."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.wording import Load
from baywright.units import number

BOUND_AT = Fraction(82)
"""Where the bound stands, in per cent of the width, so that the eye compares gaps."""

LEAST_LABEL = Fraction(8)
"""A narrower segment, in per cent of the width, has its number in the list below the line only."""


@dataclass(frozen=True, slots=True)
class Bar:
    """A segment as drawn: where it starts and how wide it is, in per cent of the width."""

    label: str
    amount: str
    start: float
    width: float
    lettered: bool


@dataclass(frozen=True, slots=True)
class Line:
    """A load line as drawn.

    Args:
        bars: the segments, left to right.
        bound: where the bound stands, in per cent of the width.
        end: where the load ends.
        title: what is drawn.
        bound_words: what sets the bound.
        sentence: load, bound and margin in words.
        margin: what is left or over.
    """

    bars: tuple[Bar, ...]
    bound: float
    end: float
    title: str
    bound_words: str
    sentence: str
    margin: str

    @property
    def over(self) -> float:
        """Width of what lies over the bound, in per cent; 0 when nothing does."""
        return max(0.0, self.end - self.bound)


def load_line(load: Load) -> Line:
    """Lay out a load line.

    The bound stands at ``BOUND_AT`` unless the load would then run out of the width.
    """
    scale = Fraction(100) / max(load.used, Fraction(1))
    if load.bound:
        scale = min(scale, BOUND_AT / load.bound)
    bars = []
    start = Fraction(0)
    for segment in load.segments:
        width = segment.amount * scale
        shown = number(segment.amount, 0)
        lettered = width >= LEAST_LABEL
        bars.append(Bar(segment.label, shown, float(start), float(width), lettered))
        start += width
    bound, end = float(load.bound * scale), float(start)
    return Line(tuple(bars), bound, end, load.title, load.bound_words, load.sentence, load.margin)

"""Fronts: builds by two numbers of which less is better, the proposals lettered."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from baywright.drawing.charts.axis import Axis, spanned
from baywright.drawing.charts.curves import Mark, frame, marked
from baywright.drawing.svg import Node, document, headed, line, node, text

WIDTH, HEIGHT = 720.0, 440.0
LEFT, RIGHT, TOP, BOTTOM = 72.0, 672.0, 100.0, 376.0
LEAST_SPAN = 0.1
"""Least length of an axis, as a share of its greatest number."""

Place: TypeAlias = tuple[float, float]
"""A point on the sheet [px]."""

RING = 11.0
"""Radius of the ring around a letter [px]."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A build on a front.

    Args:
        x: its number on the lower axis.
        y: its number on the left axis.
        letter: letter of the proposal that it is, or empty.
    """

    x: float
    y: float
    letter: str = ""


@dataclass(frozen=True, slots=True)
class Front:
    """A front with its axes.

    Args:
        title: what it shows.
        subtitle: of what.
        along: title of the lower axis, unit included.
        across: title of the left axis, unit included.
        spots: the builds; at least one.
        bounds: bounds of the need, drawn by the pen.
        description: the front in sentences.
    """

    title: str
    subtitle: str
    along: str
    across: str
    spots: tuple[Spot, ...]
    bounds: tuple[Mark, ...] = ()
    description: str = ""


def front(drawn: Front) -> str:
    """Return a front as an SVG document."""
    xs = [spot.x for spot in drawn.spots] + [b.x for b in drawn.bounds if b.x is not None]
    ys = [spot.y for spot in drawn.spots]
    along = Axis(drawn.along, *_span(xs), LEFT, RIGHT)
    across = Axis(drawn.across, *_span(ys), BOTTOM, TOP)
    parts = itertools.chain(
        headed(drawn.title, drawn.subtitle),
        frame(along, across),
        *(marked(bound, along, across) for bound in drawn.bounds),
        _points(drawn.spots, along, across),
        _letters(drawn.spots, along, across),
    )
    title = f"{drawn.title}: {drawn.subtitle}"
    return document((WIDTH, HEIGHT), title, drawn.description, parts)


def _span(values: list[float]) -> tuple[float, float]:
    """Return round bounds around some numbers, so far apart that their ticks tell them apart."""
    low, high = min(values), max(values)
    widened = max(0.0, LEAST_SPAN * abs(high) - (high - low)) / 2
    return spanned([low - widened, high + widened])


def _points(spots: Sequence[Spot], along: Axis, across: Axis) -> Iterator[Node]:
    for spot in spots:
        yield node("circle", cx=along.at(spot.x), cy=across.at(spot.y), r=3.0, class_="line")


def _letters(spots: Sequence[Spot], along: Axis, across: Axis) -> Iterator[Node]:
    """Yield a ring with the letter of each proposal, beside its point and off those before it."""
    rings: list[tuple[float, float]] = []
    points = [(along.at(spot.x), across.at(spot.y)) for spot in spots]
    for spot in spots:
        if not spot.letter:
            continue
        x, y = along.at(spot.x), across.at(spot.y)
        at = _free(x, y, rings, points)
        rings.append(at)
        yield line(x, y, *at, "fine")
        yield node("circle", cx=at[0], cy=at[1], r=RING, class_="ring")
        yield text(spot.letter, at[0], at[1] + 4.5, "strong said middle")


def _free(x: float, y: float, rings: Sequence[Place], points: Sequence[Place]) -> Place:
    """Return the nearest place for a ring that is on the chart and covers no ring and no point."""
    steps = (15.0, 22.0, 30.0, 42.0, 56.0, 72.0, 90.0)
    ways = (
        (0.7, -0.7), (0.7, 0.7), (-0.7, -0.7), (-0.7, 0.7), (1, 0), (0, -1), (-1, 0), (0, 1)
    )  # fmt: skip
    for step, (dx, dy) in itertools.product(steps, ways):
        at = (x + dx * step, y + dy * step)
        inside = LEFT + RING < at[0] < RIGHT + RING and TOP - RING < at[1] < BOTTOM - RING
        if inside and _clear(at, rings, 2 * RING + 2) and _clear(at, points, RING + 4):
            return at
    return x, y


def _clear(at: Place, others: Sequence[Place], apart: float) -> bool:
    return all((at[0] - x) ** 2 + (at[1] - y) ** 2 >= apart**2 for x, y in others)

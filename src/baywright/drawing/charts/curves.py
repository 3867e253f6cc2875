"""Curves over an axis: each with a line and a mark of its own, its name at its end."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baywright.drawing.charts.axis import Axis, spanned
from baywright.drawing.svg import Node, document, headed, line, node, text, written

WIDTH, HEIGHT = 720.0, 440.0
LEFT, RIGHT, TOP, BOTTOM = 72.0, 528.0, 100.0, 376.0
DASHES = (None, "8 3", "2 3", "8 3 2 3")
LETTER = 15.0
"""Least distance of two names at the end of their curves [px]."""


@dataclass(frozen=True, slots=True)
class Curve:
    """One curve.

    Args:
        name: its name, written at its end.
        points: numbers along and across, in order; at least two.
    """

    name: str
    points: Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Mark:
    """A point or a line that the reader should see.

    Args:
        words: what it is.
        x: where on the lower axis; ``None`` for a level across the chart.
        y: where on the left axis; ``None`` for an upright line.
    """

    words: str
    x: float | None = None
    y: float | None = None


@dataclass(frozen=True, slots=True)
class Chart:
    """Curves with their axes.

    Args:
        title: what it shows.
        subtitle: of what, and under which conditions.
        along: title of the lower axis, unit included.
        across: title of the left axis, unit included.
        curves: the curves.
        marks: what the pen marks.
        description: the chart in sentences.
    """

    title: str
    subtitle: str
    along: str
    across: str
    curves: tuple[Curve, ...]
    marks: tuple[Mark, ...] = ()
    description: str = ""


def chart(drawn: Chart) -> str:
    """Return a chart as an SVG document."""
    xs = [x for curve in drawn.curves for x, _ in curve.points]
    ys = [y for curve in drawn.curves for _, y in curve.points]
    xs += [mark.x for mark in drawn.marks if mark.x is not None]
    ys += [mark.y for mark in drawn.marks if mark.y is not None]
    along = Axis(drawn.along, min(xs), max(xs), LEFT, RIGHT)
    across = Axis(drawn.across, *spanned(ys), BOTTOM, TOP)
    parts = itertools.chain(
        headed(drawn.title, drawn.subtitle),
        frame(along, across),
        _curves(drawn.curves, along, across),
        *(marked(mark, along, across) for mark in drawn.marks),
    )
    description = drawn.description or described(drawn)
    title = f"{drawn.title}: {drawn.subtitle}"
    return document((WIDTH, HEIGHT), title, description, parts)


def described(drawn: Chart) -> str:
    """Return a chart in sentences: from where to where each curve goes, and what is marked."""
    said = [
        f"{curve.name}: from {_number(curve.points[0][1])} at {_number(curve.points[0][0])} "
        f"to {_number(curve.points[-1][1])} at {_number(curve.points[-1][0])}."
        for curve in drawn.curves
    ]
    marks = [f"{mark.words}." for mark in drawn.marks]
    return " ".join([f"{drawn.across} over {drawn.along}.", *said, *marks])


def frame(along: Axis, across: Axis) -> Iterator[Node]:
    """Yield the grid of a chart with the numbers and titles of its axes."""
    left, right, top, bottom = along.start, along.end, across.end, across.start
    for tick in along.ticks():
        x = along.at(tick)
        yield line(x, top, x, bottom, "grid")
        yield text(_number(tick), x, bottom + 18, "label middle")
    for tick in across.ticks():
        y = across.at(tick)
        yield line(left, y, right, y, "grid")
        yield text(_number(tick), left - 8, y + 4, "label end")
    yield line(left, bottom, right, bottom, "outline")
    yield text(along.title, (left + right) / 2, bottom + 42, "label middle")
    yield text(across.title, 16, top - 18, "label")


def _curves(curves: Sequence[Curve], along: Axis, across: Axis) -> Iterator[Node]:
    ends = _spread([across.at(curve.points[-1][1]) for curve in curves])
    for curve, dash, end in zip(curves, itertools.cycle(DASHES), ends, strict=False):
        at = [(along.at(x), across.at(y)) for x, y in curve.points]
        points = " ".join(f"{written(x)},{written(y)}" for x, y in at)
        yield node("polyline", points=points, class_="line", stroke_dasharray=dash)
        x, y = at[-1]
        yield line(x, y, RIGHT + 14, end, "fine")
        yield text(curve.name, RIGHT + 18, end + 4, "said")


def _spread(heights: Sequence[float]) -> list[float]:
    """Move names apart so that none covers another; their order stays."""
    placed = list(heights)
    order = sorted(range(len(heights)), key=heights.__getitem__)
    for before, after in itertools.pairwise(order):
        placed[after] = max(placed[after], placed[before] + LETTER)
    return placed


def marked(mark: Mark, along: Axis, across: Axis) -> Iterator[Node]:
    """Yield what the pen marks on a chart: a point, an upright line or a level."""
    if mark.x is not None and mark.y is not None:
        x, y = along.at(mark.x), across.at(mark.y)
        yield node("circle", cx=x, cy=y, r=5.0, class_="pen")
        left = x > (along.start + along.end) / 2
        yield text(mark.words, x - 10 if left else x + 10, y + 22, _side("penned", left=left))
    elif mark.x is not None:
        x = along.at(mark.x)
        yield line(x, across.end, x, across.start, "pen", "6 3")
        yield text(mark.words, x, across.end - 6, "penned middle")
    elif mark.y is not None:
        y = across.at(mark.y)
        yield line(along.start, y, along.end, y, "pen", "6 3")
        yield text(mark.words, along.start + 6, y - 6, "penned")


def _side(style: str, *, left: bool) -> str:
    return f"{style} end" if left else style


def _number(value: float) -> str:
    return f"{value:,.0f}" if abs(value) >= 10_000 else f"{value:,.4g}"

"""Numbered call-outs: circles on rails beside a drawing, spread so that none covers another.

A leader runs from its circle straight to a joint, slants once, and runs straight to its anchor. All
slants lie in one band and circles keep the order of their anchors, so leaders never cross.
Rails lie above and below a drawing and, where they serve better, beside it. Placing is written for
rails above and below; for those beside, the two coordinates are swapped on the way in and out.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from baywright.drawing.geometry import Point, Rect, crosses

RADIUS = 10.0
"""Radius of a circle [px]."""

DOT = 2.4
"""Radius of the dot at the end of a leader [px]."""

GAP = 24.0
"""Least distance of two circles on one rail [px]; more than two radii."""

FRACTIONS = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)
"""Where along its place an anchor may be, the best first."""

Side: TypeAlias = Literal["top", "right", "bottom", "left"]

SIDES: tuple[Side, ...] = ("top", "left", "right", "bottom")
"""The rails, in the order of their numbers: as one reads, from above to below."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A place that wants a call-out.

    Args:
        name: id of the place.
        rects: where it is drawn, downwards from the upper left corner of the view.
    """

    name: str
    rects: tuple[Rect, ...]


@dataclass(frozen=True, slots=True)
class Anchored:
    """A call-out with its anchor, its rail not yet spread.

    Args:
        name: id of the place.
        side: its rail.
        anchor: where the leader ends.
    """

    name: str
    side: Side
    anchor: Point

    def straight(self, bounds: Rect) -> tuple[Point, Point]:
        """Return the straight end of its leader, from the edge of the drawing to the anchor."""
        x, y = self.anchor
        edge = {
            "top": (x, bounds.y),
            "bottom": (x, bounds.end),
            "left": (bounds.x, y),
            "right": (bounds.right, y),
        }
        return edge[self.side], self.anchor


def spread(ideal: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Move points along a rail apart, as little as they must be.

    Args:
        ideal: where each would best be, in rising order [px].
        gap: least distance of neighbours [px].
        low: start of the rail [px].
        high: its end [px].

    Returns:
        Positions in the same order. They are the closest ones, in the sum of squares, that keep
        the gap and the rail; where the rail is too short the gap shrinks evenly.

    >>> spread([10.0, 12.0, 50.0], 20.0, 0.0, 100.0)
    [1.0, 21.0, 50.0]
    """
    if len(ideal) > 1:
        gap = min(gap, (high - low) / (len(ideal) - 1))
    shifted = [min(max(x, low), high) - i * gap for i, x in enumerate(ideal)]
    level = _rising(shifted)
    top = high - (len(ideal) - 1) * gap
    return [min(max(x, low), top) + i * gap for i, x in enumerate(level)]


def _rising(values: Sequence[float]) -> list[float]:
    """Return the closest values that never fall, by pooling neighbours that do."""
    pools: list[tuple[float, int]] = []
    for value in values:
        pools.append((value, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (last, n), (first, m) = pools.pop(), pools.pop()
            pools.append(((first * m + last * n) / (m + n), m + n))
    return [mean for mean, number in pools for _ in range(number)]


@dataclass(frozen=True, slots=True)
class Drawn:
    """What a leader had better not cross.

    Args:
        rects: places and notes.
        lines: lines between places.
    """

    rects: tuple[Rect, ...]
    lines: tuple[tuple[Point, Point], ...] = ()


def anchored(
    wanted: Sequence[Wanted], bounds: Rect, drawn: Drawn, most: Mapping[Side, int]
) -> list[Anchored]:
    """Choose rail and anchor of each call-out: the leader that crosses least, then the shortest.

    Args:
        wanted: the places.
        bounds: the drawing, in the same units as the places.
        drawn: everything that a leader had better not cross.
        most: how many call-outs each rail takes; together at least as many as are wanted.
    """
    taken: list[Anchored] = []
    for each in sorted(wanted, key=lambda w: (w.rects[0].x, w.rects[0].y)):
        used = Counter(other.side for other in taken)
        rects = tuple(rect for rect in drawn.rects if rect not in each.rects)
        strange = Drawn(rects, drawn.lines)
        choices = [
            Anchored(each.name, side, point)
            for side in SIDES
            if used[side] < most[side]
            for rect in each.rects
            for point in _points(rect, side)
        ]
        taken.append(min(choices, key=lambda c: _cost(c, bounds, strange, taken)))
    return taken


def _points(rect: Rect, side: Side) -> list[Point]:
    if side in ("top", "bottom"):
        y = rect.y if side == "top" else rect.end
        return [(rect.x + share * rect.width, y) for share in FRACTIONS]
    x = rect.x if side == "left" else rect.right
    return [(x, rect.y + share * rect.height) for share in FRACTIONS]


def _cost(
    choice: Anchored, bounds: Rect, drawn: Drawn, taken: Sequence[Anchored]
) -> tuple[int, float]:
    """Return what speaks against a choice: lines it crosses or covers, then its length."""
    start, end = choice.straight(bounds)
    near = 0.004 * (bounds.width + bounds.height)
    crossed = sum(crosses(start, end, rect) for rect in drawn.rects)
    crossed += sum(crosses(*line, _grown(start, end, near / 4)) for line in drawn.lines)
    crossed += sum(8 for other in taken if _meet(start, end, *other.straight(bounds), near))
    length = abs(start[0] - end[0]) + abs(start[1] - end[1])
    # Rails above and below come first where there is little between them and those beside.
    aside = 0.02 * (bounds.width + bounds.height) if choice.side in ("left", "right") else 0.0
    return crossed, round(length + aside, 3)


def _meet(start: Point, end: Point, other: Point, other_end: Point, near: float) -> bool:
    """Say whether two upright or level lines cross or come nearer than that."""
    one, two = _grown(start, end, near), _grown(other, other_end, near)
    return one.meets(two)


def _grown(start: Point, end: Point, by: float) -> Rect:
    left, top = min(start[0], end[0]), min(start[1], end[1])
    width, height = abs(start[0] - end[0]), abs(start[1] - end[1])
    return Rect(left - by / 2, top - by / 2, width + by, height + by)


@dataclass(frozen=True, slots=True)
class Callout:
    """A call-out on its rail.

    Args:
        name: id of the place.
        number: its number.
        centre: centre of the circle [px].
        joints: the leader from the circle to the anchor [px].
    """

    name: str
    number: int
    centre: Point
    joints: tuple[Point, ...]

    @property
    def dot(self) -> Rect:
        """The square around the dot at the anchor, with a little room."""
        x, y = self.joints[-1]
        return Rect(x - DOT - 1, y - DOT - 1, 2 * DOT + 2, 2 * DOT + 2)


BAND, NEAR, FAR = 14.0, 26.0, 50.0
"""Width of the band of slants, and distance of the first and second row of circles [px]."""


def depth(number: int, length: float) -> float:
    """Return how much room call-outs need beside the drawing [px].

    Args:
        number: how many are on the rail.
        length: length of the rail, from the first centre to the last [px].
    """
    if not number:
        return 0.0
    return (FAR if _needs_two_rows(number, length) else NEAR) + RADIUS + 4


def most_in_rows(length: float, rows: int) -> int:
    """Return how many call-outs a rail holds without touching.

    Args:
        length: length of the rail, from the first centre to the last [px].
        rows: 1 or 2.
    """
    return rows * int(length / GAP) + 1 if length >= 0 else 0


def placed(found: Sequence[Anchored], bounds: Rect, region: Rect) -> list[Callout]:
    """Place circles on their rails, lead them to their anchors and number them.

    Args:
        found: call-outs with their anchors [px].
        bounds: the drawing [px].
        region: the drawing with the room for its rails [px].
    """
    made: list[Callout] = []
    for side in SIDES:
        own = [each for each in found if each.side == side]
        if side in ("top", "bottom"):
            rail, ends = _edge(bounds, side), (region.x + RADIUS + 1, region.right - RADIUS - 1)
            laid = _on_rail([each.anchor for each in own], rail, ends)
        else:
            rail, ends = _edge(bounds, side), (bounds.y + RADIUS, bounds.end - RADIUS)
            laid = [
                (i, _swap(centre), tuple(map(_swap, joints)))
                for i, centre, joints in _on_rail([_swap(each.anchor) for each in own], rail, ends)
            ]
        for index, centre, joints in laid:
            made.append(Callout(own[index].name, len(made) + 1, centre, joints))
    return made


@dataclass(frozen=True, slots=True)
class _Edge:
    """An edge of a drawing, and whether its rail lies at greater or at smaller numbers."""

    at: float
    outward: float


def _edge(bounds: Rect, side: Side) -> _Edge:
    return {
        "top": _Edge(bounds.y, -1.0),
        "bottom": _Edge(bounds.end, 1.0),
        "left": _Edge(bounds.x, -1.0),
        "right": _Edge(bounds.right, 1.0),
    }[side]


def _swap(point: Point) -> Point:
    return point[1], point[0]


def _on_rail(
    anchors: Sequence[Point], edge: _Edge, ends: tuple[float, float]
) -> list[tuple[int, Point, tuple[Point, ...]]]:
    """Return, in order along a rail, the index of each anchor with its circle and its leader."""
    order = sorted(range(len(anchors)), key=lambda i: anchors[i])
    two = _needs_two_rows(len(order), ends[1] - ends[0])
    along = spread([anchors[i][0] for i in order], GAP / 2 if two else GAP, *ends)
    made = []
    for index, x, far in zip(order, along, itertools.cycle((False, two)), strict=False):
        centre = (x, edge.at + edge.outward * (FAR if far else NEAR))
        made.append((index, centre, _leader(centre, anchors[index], edge)))
    return made


def _needs_two_rows(number: int, length: float) -> bool:
    return (number - 1) * GAP > length


def _leader(centre: Point, anchor: Point, edge: _Edge) -> tuple[Point, ...]:
    x, y = centre
    start = (x, y - edge.outward * RADIUS)
    if abs(x - anchor[0]) < 0.5:
        return (start, anchor)
    near, far = edge.at + edge.outward, edge.at + edge.outward * BAND
    return (start, (x, far), (anchor[0], near), anchor)

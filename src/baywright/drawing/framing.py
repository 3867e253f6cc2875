"""Where a view lies on its sheet: scale, rails for call-outs, grid and ruler."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from baywright.drawing.callouts import (
    GAP,
    RADIUS,
    Anchored,
    Drawn,
    Side,
    Wanted,
    anchored,
    depth,
    most_in_rows,
)
from baywright.drawing.geometry import Point, Rect
from baywright.drawing.labels import Block
from baywright.drawing.lettering import width_of
from baywright.drawing.pen import lettered
from baywright.drawing.scene import Note, Scene, Stroke
from baywright.drawing.svg import Node, line

LEAST_WIDTH = 320.0
"""Narrowest sheet [px]."""

NARROW = 700.0
"""Below this width a sheet has one column and stands its views on end [px]."""

TALLEST = 860.0
"""Highest drawing [px]."""

LARGEST, LARGEST_SCHEMATIC = 5.0, 2.2
"""Largest scale of a view, and of one that is to no scale [px/mm]."""

RULER = 24.0
"""Room for the ruler [px]."""


@dataclass(frozen=True, slots=True)
class Frame:
    """Where a view lies on its sheet.

    Args:
        width: width of the sheet [px].
        margin: margin at the left and right [px].
        bounds: the view itself [px].
        region: the view with its rails and its ruler [px].
        scale: scale [px/mm].
        anchors: call-outs with their rails and anchors [px].
    """

    width: float
    margin: float
    bounds: Rect
    region: Rect
    scale: float
    anchors: tuple[Anchored, ...]

    def point(self, at: Point) -> Point:
        """Return where a point of the view lies on the sheet."""
        x, y = at
        return self.bounds.x + x * self.scale, self.bounds.end - y * self.scale

    def rect(self, rect: Rect) -> Rect:
        """Return where a rectangle of the view lies on the sheet."""
        x, y = self.point((rect.x, rect.end))
        return Rect(x, y, rect.width * self.scale, rect.height * self.scale)


def margin_of(width: float) -> float:
    """Return the margin of a sheet [px]."""
    return 16.0 if width < NARROW else 28.0


def width_for(wanted: float, number: int) -> float:
    """Return the width of a sheet whose rails hold so many call-outs [px].

    Args:
        wanted: width asked for [px].
        number: how many call-outs there are.
    """
    width = max(wanted, LEAST_WIDTH)
    while 2 * most_in_rows(width - 2 * margin_of(width) - RAIL_ENDS, 2) < number + 2:
        width += GAP
    return width


RAIL_ENDS = 2 * RADIUS + 2
"""What circles at both ends take from the length of a rail [px]."""

ASIDE = 430.0
"""Least width left beside a drawing for its key to stand there [px]."""


@dataclass(frozen=True, slots=True)
class _Plan:
    """Rails of a view before it is scaled."""

    scene: Scene
    width: float
    wanted: frozenset[str]

    @property
    def room(self) -> float:
        return self.width - 2 * margin_of(self.width)

    @property
    def _joins(self) -> list[Stroke]:
        """Lines that mean something; the others run below the places."""
        return [stroke for stroke in self.scene.strokes if stroke.id and not stroke.arrow]

    @property
    def least_scale(self) -> float:
        """Scale with rails at both sides; the real one is not smaller."""
        return self.scale(2 * depth(1, 0.0))

    def scale(self, beside: float) -> float:
        across, up = self.scene.size
        largest = LARGEST if self.scene.to_scale else LARGEST_SCHEMATIC
        return min((self.room - beside) / across, TALLEST / up, largest)

    @property
    def rail(self) -> float:
        """Length of the rails above and below [px]."""
        drawn = self.scene.size[0] * self.least_scale + 2 * depth(1, 0.0)
        narrow = drawn + ASIDE < self.room
        short = 2 * most_in_rows(drawn - RAIL_ENDS, 1) >= len(self.wanted) + 2
        return (drawn if narrow and short else self.room) - RAIL_ENDS

    def anchors(self) -> list[Anchored]:
        """Return rails and anchors, downwards from the upper left corner of the view [mm]."""
        across, up = self.scene.size

        def down(rect: Rect) -> Rect:
            return Rect(rect.x, up - rect.end, rect.width, rect.height)

        half = (len(self.wanted) + 1) // 2 + 1
        beside = most_in_rows(up * self.least_scale - 2 * RADIUS, 1)
        over = min(half, most_in_rows(self.rail, 2))
        groups = [group for group in self.scene.groups if group.id in self.wanted]
        asked = [Wanted(group.id, tuple(map(down, group.rects))) for group in groups]
        drawn = [down(rect) for group in self.scene.groups for rect in group.rects]
        notes = [down(_note_rect(note, self.least_scale)) for note in self.scene.notes]
        lines = (pair for stroke in self._joins for pair in pairwise(stroke.points))
        flipped = tuple(((x1, up - y1), (x2, up - y2)) for (x1, y1), (x2, y2) in lines)
        obstacles = Drawn((*drawn, *notes), flipped)
        most: dict[Side, int] = {"top": over, "bottom": over, "left": beside, "right": beside}
        return anchored(asked, Rect(0.0, 0.0, across, up), obstacles, most)


def _note_rect(note: Note, scale: float) -> Rect:
    """Return about what a note takes of a view [mm]."""
    (x, y), height = note.at, 15.0 / scale
    width = width_of(note.words, 12.0) / scale
    left = {"start": x, "middle": x - width / 2, "end": x - width}[note.align]
    foot = {"above": y, "on": y - height / 2, "below": y - height}[note.stands]
    return Rect(left, foot, width, height)


def framed(scene: Scene, width: float, top: float, wanted: frozenset[str]) -> Frame:
    """Return where a view lies on its sheet, and where its call-outs go.

    Args:
        scene: the view.
        width: width of the sheet [px].
        top: where the view may begin [px].
        wanted: ids of the places with a call-out.
    """
    plan = _Plan(scene, width, wanted)
    found = plan.anchors()
    number = Counter(each.side for each in found)
    left, right = depth(number["left"], 0.0), depth(number["right"], 0.0)
    above = (RULER if scene.to_scale else 4.0) + max(8.0, depth(number["top"], plan.rail))
    below = max(8.0, depth(number["bottom"], plan.rail))
    scale = plan.scale(left + right)
    (across, up), margin = scene.size, margin_of(width)
    used = left + across * scale + right
    region_width = max(used, plan.rail + RAIL_ENDS)
    x = margin + left + max(0.0, region_width - used) / 2
    bounds = Rect(x, top + above, across * scale, up * scale)
    region = Rect(margin, top, region_width, above + up * scale + below)
    anchors = (
        replace(a, anchor=(bounds.x + a.anchor[0] * scale, bounds.y + a.anchor[1] * scale))
        for a in found
    )
    return Frame(width, margin, bounds, region, scale, tuple(anchors))


def grid(frame: Frame) -> Iterator[Node]:
    """Yield squares of 10 mm and, stronger, of 50 mm below a view."""
    bounds, region = frame.bounds, frame.region
    for step, style in ((10.0, "grid"), (50.0, "grid5")):
        if step * frame.scale < 5.0:
            continue
        left, right = region.x - bounds.x, region.right - bounds.x
        for x in _steps(left, right, step * frame.scale):
            yield line(bounds.x + x, region.y, bounds.x + x, region.end, style)
        low, high = bounds.end - region.end, bounds.end - region.y
        for y in _steps(low, high, step * frame.scale):
            yield line(region.x, bounds.end - y, region.right, bounds.end - y, style)


def _steps(low: float, high: float, apart: float) -> Iterator[float]:
    return (i * apart for i in range(math.ceil(low / apart), math.floor(high / apart) + 1))


def ruler(frame: Frame) -> Iterator[Node]:
    """Yield a ruler in millimetres along the upper edge of a view."""
    y = frame.region.y + RULER - 4.0
    start, end = frame.bounds.x, frame.bounds.right
    yield line(start, y, end, y, "fine")
    for x in _steps(0.0, frame.bounds.width, 10.0 * frame.scale):
        if 10.0 * frame.scale >= 3.0:
            yield line(start + x, y, start + x, y - 3.0, "fine")
    for block in ruler_numbers(frame):
        x = block.box.x - 3.0
        yield line(x, y, x, y - 9.0, "fine")
        yield from lettered(block)


def ruler_numbers(frame: Frame) -> Iterator[Block]:
    """Yield the numbers of a ruler, each to the right of its line."""
    step = next(s for s in (50, 100, 200, 500, 1000, 5000) if s * frame.scale >= 48.0)
    for i in range(int(frame.bounds.width / frame.scale / step) + 1):
        words = "0 mm" if i == 0 else str(i * step)
        x = frame.bounds.x + i * step * frame.scale + 3.0
        box = Rect(x, frame.region.y + 3.0, width_of(words, 11.0), 14.0)
        if box.right <= max(frame.region.right, frame.bounds.right):
            yield Block((words,), box, 11.0, style="faint", align="start")

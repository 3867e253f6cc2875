"""Rectangles and quarter turns.

Machines are measured in millimetres from the lower left corner, upwards; sheets in pixels from
the upper left corner, downwards. The same rectangle serves both.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

Point: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle.

    Args:
        x: its left edge.
        y: its lower edge on a machine, its upper edge on a sheet.
        width: its width.
        height: its height.
    """

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.x + self.width

    @property
    def end(self) -> float:
        """The edge opposite ``y``."""
        return self.y + self.height

    @property
    def middle(self) -> Point:
        """Its centre."""
        return self.x + self.width / 2, self.y + self.height / 2

    def inset(self, by: float) -> Rect:
        """Return it smaller by so much at each side; at most to nothing."""
        across, along = min(by, self.width / 2), min(by, self.height / 2)
        return Rect(
            self.x + across, self.y + along, self.width - 2 * across, self.height - 2 * along
        )

    def meets(self, other: Rect) -> bool:
        """Say whether the two share more than an edge."""
        return (
            self.x < other.right - 1e-6
            and other.x < self.right - 1e-6
            and self.y < other.end - 1e-6
            and other.y < self.end - 1e-6
        )

    def holds(self, other: Rect) -> bool:
        """Say whether another lies inside it."""
        return (
            self.x <= other.x + 1e-6
            and self.y <= other.y + 1e-6
            and other.right <= self.right + 1e-6
            and other.end <= self.end + 1e-6
        )

    def across(self, parts: int) -> list[Rect]:
        """Return it cut into equal parts side by side.

        >>> [part.x for part in Rect(0, 0, 9, 5).across(3)]
        [0.0, 3.0, 6.0]
        """
        width = self.width / parts
        return [Rect(self.x + i * width, self.y, width, self.height) for i in range(parts)]

    def stacked(self, parts: int) -> list[Rect]:
        """Return it cut into equal parts one above the other."""
        height = self.height / parts
        return [Rect(self.x, self.y + i * height, self.width, height) for i in range(parts)]

    def strips(self, parts: int) -> list[Rect]:
        """Return it cut across its shorter side, into long strips as modules lie in sockets."""
        return self.across(parts) if self.width <= self.height else self.stacked(parts)


def turned_point(point: Point, size: Point, quarters: int) -> Point:
    """Return where a point of a view lies when the view is turned clockwise.

    Args:
        point: the point, upwards from the lower left corner.
        size: width and height of the view before.
        quarters: quarter turns.

    >>> turned_point((1.0, 2.0), (10.0, 5.0), 1)
    (2.0, 9.0)
    """
    (x, y), (width, height) = point, size
    for _ in range(quarters % 4):
        x, y, width, height = y, width - x, height, width
    return x, y


def turned_size(size: Point, quarters: int) -> Point:
    """Return width and height of a view after quarter turns."""
    return (size[1], size[0]) if quarters % 2 else size


def turned(rect: Rect, size: Point, quarters: int) -> Rect:
    """Return a rectangle of a view that is turned clockwise by quarter turns."""
    x1, y1 = turned_point((rect.x, rect.y), size, quarters)
    x2, y2 = turned_point((rect.right, rect.end), size, quarters)
    return Rect(min(x1, x2), min(y1, y2), abs(x2 - x1), abs(y2 - y1))


def crosses(start: Point, end: Point, rect: Rect) -> bool:
    """Say whether a straight line passes through the inside of a rectangle.

    By clipping the line to the rectangle, side by side (Liang and Barsky).
    """
    (x1, y1), (x2, y2) = start, end
    low, high = 0.0, 1.0
    for delta, near, far in (
        (x2 - x1, rect.x + 1e-6 - x1, rect.right - 1e-6 - x1),
        (y2 - y1, rect.y + 1e-6 - y1, rect.end - 1e-6 - y1),
    ):
        if abs(delta) < 1e-9:
            if near >= 0 or far <= 0:
                return False
            continue
        first, last = sorted((near / delta, far / delta))
        low, high = max(low, first), min(high, last)
    return low < high

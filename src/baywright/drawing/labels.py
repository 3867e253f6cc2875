"""Letters that fit: inside a shape in full, inside in a shorter form, or else by number and key.

No letter is smaller than the least size, none is cut off, and none covers another or a leader.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baywright.drawing.geometry import Point, Rect, crosses
from baywright.drawing.lettering import ASCENT, BASE, LEAST, widest

SIZES = (BASE, 12.0, LEAST)
LINE = 1.25
"""Distance of two lines [type size]."""

PAD = 3.0
"""Least distance of letters from the edge of their shape [px]."""

SHIFTS = (0.5, 0.25, 0.75, 0.0, 1.0)
"""Where in its room a block of letters is tried, as shares of what is left over."""


@dataclass(frozen=True, slots=True)
class Block:
    """Lines of text at their place on the sheet.

    Args:
        lines: the text.
        box: the room they stay within [px].
        size: type size [px].
        upright: whether they run upwards.
        style: CSS classes.
        align: ``start`` or ``middle``.
    """

    lines: tuple[str, ...]
    box: Rect
    size: float
    upright: bool = False
    style: str = "said"
    align: str = "middle"

    def baselines(self) -> Iterator[tuple[str, float, float]]:
        """Yield each line with where its baseline starts, or is centred, on the sheet [px]."""
        x, y = self.box.middle
        for i, line in enumerate(self.lines):
            down = (i * LINE + ASCENT + (LINE - 1) / 2) * self.size
            if self.upright:
                yield line, self.box.x + down, y
            else:
                yield line, self.box.x if self.align == "start" else x, self.box.y + down


@dataclass(frozen=True, slots=True)
class Obstacles:
    """What letters keep off.

    Args:
        boxes: rectangles [px].
        lines: straight lines [px].
    """

    boxes: tuple[Rect, ...] = ()
    lines: tuple[tuple[Point, Point], ...] = ()

    def clear(self, box: Rect) -> bool:
        """Say whether a rectangle is free of them."""
        return not any(box.meets(other) for other in self.boxes) and not any(
            crosses(start, end, box) for start, end in self.lines
        )

    def near(self, rect: Rect) -> Obstacles:
        """Return those that touch a rectangle."""
        return Obstacles(
            tuple(box for box in self.boxes if box.meets(rect)),
            tuple(line for line in self.lines if crosses(*line, rect)),
        )

    def joined(self, boxes: Sequence[Rect]) -> Obstacles:
        """Return them with more rectangles."""
        return Obstacles((*self.boxes, *boxes), self.lines)


def fit(
    lines: tuple[str, ...], room: Rect, size: float, obstacles: Obstacles, *, upright: bool = False
) -> Block | None:
    """Return lines placed in a room, or ``None`` where they do not fit at that size.

    Args:
        lines: the text.
        room: where they may stand [px].
        size: type size [px].
        obstacles: what they keep off.
        upright: whether they run upwards.
    """
    inner = room.inset(PAD)
    width, height = widest(lines, size), len(lines) * LINE * size
    if upright:
        width, height = height, width
    if width > inner.width or height > inner.height:
        return None
    for down in SHIFTS:
        for along in SHIFTS:
            x = inner.x + along * (inner.width - width)
            y = inner.y + down * (inner.height - height)
            box = Rect(x, y, width, height)
            if obstacles.clear(box):
                return Block(lines, box, size, upright)
    return None


def best(letters: Sequence[tuple[str, ...]], room: Rect, obstacles: Obstacles) -> Block | None:
    """Return the fullest form that fits in a room, level before upright, large before small."""
    near = obstacles.near(room)
    for lines in letters:
        for upright in (False, True):
            for size in SIZES:
                block = fit(lines, room, size, near, upright=upright)
                if block is not None:
                    return block
    return None


def alike(
    wanted: Sequence[tuple[Sequence[tuple[str, ...]], Rect]], obstacles: Obstacles
) -> list[Block] | None:
    """Return letters for several like shapes in the same form, or ``None`` where none fits all.

    Args:
        wanted: for each shape what may be written in it, the fullest first, and its room [px].
        obstacles: what letters keep off.
    """
    forms = max((len(letters) for letters, _ in wanted), default=0)
    near = [obstacles.near(room) for _, room in wanted]
    for form in range(forms):
        for upright in (False, True):
            for size in SIZES:
                blocks = [
                    fit(letters[min(form, len(letters) - 1)], room, size, around, upright=upright)
                    for (letters, room), around in zip(wanted, near, strict=True)
                ]
                found = [block for block in blocks if block is not None]
                if len(found) == len(blocks):
                    return found
    return None

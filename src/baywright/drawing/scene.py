"""Scenes: what a view shows, in millimetres, before anybody decides where letters go."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum

from baywright.drawing.contents import State
from baywright.drawing.geometry import Point, Rect, turned, turned_point, turned_size


class Form(Enum):
    """How a shape is drawn, beside its state."""

    PLAIN = "plain"
    DRIVE = "drive"
    MODULE = "module"
    FAN = "fan"
    PORT = "port"
    FRAME = "frame"


@dataclass(frozen=True, slots=True)
class Shape:
    """A place, or one position in it.

    Args:
        id: id of the place or position.
        rect: where it is [mm].
        state: what is said of it.
        part: id of what is in it, or empty.
        words: what it is and holds, in words; read aloud, and shown where one points.
        letters: what may be written in it, the fullest first, each line by line.
        label: name of the position, kept at its foot.
        form: how it is drawn.
        strokes: lines at its head, which tell fast drives from others.
    """

    id: str
    rect: Rect
    state: State
    part: str = ""
    words: str = ""
    letters: tuple[tuple[str, ...], ...] = ()
    label: str = ""
    form: Form = Form.PLAIN
    strokes: int = 0


@dataclass(frozen=True, slots=True)
class Group:
    """A place with its shapes.

    Args:
        id: id of the place.
        name: its name.
        says: what it holds, in words.
        rects: its outlines [mm].
        shapes: the place itself, or its positions.
        frame: a shape around the positions, or ``None``.
    """

    id: str
    name: str
    says: str
    rects: tuple[Rect, ...]
    shapes: tuple[Shape, ...]
    frame: Shape | None = None

    @property
    def all_shapes(self) -> tuple[Shape, ...]:
        """The frame, if there is one, and the positions."""
        return (*((self.frame,) if self.frame else ()), *self.shapes)

    @property
    def outlines(self) -> tuple[Rect, ...]:
        """What a highlight of the place goes around."""
        return (self.frame.rect,) if self.frame else self.rects

    def moved(self, there: Callable[[Rect], Rect]) -> Group:
        """Return it with every rectangle moved."""

        def shape(each: Shape) -> Shape:
            return replace(each, rect=there(each.rect))

        frame = shape(self.frame) if self.frame else None
        rects, shapes = tuple(map(there, self.rects)), tuple(map(shape, self.shapes))
        return replace(self, rects=rects, shapes=shapes, frame=frame)

    def raised(self, by: float) -> Group:
        """Return it higher on its view [mm]."""
        return self.moved(lambda rect: replace(rect, y=rect.y + by))


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line that joins things: a cable, lanes, a cord, air.

    Args:
        id: what it is, or empty for a line that says nothing by itself.
        points: its corners [mm].
        style: ``cable``, ``lanes``, ``cord``, ``air``, ``fine``, ``centre``, ``hidden``.
        words: what it joins, in words.
        arrow: whether it ends in an arrow head.
    """

    id: str
    points: tuple[Point, ...]
    style: str
    words: str = ""
    arrow: bool = False


@dataclass(frozen=True, slots=True)
class Note:
    """A short text at a point.

    Args:
        words: the text.
        at: the point [mm].
        align: ``start``, ``middle`` or ``end``.
        stands: ``above`` the point, ``on`` it or ``below`` it.
        short: what is written instead where there is no room, or empty.
        room: how wide it may get [mm], or 0 for as wide as the sheet.
    """

    words: str
    at: Point
    align: str = "start"
    stands: str = "above"
    short: str = ""
    room: float = 0.0


@dataclass(frozen=True, slots=True)
class Scene:
    """A view.

    Args:
        view: its name.
        title: its title.
        size: width and height [mm].
        body: outlines of the machine itself [mm].
        groups: places with their shapes.
        strokes: lines between them, drawn below them.
        notes: short texts.
        remarks: sentences below the drawing.
        facing: what lies at which edge, in words, or empty.
        to_scale: whether millimetres on it are those of the machine.
    """

    view: str
    title: str
    size: Point
    body: tuple[Rect, ...] = ()
    groups: tuple[Group, ...] = ()
    strokes: tuple[Stroke, ...] = ()
    notes: tuple[Note, ...] = ()
    remarks: tuple[str, ...] = ()
    facing: str = ""
    to_scale: bool = True

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """Every shape, frames before what is in them."""
        return tuple(shape for group in self.groups for shape in group.all_shapes)

    def marked(self, name: str) -> tuple[Rect, ...]:
        """Return the rectangles of a place or of one position in it [mm]."""
        for group in self.groups:
            if group.id == name:
                return group.outlines
        return tuple(shape.rect for shape in self.shapes if shape.id == name)

    def turned(self, quarters: int, facing: str | None = None) -> Scene:
        """Return it turned clockwise by quarter turns; letters stay upright."""

        def there(rect: Rect) -> Rect:
            return turned(rect, self.size, quarters)

        def moved(point: Point) -> Point:
            return turned_point(point, self.size, quarters)

        return replace(
            self,
            size=turned_size(self.size, quarters),
            body=tuple(map(there, self.body)),
            groups=tuple(group.moved(there) for group in self.groups),
            strokes=tuple(replace(s, points=tuple(map(moved, s.points))) for s in self.strokes),
            notes=tuple(replace(n, at=moved(n.at)) for n in self.notes),
            facing=self.facing if facing is None else facing,
        )

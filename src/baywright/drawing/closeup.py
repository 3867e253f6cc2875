"""Close-ups: one place, or a machine alone, drawn without letters to stand beside words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from baywright.drawing import pen
from baywright.drawing.draw import scene_of
from baywright.drawing.geometry import Rect
from baywright.drawing.scene import Group, Scene
from baywright.drawing.svg import Node, document, line
from baywright.facts.book import Book
from baywright.facts.build import Build

EDGE = 2.0
"""Room around the place, for the width of its outline [px]."""

SQUARE = 10.0
"""Squares behind a machine [mm]."""


@dataclass(frozen=True, slots=True)
class _Window:
    """What of a view is shown [mm], how large [px/mm], and the room around it [px]."""

    around: Rect
    scale: float
    edge: float

    @property
    def size(self) -> tuple[float, float]:
        across, up = self.around.width * self.scale, self.around.height * self.scale
        return across + 2 * self.edge, up + 2 * self.edge

    def there(self, rect: Rect) -> Rect:
        """Return where a rectangle of the view lies on the drawing."""
        x, y = rect.x - self.around.x, self.around.end - rect.end
        scaled = (each * self.scale for each in (x, y, rect.width, rect.height))
        left, top, width, height = scaled
        return Rect(left + self.edge, top + self.edge, width, height)

    def shapes(self, scene: Scene, groups: Iterable[Group]) -> Iterator[Node]:
        """Yield the shapes of some places."""
        for group in groups:
            for each in group.all_shapes:
                yield pen.shape(each, self.there(each.rect), scene.view, 0.0)

    def squares(self) -> Iterator[Node]:
        """Yield the lines of a grid, counted from the lower left corner of the view."""
        (width, height), step = self.size, SQUARE * self.scale
        for i in range(int(width / step) + 1):
            x = self.edge + (i - int(self.edge / step)) * step
            yield line(x, 0.0, x, height, "grid")
        for i in range(int(height / step) + 1):
            y = height - self.edge - (i - int(self.edge / step)) * step
            yield line(0.0, y, width, y, "grid")


def closeup(
    view: str, book: Book, build: Build | None, place: str, most: tuple[float, float]
) -> str | None:
    """Return one place as an SVG document, or ``None`` where the view does not show it.

    All close-ups of a place have one scale, whatever is in it.

    Args:
        view: one of ``VIEWS``.
        book: the facts.
        build: what is in its places, or ``None`` for nothing decided.
        place: id of the place.
        most: the greatest width and height [px].
    """
    scene = scene_of(view, book, build)
    group = next((each for each in scene.groups if each.id == place), None)
    if group is None:
        return None
    around = _around(group.rects)
    room = (most[0] - 2 * EDGE) / around.width, (most[1] - 2 * EDGE) / around.height
    window = _Window(around, min(room), EDGE)
    children = (pen.patterns(scene.view), *window.shapes(scene, (group,)))
    said = f"{group.name}: {group.says}."
    return document(window.size, group.name, said, children, pen.CLASSES, fixed=True)


def alone(view: str, book: Book, build: Build | None, scale: float) -> str:
    """Return a machine without letters, on squares of 10 mm, as an SVG document.

    Args:
        view: one of ``VIEWS`` that is to scale.
        book: the facts.
        build: what is in its places, or ``None`` for nothing decided.
        scale: pixels of a millimetre, so that several machines can be compared.
    """
    scene = scene_of(view, book, build)
    window = _Window(Rect(0.0, 0.0, *scene.size), scale, SQUARE * scale)
    body = (pen.box(window.there(rect), class_="body") for rect in scene.body)
    shapes = window.shapes(scene, scene.groups)
    children = (pen.patterns(scene.view), *window.squares(), *body, *shapes)
    said = " ".join(f"{group.name}: {group.says}." for group in scene.groups)
    title = f"{book.book.name}, {scene.title}"
    return document(window.size, title, said, children, pen.CLASSES, fixed=True)


def _around(rects: Iterable[Rect]) -> Rect:
    """Return the rectangle around some rectangles, at least one."""
    each = list(rects)
    x, y = min(rect.x for rect in each), min(rect.y for rect in each)
    right, end = max(rect.right for rect in each), max(rect.end for rect in each)
    return Rect(x, y, right - x, end - y)

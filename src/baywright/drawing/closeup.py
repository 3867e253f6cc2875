"""Close-ups: one place of a view drawn alone, without letters, to stand beside its words."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.drawing import pen
from baywright.drawing.draw import scene_of
from baywright.drawing.geometry import Rect
from baywright.drawing.scene import Group
from baywright.drawing.svg import document
from baywright.facts.book import Book
from baywright.facts.build import Build

EDGE = 2.0
"""Room around the place, for the width of its outline [px]."""


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
    scale = min((most[0] - 2 * EDGE) / around.width, (most[1] - 2 * EDGE) / around.height)
    size = (around.width * scale + 2 * EDGE, around.height * scale + 2 * EDGE)

    def there(rect: Rect) -> Rect:
        x, y = (rect.x - around.x) * scale, (around.end - rect.end) * scale
        return Rect(x + EDGE, y + EDGE, rect.width * scale, rect.height * scale)

    drawn = (pen.shape(each, there(each.rect), scene.view, 0.0) for each in group.all_shapes)
    children = (pen.patterns(scene.view), *drawn)
    return document(size, group.name, _said(group), children, pen.CLASSES, fixed=True)


def _around(rects: Iterable[Rect]) -> Rect:
    """Return the rectangle around some rectangles, at least one."""
    each = list(rects)
    x, y = min(rect.x for rect in each), min(rect.y for rect in each)
    right, end = max(rect.right for rect in each), max(rect.end for rect in each)
    return Rect(x, y, right - x, end - y)


def _said(group: Group) -> str:
    return f"{group.name}: {group.says}."

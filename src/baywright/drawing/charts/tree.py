"""Trees: numbered points below each other, each behind the line that leads to it."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from baywright.drawing.lettering import wrapped
from baywright.drawing.svg import Node, document, headed, line, node, text

WIDTH, EDGE, TOP = 960.0, 16.0, 84.0
STEP, RADIUS = 34.0, 11.0
"""From a point to those that hang on it, and the radius of its ring [px]."""
LINE, GAP = 18.0, 14.0
"""From line to line of text, and between points [px]."""


@dataclass(frozen=True, slots=True)
class Point:
    """A point of a tree.

    Args:
        number: its number.
        leads: what leads to it, or empty.
        says: what is done there.
        beside: what is said about it, in small letters.
        points: the points that hang on it.
    """

    number: int
    leads: str
    says: str
    beside: str = ""
    points: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Warned:
    """Something that stands before the tree, with a triangle: a word and a sentence."""

    word: str
    says: str


@dataclass(frozen=True, slots=True)
class _Set:
    """A point with its lines set, and where it stands on the sheet [px]."""

    point: Point
    lines: tuple[tuple[str, str], ...]
    x: float
    y: float
    parent: float | None


def tree(
    title: str, subtitle: str, root: Point, warned: Sequence[Warned] = (), foot: str = ""
) -> str:
    """Return a tree as an SVG document.

    Args:
        title: what it shows.
        subtitle: of what.
        root: its first point.
        warned: what has to be read before it.
        foot: what stands below it.
    """
    before, top = _before(warned)
    placed = list(_placed(root, EDGE + RADIUS, top))
    end = max(each.y + LINE * len(each.lines) for each in placed) + GAP
    below = wrapped(foot, WIDTH - 2 * EDGE) if foot else []
    parts = itertools.chain(
        headed(title, subtitle),
        before,
        itertools.chain.from_iterable(map(_lines_to, placed)),
        itertools.chain.from_iterable(map(_drawn, placed)),
        (text(words, EDGE, end + LINE * (i + 1), "label") for i, words in enumerate(below)),
    )
    size = (WIDTH, end + LINE * len(below) + GAP)
    said = [*(f"{each.word}: {each.says}" for each in warned), *_said(root), foot]
    return document(size, f"{title}: {subtitle}", " ".join(said).strip(), parts, fixed=True)


def _before(warned: Iterable[Warned]) -> tuple[list[Node], float]:
    """Return what stands before the tree, and where the tree begins."""
    made: list[Node] = []
    y = TOP
    for each in warned:
        made.append(_triangle(EDGE + 6, y - 4))
        made.append(text(each.word, EDGE + 20, y, "strong said"))
        for words in wrapped(each.says, WIDTH - 2 * EDGE - 20):
            y += LINE
            made.append(text(words, EDGE + 20, y))
        y += LINE + 4
    return made, y + 6


def _triangle(x: float, y: float) -> Node:
    return node(
        "path", d=f"M{x - 6:g} {y + 5:g} L{x:g} {y - 6:g} L{x + 6:g} {y + 5:g} Z", class_="line"
    )


def _placed(point: Point, x: float, y: float, parent: float | None = None) -> Iterator[_Set]:
    """Yield a point and those that hang on it, from top to bottom."""
    room = WIDTH - EDGE - (x + RADIUS + 8)
    lines = [("penned", words) for words in wrapped(point.leads, room)] if point.leads else []
    lines += [("said", words) for words in wrapped(point.says, room)]
    lines += [("label", words) for words in wrapped(point.beside, room)] if point.beside else []
    yield _Set(point, tuple(lines), x, y, parent)
    below = y + LINE * len(lines) + GAP
    for each in point.points:
        for found in _placed(each, x + STEP, below, y):
            yield found
            below = max(below, found.y + LINE * len(found.lines) + GAP)


def _lines_to(each: _Set) -> Iterator[Node]:
    """Yield the line that leads to a point."""
    if each.parent is not None:
        x = each.x - STEP
        yield line(x, each.parent + RADIUS, x, each.y, "line")
        yield line(x, each.y, each.x - RADIUS, each.y, "line")


def _drawn(each: _Set) -> Iterator[Node]:
    yield node("circle", cx=each.x, cy=each.y, r=RADIUS, class_="ring")
    yield text(str(each.point.number), each.x, each.y + 4.5, "strong said middle")
    for i, (style, words) in enumerate(each.lines):
        yield text(words, each.x + RADIUS + 8, each.y + 4.5 + LINE * i, style)


def _said(point: Point) -> Iterator[str]:
    leads = f"{point.leads}: " if point.leads else ""
    yield f"{point.number}. {leads}{point.says} {point.beside}".strip()
    for each in point.points:
        yield from _said(each)

"""A sheet: a view with title, grid, ruler, call-outs, key, remarks, legend and title block."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import partial

from baywright.drawing import key, pen
from baywright.drawing.framing import Frame, grid, margin_of, ruler, width_for
from baywright.drawing.geometry import Rect
from baywright.drawing.labels import Block
from baywright.drawing.lettered import TAG, Lettered, Numbering, letter
from baywright.drawing.lettering import width_of, wrapped
from baywright.drawing.marks import Highlight
from baywright.drawing.scene import Scene, Stroke
from baywright.drawing.svg import Node, document, node

TITLE = 20.0
BESIDE = 380.0
"""Least width for a key beside its drawing [px]."""


@dataclass(frozen=True, slots=True)
class Imprint:
    """What the title block says.

    Args:
        machine: name of the machine.
        edition: edition of the book, in ISO form.
        as_of: the day the drawing holds for, in ISO form.
        build: name of the build, or empty.
        stance: how the machine stands, or empty for the usual way.
    """

    machine: str
    edition: str
    as_of: str
    build: str = ""
    stance: str = ""


@dataclass(frozen=True, slots=True)
class Layout:
    """How a sheet is to be laid out.

    Args:
        width: its width [px]; it is shown at that width, so that letters keep their size.
        numbering: which places get a call-out.
        highlights: what is said about places, by id.
    """

    width: float = 1100.0
    numbering: Numbering = "all"
    highlights: Mapping[str, Highlight] = field(default_factory=dict)


def sheet(scene: Scene, imprint: Imprint, layout: Layout) -> str:
    """Return a view as an SVG document."""
    number = len(scene.groups) if layout.numbering != "none" else 0
    width = width_for(layout.width, number)
    head, top = _head(scene, imprint, width)
    letters = letter(scene, width, top, layout.numbering, layout.highlights)
    below, height = _below(scene, imprint, layout, letters)
    title = f"{imprint.machine}, {scene.title}"
    said = key.described(scene, layout.highlights)
    children = [
        pen.patterns(scene.view), *head, *_view(scene, layout, letters), *below
    ]  # fmt: skip
    return document((width, height), title, said, children, pen.CLASSES, fixed=True)


def _head(scene: Scene, imprint: Imprint, width: float) -> tuple[list[Node], float]:
    """Return the title with the lines below it, and where the view may begin [px]."""
    margin = margin_of(width)
    titles = wrapped(scene.title, (width - 2 * margin) / 1.15, TITLE)
    under = [imprint.machine, imprint.build or "no build, all that is open", imprint.stance]
    lines = wrapped(", ".join(filter(None, [*under, scene.facing])), width - 2 * margin)
    nodes: list[Node] = []
    y = 14.0
    for words, size, style in (
        *((words, TITLE, "title") for words in titles),
        *((words, 13.0, "label") for words in lines),
    ):
        room = Rect(margin, y, width_of(words, size), size * 1.4)
        nodes += pen.lettered(Block((words,), room, size, style=style, align="start"))
        y += size * 1.4
    return nodes, y + 8.0


def _view(scene: Scene, layout: Layout, letters: Lettered) -> Iterator[Node]:
    frame = letters.frame
    if scene.to_scale:
        yield from grid(frame)
        yield from ruler(frame)
    for rect in scene.body:
        yield pen.box(frame.rect(rect), class_="body")
    for stroke in scene.strokes:
        yield from _stroke(stroke, frame)
    for group in scene.groups:
        head = TAG if group.id in letters.tagged else 0.0
        for shape in group.all_shapes:
            yield pen.shape(shape, frame.rect(shape.rect), scene.view, head)
    yield from _highlights(scene, layout, frame)
    yield from _letters(letters)


def _highlights(scene: Scene, layout: Layout, frame: Frame) -> Iterator[Node]:
    for name, mark in layout.highlights.items():
        for rect in scene.marked(name):
            yield from pen.highlight(mark.said, frame.rect(rect), scene.view)


def _letters(letters: Lettered) -> Iterator[Node]:
    yield from pen.leaders(letters.callouts)
    for tag in letters.tags:
        yield key.plate(tag)
    for block in (*letters.tags, *letters.blocks):
        yield from pen.lettered(block)
    for badge in letters.badges:
        yield from pen.badge(badge.mark, badge.block, badge.room)
    yield from pen.circles(letters.callouts)


def _stroke(stroke: Stroke, frame: Frame) -> Iterator[Node]:
    points = [frame.point(point) for point in stroke.points]
    drawn = list(pen.stroke(points, stroke.style, arrow=stroke.arrow))
    if not stroke.id:
        yield from drawn
        return
    group = node("g", node("title", stroke.words), *drawn)
    group.set("data-line", stroke.id)
    yield group


def _below(
    scene: Scene, imprint: Imprint, layout: Layout, letters: Lettered
) -> tuple[list[Node], float]:
    """Return what stands beside and below the view, and the height of the sheet [px]."""
    frame, groups = letters.frame, {group.id: group for group in scene.groups}
    left, right = frame.margin, frame.width - frame.margin
    area = _key_area(frame, right)
    number = max(1, int(area.width // key.COLUMN))
    found = key.rows(letters.callouts, groups, layout.highlights, area.width / number - 16.0)
    nodes, height = key.drawn_key(key.columns(found, number), area)
    y = max(frame.region.end, area.y + height if found else 0.0) + 14.0
    room = Rect(left, y, right - left, 0.0)
    for draw in (
        partial(key.sentences, (*_unmarked(layout, letters), *scene.remarks)),
        partial(key.legend, scene),
        partial(key.title_block, _cells(scene, imprint)),
    ):
        more, height = draw(room)
        nodes += more
        room = replace(room, y=room.y + height + (10.0 if more else 0.0))
    return nodes, room.y + 6.0


def _unmarked(layout: Layout, letters: Lettered) -> Iterator[str]:
    """Yield the words of highlights that neither the view nor the key has room for."""
    numbered = {each.name for each in letters.callouts}
    for name in letters.unmarked:
        if name not in numbered:
            yield f"{name}: {layout.highlights[name].text}."


def _key_area(frame: Frame, right: float) -> Rect:
    """Return where the key begins: beside a drawing that leaves room there, else below it."""
    aside = right - frame.region.right - 24.0
    if aside >= BESIDE:
        return Rect(frame.region.right + 24.0, frame.region.y + 4.0, aside, 0.0)
    return Rect(frame.margin, frame.region.end + 16.0, right - frame.margin, 0.0)


def _cells(scene: Scene, imprint: Imprint) -> list[tuple[str, str]]:
    scale = "1 square = 10 mm" if scene.to_scale else "not to scale"
    return [
        ("book", f"{imprint.machine}, {imprint.edition}"),
        ("as of", imprint.as_of),
        ("build", imprint.build or "none"),
        ("view", scene.title),
        ("scale", scale),
    ]

"""A view with its letters and call-outs in place, so that none covers another."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal, TypeAlias

from baywright.drawing.callouts import Callout, placed
from baywright.drawing.contents import State
from baywright.drawing.framing import Frame, framed
from baywright.drawing.geometry import Rect
from baywright.drawing.labels import LINE, PAD, SIZES, Block, Obstacles, alike, best, fit
from baywright.drawing.lettering import width_of
from baywright.drawing.marks import Highlight
from baywright.drawing.scene import Form, Group, Note, Scene, Shape

Numbering: TypeAlias = Literal["all", "needed", "none"]
"""Which places get a call-out: all, those whose letters do not fit inside, or none."""

TAG, FOOT = 20.0, 16.0
"""Height kept for the name of a place at the head of its bays, and for numbers at their foot."""

LOW = 42.0
"""Positions lower than this have their name and what is in them on one line [px]."""

SIGN = 22.0
"""Width kept for the sign of a highlight [px]."""


@dataclass(frozen=True, slots=True)
class Badge:
    """The sign and the words of a highlight on their plate."""

    mark: Highlight
    block: Block
    room: Rect


@dataclass(frozen=True, slots=True)
class Lettered:
    """Everything on a view that has letters.

    Args:
        frame: where the view lies on its sheet.
        callouts: numbered circles with their leaders.
        blocks: letters in and beside shapes.
        tags: names of places over their positions, each on a plate.
        badges: highlights.
        unmarked: ids of highlighted places whose highlight has no room for its words.
        tagged: ids of places with a tag.
        bare: ids of places that nothing is written in.
    """

    frame: Frame
    callouts: tuple[Callout, ...]
    blocks: tuple[Block, ...]
    tags: tuple[Block, ...]
    badges: tuple[Badge, ...]
    unmarked: tuple[str, ...]
    tagged: frozenset[str]
    bare: frozenset[str]


def letter(
    scene: Scene,
    width: float,
    top: float,
    numbering: Numbering,
    highlights: Mapping[str, Highlight],
) -> Lettered:
    """Put letters and call-outs on a view.

    Args:
        scene: the view.
        width: width of the sheet [px].
        top: where the view may begin [px].
        numbering: which places get a call-out.
        highlights: what is said about places, by id.
    """
    every = frozenset(group.id for group in scene.groups)
    wanted = every if numbering == "all" else frozenset[str]()
    while True:
        made = _lettered(scene, framed(scene, width, top, wanted), highlights)
        if numbering != "needed" or made.bare <= wanted:
            return made
        wanted |= made.bare


def _lettered(scene: Scene, frame: Frame, highlights: Mapping[str, Highlight]) -> Lettered:
    notes = [_note(note, frame) for note in scene.notes]
    numbered = tuple(placed(frame.anchors, frame.bounds, frame.region))
    lines = tuple(pair for each in numbered for pair in pairwise(each.joints))
    dots = [each.dot for each in numbered]
    around = Obstacles((*(block.box for block in notes), *dots), lines)
    badges = dict(_badges(scene, frame, highlights, around))
    around = around.joined([badge.room for badge in badges.values()])
    tags = dict(_tags(scene, frame, around))
    around = around.joined([tag.box for tag in tags.values()])
    inside = {
        group.id: _inside(group, frame, around, tagged=group.id in tags) for group in scene.groups
    }
    return Lettered(
        frame,
        numbered,
        (*notes, *(block for blocks in inside.values() for block in blocks)),
        tuple(tags.values()),
        tuple(badges.values()),
        tuple(name for name in highlights if name not in badges and scene.marked(name)),
        frozenset(tags),
        frozenset(name for name, blocks in inside.items() if not blocks) - set(tags),
    )


def _note(note: Note, frame: Frame) -> Block:
    """Return a note, in its shorter form where the full one has no room."""
    full = _note_block(note.words, note, frame)
    narrow = 0.0 < note.room * frame.scale < full.box.width
    if note.short and (narrow or full.box.right > frame.region.right):
        return _note_block(note.short, note, frame)
    return full


def _note_block(words: str, note: Note, frame: Frame) -> Block:
    x, y = frame.point(note.at)
    width, height = width_of(words, 12.0), 12.0 * LINE
    left = {"start": x, "middle": x - width / 2, "end": x - width}[note.align]
    top = {"above": y - height, "on": y - height / 2, "below": y}[note.stands]
    box = Rect(left, top, width, height)
    return Block((words,), box, 12.0, style="label", align="start")


def _badges(
    scene: Scene, frame: Frame, highlights: Mapping[str, Highlight], around: Obstacles
) -> Iterator[tuple[str, Badge]]:
    """Yield a plate for each highlighted place that has room for it."""
    for name, mark in highlights.items():
        spots = (_plate(mark, frame.rect(rect), around) for rect in scene.marked(name))
        found = next((badge for badge in spots if badge is not None), None)
        if found is not None:
            yield name, found


def _plate(mark: Highlight, rect: Rect, around: Obstacles) -> Badge | None:
    for size in SIZES:
        room = Rect(0, 0, width_of(mark.text, size) + SIGN + 8, size * LINE + 8)
        spot = _spot(room, rect, around)
        if spot is not None:
            words = Rect(spot.x + SIGN, spot.y + 4, spot.width - SIGN - 6, spot.height - 8)
            return Badge(mark, Block((mark.text,), words, size, align="start"), spot)
    return None


def _spot(room: Rect, rect: Rect, around: Obstacles) -> Rect | None:
    inner, near = rect.inset(PAD), around.near(rect)
    if room.width > inner.width or room.height > inner.height:
        return None
    for down in (0.5, 0.3, 0.7, 0.1, 0.9):
        for along in (0.5, 0.2, 0.8, 0.0, 1.0):
            spot = replace(
                room,
                x=inner.x + along * (inner.width - room.width),
                y=inner.y + down * (inner.height - room.height),
            )
            if near.clear(spot):
                return spot
    return None


def _tags(scene: Scene, frame: Frame, around: Obstacles) -> Iterator[tuple[str, Block]]:
    """Yield the name of each framed place, over the heads of its positions."""
    for group in scene.groups:
        if group.frame is None or len({shape.rect.y for shape in group.shapes}) > 1:
            continue  # one above the other, the name would cover the first of them
        rect = frame.rect(group.frame.rect)
        room = Rect(rect.x, rect.y + 2, rect.width, TAG)
        if rect.height < 3.5 * TAG:
            continue
        for lines in group.frame.letters:
            block = _first_fit(lines, room, around)
            if block is not None:
                yield group.id, replace(block, style="bold")
                break


def _first_fit(lines: tuple[str, ...], room: Rect, around: Obstacles) -> Block | None:
    wide = Rect(room.x, room.y - PAD, room.width / 1.12, room.height + 2 * PAD)
    for size in (12.0, 11.0):
        block = fit(lines, wide, size, around)
        if block is not None:
            # Bold letters are up to an eighth wider than those that were measured.
            extra = width_of(lines[0], size, bold=True) - block.box.width
            box = replace(block.box, x=block.box.x, width=block.box.width + max(extra, 0.0))
            return replace(block, box=box) if room.holds(box) and around.clear(box) else None
    return None


def _inside(group: Group, frame: Frame, around: Obstacles, *, tagged: bool) -> list[Block]:
    """Return the letters in the shapes of a place, all in one form."""
    rects = [frame.rect(shape.rect) for shape in group.shapes]
    if len(group.shapes) == 1:
        shape, rect = group.shapes[0], rects[0]
        block = best(shape.letters, rect, around) if shape.letters else None
        return [block] if block else []
    if not all(shape.label for shape in group.shapes):
        return []
    if min(rect.height for rect in rects) < LOW:
        return _on_solid(group, _in_line(group.shapes, rects, around), rects)
    labels = _at_feet(group.shapes, rects, around)
    foot, head = (FOOT + 4 if labels else 0.0), _head(group, tagged=tagged)
    filled = [
        (shape.letters, Rect(r.x, r.y + head, r.width, max(0.0, r.height - head - foot)))
        for shape, r in zip(group.shapes, rects, strict=True)
        if shape.letters and (shape.state is State.FITTED or shape.form is not Form.MODULE)
    ]
    return _on_solid(group, [*labels, *(alike(filled, around) or [])], rects)


def _head(group: Group, *, tagged: bool) -> float:
    strokes = max((shape.strokes for shape in group.shapes), default=0)
    return (TAG if tagged else 0.0) + (5 + 4 * strokes if strokes else 0)


def _at_feet(shapes: Iterable[Shape], rects: Sequence[Rect], around: Obstacles) -> list[Block]:
    """Return the names of positions at their feet, or none where one does not fit."""
    rooms = (_loose(Rect(r.x, r.end - FOOT - 5, r.width, FOOT + 1)) for r in rects)
    wanted = [(((s.label,),), room) for s, room in zip(shapes, rooms, strict=True)]
    return _level(alike(wanted, around))


def _in_line(shapes: Iterable[Shape], rects: Sequence[Rect], around: Obstacles) -> list[Block]:
    """Return the names of low positions with what is in them, on one line."""
    wanted = [
        ((*((f"{s.id} · {' '.join(words)}",) for words in s.letters), (s.label,)), _loose(r))
        for s, r in zip(shapes, rects, strict=True)
    ]
    return _level(alike(wanted, around))


def _loose(rect: Rect) -> Rect:
    """Return a room whose letters may come nearer to its edges: numbers are short."""
    return Rect(
        rect.x - PAD + 1, rect.y - PAD + 0.5, rect.width + 2 * PAD - 2, rect.height + 2 * PAD - 1
    )


def _level(blocks: list[Block] | None) -> list[Block]:
    return [] if blocks is None or any(block.upright for block in blocks) else blocks


def _on_solid(group: Group, blocks: list[Block], rects: Sequence[Rect]) -> list[Block]:
    """Return letters that lie on a filled socket in the colour of the sheet."""
    solid = [
        rect
        for shape, rect in zip(group.shapes, rects, strict=True)
        if shape.form is Form.MODULE and shape.state is State.FITTED
    ]
    return [
        replace(block, style="inverse") if any(r.meets(block.box) for r in solid) else block
        for block in blocks
    ]

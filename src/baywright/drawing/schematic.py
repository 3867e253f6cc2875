"""Boxes in columns, for views that show what belongs together and not where it lies."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from baywright.drawing import naming
from baywright.drawing.contents import State
from baywright.drawing.geometry import Point, Rect
from baywright.drawing.scene import Group, Shape, Stroke
from baywright.drawing.subject import Subject

BOX_HEIGHT, STEP = 30.0, 42.0
"""Height of a box, and distance of one box from the next [mm]."""


def column(names: Sequence[str], x: float, width: float, height: float) -> dict[str, Rect]:
    """Return boxes one below the other, the first at the top, in the middle of a height.

    Args:
        names: what the boxes are.
        x: left edge of the column [mm].
        width: width of the boxes [mm].
        height: height of the view [mm].
    """
    top = height / 2 + (len(names) * STEP - (STEP - BOX_HEIGHT)) / 2
    return {
        name: Rect(x, top - i * STEP - BOX_HEIGHT, width, BOX_HEIGHT)
        for i, name in enumerate(names)
    }


def height_for(*columns: Sequence[str]) -> float:
    """Return the height that the longest of some columns needs [mm]."""
    return STEP * max(1, *(len(each) for each in columns)) + 12.0


def place_box(subject: Subject, name: str, rect: Rect, more: str = "") -> Group:
    """Return a place of the book as a box, with what it holds."""
    book, content = subject.book, subject.contents[name]
    parts = " ".join(str(item.part) for item in content.items for _ in range(item.count))
    says = naming.says(book, content) + (f"; {more}" if more else "")
    words = f"{naming.place_name(book, name)}: {says}"
    letters = naming.place_letters(book, content)
    shape = Shape(name, rect, content.state, parts, words, letters)
    return Group(name, naming.named_with_id(book, name), says, (rect,), (shape,))


def other_box(name: str, title: str, says: str, rect: Rect, *, known: bool = True) -> Group:
    """Return a box for what is no place of the book, such as a feed."""
    state = State.FITTED if known else State.OPEN
    letters = ((title, says), (title,), (name,))
    shape = Shape(name, rect, state, "", f"{title}: {says}", letters)
    return Group(name, title, says, (rect,), (shape,))


def joined(start: Rect, end: Rect, at: Mapping[str, float] | None = None) -> tuple[Point, ...]:
    """Return a line from the right edge of one box to the left edge of another.

    Args:
        start: the box it leaves.
        end: the box it reaches.
        at: shares of the two heights where it leaves and arrives, 0.5 unless given.
    """
    shares = at or {}
    y1 = start.y + start.height * shares.get("start", 0.5)
    y2 = end.y + end.height * shares.get("end", 0.5)
    return ((start.right, y1), (end.x, y2))


def fanned(
    lines: Sequence[tuple[str, str, str, str, str]], boxes: Mapping[str, Rect]
) -> list[Stroke]:
    """Return lines between boxes, apart from each other where several meet one box.

    Args:
        lines: id, box it leaves, box it reaches, style and words of each.
        boxes: the boxes by name.
    """
    known = [line for line in lines if line[1] in boxes and line[2] in boxes]
    made = []
    for key, start, end, style, words in known:
        from_here = sorted((x for x in known if x[1] == start), key=lambda x: boxes[x[2]].y)
        to_there = sorted((x for x in known if x[2] == end), key=lambda x: boxes[x[1]].y)
        at = {
            "start": _share([x[0] for x in from_here].index(key), len(from_here)),
            "end": _share([x[0] for x in to_there].index(key), len(to_there)),
        }
        made.append(Stroke(key, joined(boxes[start], boxes[end], at), style, words))
    return made


def _share(index: int, number: int) -> float:
    return (index + 1) / (number + 1)


def by_neighbours(
    names: Sequence[str], order: Sequence[str], pairs: Sequence[tuple[str, str]]
) -> list[str]:
    """Return names in the order of the middle of what each is joined to, so that few lines cross.

    Args:
        names: what is put in order.
        order: the order of what they are joined to.
        pairs: what is joined: one of the order, one of the names.
    """

    def middle(name: str) -> float:
        rows = [order.index(a) for a, b in pairs if b == name and a in order]
        return sum(rows) / len(rows) if rows else float(len(order))

    return sorted(names, key=middle)

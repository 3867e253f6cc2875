"""The pen: shapes, hatches, highlights and leaders as SVG."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from baywright.drawing.callouts import DOT, RADIUS, Callout
from baywright.drawing.contents import State
from baywright.drawing.geometry import Point, Rect
from baywright.drawing.labels import Block
from baywright.drawing.marks import Highlight, Said
from baywright.drawing.scene import Form, Shape
from baywright.drawing.svg import Node, line, node, written

CLASSES = """
text { fill: var(--ink); }
.said { paint-order: stroke; stroke: var(--fill); stroke-width: 6px; stroke-linejoin: round; }
.sheet { fill: var(--sheet); } .body { fill: var(--fill); stroke: var(--ink); stroke-width: 1.6; }
.label { fill: var(--ink2); } .faint { fill: var(--ink3); } .title { font-weight: 600; }
.bold { font-weight: 600; } .inverse { fill: var(--sheet); } .penned { fill: var(--pen); }
.grid { stroke: var(--grid); stroke-width: 1; } .grid5 { stroke: var(--grid5); stroke-width: 1; }
.fitted { fill: var(--fill); stroke: var(--ink); stroke-width: .9; }
.open { fill: none; stroke: var(--ink); stroke-width: 1.1; stroke-dasharray: 2 3; }
.empty { fill: var(--sheet); stroke: var(--ink3); stroke-width: .9; }
.blank { fill: var(--fill); stroke: var(--ink); stroke-width: .9; }
.taken { fill: none; stroke: var(--ink2); stroke-width: .9; stroke-dasharray: 5 3; }
.module { fill: var(--solid); stroke: var(--fill); stroke-width: 1; }
.frame { fill: var(--fill); stroke: var(--ink); stroke-width: .9; }
.part { stroke: var(--ink); stroke-width: .9; fill: none; }
.fine { stroke: var(--ink3); stroke-width: .7; fill: none; }
.hidden { stroke: var(--ink2); stroke-width: .9; stroke-dasharray: 5 3; fill: none; }
.centre { stroke: var(--ink3); stroke-width: .7; stroke-dasharray: 10 3 2 3; fill: none; }
.cable { stroke: var(--ink); stroke-width: 2; fill: none; }
.lanes { stroke: var(--ink); stroke-width: 1.1; stroke-dasharray: 7 3; fill: none; }
.cord { stroke: var(--ink); stroke-width: 2; fill: none; }
.air { stroke: var(--ink); stroke-width: 1.4; fill: none; }
.head { fill: var(--ink); stroke: none; }
.hatch { stroke: var(--ink2); stroke-width: .8; fill: none; }
.strong { stroke: var(--ink2); stroke-width: 1.1; fill: none; }
.tag { fill: var(--sheet); stroke: var(--ink); stroke-width: .9; }
.plate { fill: var(--sheet); stroke: none; }
.leader { stroke: var(--ink); stroke-width: .9; fill: none; }
.dot { fill: var(--ink); } .circle { fill: var(--sheet); stroke: var(--ink); stroke-width: 1.1; }
.corner { stroke: var(--pen); stroke-width: 2.4; fill: none; }
.preview { stroke: var(--pen); stroke-width: 1.4; stroke-dasharray: 5 3; fill: none; }
.ghost { stroke: var(--pen); stroke-width: .8; fill: none; }
.sign { stroke: var(--ink); stroke-width: 1.3; fill: none; }
.cell { stroke: var(--edge); stroke-width: 1; fill: none; }
"""

HATCHES = {State.BLANK.value: 11.0, Said.IF.value: 12.0, Said.CANNOT.value: 13.0}
"""Pitch of each hatch [px]."""


def patterns(view: str) -> Node:
    """Return the hatches of a view: thin lines, heavy lines, and crossed lines."""
    d = "M0 {p} L{p} 0"
    made = []
    for name, pitch in HATCHES.items():
        path = d.format(p=written(pitch))
        if name == Said.CANNOT.value:
            path += f" M0 0 L{written(pitch)} {written(pitch)}"
        style = "hatch" if name == State.BLANK.value else "strong"
        made.append(
            node(
                "pattern",
                node("path", d=path, class_=style),
                id=f"{view}-{name}",
                width=pitch,
                height=pitch,
                patternUnits="userSpaceOnUse",
            )
        )
    return node("defs", *made)


def box(rect: Rect, **attributes: object) -> Node:
    """Return a rectangle."""
    return node("rect", x=rect.x, y=rect.y, width=rect.width, height=rect.height, **attributes)


def shape(each: Shape, rect: Rect, view: str, head: float) -> Node:
    """Return a shape with its id, state and part, as ``reading`` finds them again.

    Args:
        each: the shape.
        rect: where it is on the sheet [px].
        view: name of the view.
        head: room kept at its upper edge for the name of its place [px].
    """
    style = _style(each)
    drawn = [node("title", each.words), box(rect, class_=style)]
    if each.state is State.BLANK and each.form is not Form.FRAME:
        drawn.append(box(rect, fill=f"url(#{view}-blank)"))
    if each.state is State.EMPTY:
        drawn.append(box(rect.inset(2.5), class_="fine"))
    drawn += _details(each, rect, head)
    group = node("g", *drawn, id=f"{view}-{each.id}")
    group.set("data-at", each.id)
    group.set("data-state", each.state.value)
    if each.part:
        group.set("data-part", each.part)
    return group


def _style(each: Shape) -> str:
    if each.form is Form.MODULE and each.state is State.FITTED:
        return "module"
    if each.form is Form.FRAME and each.state is State.FITTED:
        return "frame"
    return each.state.value


def _details(each: Shape, rect: Rect, head: float) -> Iterator[Node]:
    """Yield what tells parts of one outline apart: strokes of drives, rings of fans."""
    if each.state is not State.FITTED:
        return
    if each.form is Form.DRIVE:
        yield from _strokes(each.strokes, rect, head)
    if each.form is Form.FAN and min(rect.width, rect.height) > 12:
        x, y = rect.middle
        radius = min(rect.width, rect.height) / 2 - 3
        yield node("circle", cx=x, cy=y, r=radius, class_="fine")


def _strokes(number: int, rect: Rect, head: float) -> Iterator[Node]:
    """Yield strokes across the head of a drive, or at the left of one that lies flat."""
    (x, y), reach = rect.middle, 0.28
    for i in range(number):
        if rect.height > max(head + 14, 0.6 * rect.width):
            across, at = reach * rect.width, rect.y + head + 5 + 4 * i
            yield line(x - across, at, x + across, at, "part")
        elif rect.width > 30:
            up, at = reach * rect.height, rect.x + 6 + 4 * i
            yield line(at, y - up, at, y + up, "part")


def lettered(block: Block) -> Iterator[Node]:
    """Yield lines of text."""
    for words, x, y in block.baselines():
        turn = f"rotate(-90 {written(x)} {written(y)})" if block.upright else None
        yield node(
            "text",
            words,
            x=x,
            y=y,
            class_=block.style,
            font_size=block.size,
            text_anchor="middle" if block.upright or block.align == "middle" else None,
            transform=turn,
        )


def highlight(said: Said, rect: Rect, view: str) -> Iterator[Node]:
    """Yield the hatch or corners of a highlighted place."""
    if said in (Said.IF, Said.CANNOT):
        yield box(rect, fill=f"url(#{view}-{said.value})")
    elif said is Said.PREVIEW:
        yield _ghost(rect)
        yield box(rect.inset(-2.0), class_="preview")
    elif said is Said.PICKED:
        yield from _corners(rect.inset(-4.0))


def _ghost(rect: Rect, pitch: float = 16.0) -> Node:
    """Return thin lines of the pen across a rectangle, leaning the other way than hatches do."""
    made = []
    for i in range(1, int((rect.width + rect.height) / pitch) + 1):
        along = i * pitch
        x1, y1 = rect.right - min(along, rect.width), rect.y + max(0.0, along - rect.width)
        x2, y2 = rect.right - max(0.0, along - rect.height), rect.y + min(along, rect.height)
        made.append(f"M{written(x1)} {written(y1)} L{written(x2)} {written(y2)}")
    return node("path", d=" ".join(made), class_="ghost")


def _corners(rect: Rect) -> Iterator[Node]:
    """Yield four marks at the corners, outside the part."""
    arm = max(6.0, min(14.0, rect.width / 4, rect.height / 3))
    for x, inward in ((rect.x, arm), (rect.right, -arm)):
        for y, up in ((rect.y, arm), (rect.end, -arm)):
            d = f"M{written(x + inward)} {written(y)} H{written(x)} V{written(y + up)}"
            yield node("path", d=d, class_="corner")


def sign(said: Said, middle: Point, radius: float = 5.0) -> Iterator[Node]:
    """Yield the sign of a highlight: ring, lozenge, crossed square, dotted ring, dashes, corner."""
    x, y = middle
    if said is Said.FREE:
        yield node("circle", cx=x, cy=y, r=radius, class_="sign")
    elif said is Said.UNDECIDED:
        yield node("circle", cx=x, cy=y, r=radius, class_="sign", stroke_dasharray="2 2")
        yield node("circle", cx=x, cy=y, r=1.2, class_="dot")
    elif said is Said.PREVIEW:
        yield line(x - radius, y, x + radius, y, "preview")
    else:
        yield node("path", d=_outline(said, x, y, radius), class_=_pen_of(said))


def _pen_of(said: Said) -> str:
    return "corner" if said is Said.PICKED else "sign"


def _outline(said: Said, x: float, y: float, r: float) -> str:
    corners = {
        Said.IF: [(-r, 0.0), (0.0, -r), (r, 0.0), (0.0, r), (-r, 0.0)],
        Said.PICKED: [(r, -r), (-r, -r), (-r, r)],
    }
    if said in corners:
        return _path(x, y, corners[said])
    square = [(-r, -r), (r, -r), (r, r), (-r, r), (-r, -r)]
    cross = ([(-r, -r), (r, r)], [(r, -r), (-r, r)])
    return " ".join(_path(x, y, points) for points in (square, *cross))


def _path(x: float, y: float, points: Sequence[Point]) -> str:
    return "M" + " L".join(f"{written(x + dx)} {written(y + dy)}" for dx, dy in points)


def badge(mark: Highlight, block: Block, room: Rect) -> Iterator[Node]:
    """Yield a plate with the sign and the words of a highlight."""
    yield box(room, class_="tag")
    yield from sign(mark.said, (room.x + 11.0, room.middle[1]))
    yield from lettered(block)


def leaders(callouts: Sequence[Callout]) -> Iterator[Node]:
    """Yield the leaders of call-outs, each with a dot at its end."""
    for each in callouts:
        points = " ".join(f"{written(x)},{written(y)}" for x, y in each.joints)
        yield node("polyline", points=points, class_="leader")
        x, y = each.joints[-1]
        yield node("circle", cx=x, cy=y, r=DOT, class_="dot")


def circles(callouts: Sequence[Callout]) -> Iterator[Node]:
    """Yield the numbered circles of call-outs."""
    for each in callouts:
        x, y = each.centre
        group = node(
            "g",
            node("circle", cx=x, cy=y, r=RADIUS, class_="circle"),
            node(
                "text", str(each.number), x=x, y=y + 4.2, class_="bold",
                font_size=12.0, text_anchor="middle",
            ),
        )  # fmt: skip
        group.set("data-callout", each.name)
        yield group


def stroke(points: Sequence[Point], style: str, *, arrow: bool) -> Iterator[Node]:
    """Yield a line through points, with an arrow head at its end where it has one."""
    text = " ".join(f"{written(x)},{written(y)}" for x, y in points)
    yield node("polyline", points=text, class_=style)
    if arrow:
        yield node("path", d=_head(points[-2], points[-1]), class_="head")


def _head(start: Point, end: Point) -> str:
    (x1, y1), (x, y) = start, end
    length = max(((x - x1) ** 2 + (y - y1) ** 2) ** 0.5, 1e-9)
    along, aside = (x - x1) / length, (y - y1) / length
    back = (x - 9 * along, y - 9 * aside)
    left = (back[0] - 4 * aside, back[1] + 4 * along)
    right = (back[0] + 4 * aside, back[1] - 4 * along)
    corners = " L".join(f"{written(px)} {written(py)}" for px, py in ((x, y), left, right))
    return f"M{corners} Z"

"""What stands below a view: the key to its numbers, remarks, states, and the title block."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from baywright.drawing.callouts import Callout
from baywright.drawing.contents import State
from baywright.drawing.geometry import Rect
from baywright.drawing.labels import Block
from baywright.drawing.lettering import width_of, wrapped
from baywright.drawing.marks import Highlight
from baywright.drawing.pen import box, lettered, sign
from baywright.drawing.scene import Form, Group, Scene
from baywright.drawing.svg import Node

SIZE, LEADING = 13.0, 18.0
NUMBER, COLUMN = 28.0, 330.0
"""Width of the numbers, and least width of a column of the key [px]."""

CELL = 40.0
"""Height of a row of the title block [px]."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the key.

    Args:
        number: number of the call-out.
        lines: name of the place and what it holds, line by line.
        mark: the highlight of the place, if it has one.
    """

    number: int
    lines: tuple[str, ...]
    mark: Highlight | None


def rows(
    callouts: Sequence[Callout],
    groups: Mapping[str, Group],
    highlights: Mapping[str, Highlight],
    room: float,
) -> list[Row]:
    """Return the key in order of number, broken into lines that fit [px]."""
    made = []
    for each in callouts:
        group, mark = groups[each.name], highlights.get(each.name)
        words = f"{group.name}: {group.says}" if group.says else group.name
        if mark is not None:
            words = f"{words} – {mark.text}"
        text = room - NUMBER - (22.0 if mark else 0.0)
        made.append(Row(each.number, tuple(wrapped(words, text, SIZE)), mark))
    return made


def columns(found: Sequence[Row], number: int) -> list[list[Row]]:
    """Return rows in columns of about the same height, read downwards."""
    total = sum(len(row.lines) for row in found)
    made: list[list[Row]] = [[]]
    used = 0
    for row in found:
        if made[-1] and used >= total * len(made) / number and len(made) < number:
            made.append([])
        made[-1].append(row)
        used += len(row.lines)
    return made


def drawn_key(found: Sequence[Sequence[Row]], area: Rect) -> tuple[list[Node], float]:
    """Return the key in its columns, and how high it is [px]."""
    nodes: list[Node] = []
    step, lowest = area.width / max(1, len(found)), 0.0
    for i, column in enumerate(found):
        y = area.y
        for row in column:
            nodes += _row(row, area.x + i * step, y)
            y += LEADING * len(row.lines) + 3.0
        lowest = max(lowest, y - area.y)
    return nodes, lowest


def _row(row: Row, x: float, y: float) -> Iterator[Node]:
    number = str(row.number)
    yield from lettered(
        Block(
            (number,),
            Rect(x, y, width_of(number, SIZE, bold=True), LEADING),
            SIZE,
            style="bold",
            align="start",
        )
    )
    left = x + NUMBER
    if row.mark is not None:
        yield from sign(row.mark.said, (left + 6.0, y + LEADING / 2))
        left += 22.0
    for i, words in enumerate(row.lines):
        yield from lettered(_line(words, left, y + i * LEADING))


def _line(words: str, x: float, y: float, style: str = "label", size: float = SIZE) -> Block:
    return Block(
        (words,), Rect(x, y, width_of(words, size), LEADING), size, style=style, align="start"
    )


def sentences(said: Sequence[str], area: Rect) -> tuple[list[Node], float]:
    """Return sentences broken into lines, and how high they are [px]."""
    lines = [words for sentence in said for words in wrapped(sentence, area.width, SIZE)]
    nodes = [
        each
        for i, words in enumerate(lines)
        for each in lettered(_line(words, area.x, area.y + i * LEADING))
    ]
    return nodes, len(lines) * LEADING


def legend(scene: Scene, area: Rect) -> tuple[list[Node], float]:
    """Return a swatch and a word for each state on the view, and how high that is [px]."""
    used = {s.state for s in scene.shapes if s.form is not Form.PORT}
    x, y, nodes = area.x, area.y, list[Node]()
    for state in (each for each in State if each in used):
        words = STATES[state]
        width = 34.0 + width_of(words, 12.0) + 20.0
        if x > area.x and x + width > area.right:
            x, y = area.x, y + 20.0
        swatch = Rect(x, y + 2.0, 26.0, 13.0)
        nodes.append(box(swatch, class_=state.value))
        if state is State.BLANK:
            nodes.append(box(swatch, fill=f"url(#{scene.view}-blank)"))
        if state is State.EMPTY:
            nodes.append(box(swatch.inset(2.5), class_="fine"))
        nodes += lettered(_line(words, x + 34.0, y, size=12.0))
        x += width
    return nodes, y - area.y + 20.0


STATES = {
    State.FITTED: "fitted",
    State.OPEN: "open: nothing is decided",
    State.EMPTY: "empty",
    State.BLANK: "closed with a blank",
    State.TAKEN: "taken by a wide card",
}
"""The states in the words of the legend; on a shape they are shorter."""


def title_block(cells: Sequence[tuple[str, str]], area: Rect) -> tuple[list[Node], float]:
    """Return the title block at the right edge, and how high it is [px].

    Args:
        cells: what each cell is and says.
        area: where it may stand, from its upper edge down [px].
    """
    lines: list[list[tuple[str, str, float]]] = [[]]
    for title, words in cells:
        width = max(width_of(title, 11.0), width_of(words, SIZE)) + 20.0
        if lines[-1] and sum(w for *_, w in lines[-1]) + width > area.width:
            lines.append([])
        lines[-1].append((title, words, min(width, area.width)))
    nodes: list[Node] = []
    for i, row in enumerate(lines):
        nodes += _cells(row, area.right, area.y + i * CELL)
    return nodes, len(lines) * CELL


def _cells(row: Sequence[tuple[str, str, float]], right: float, y: float) -> Iterator[Node]:
    x = right - sum(width for *_, width in row)
    for title, words, width in row:
        yield box(Rect(x, y, width, CELL), class_="cell")
        yield from lettered(_line(title, x + 10.0, y + 2.0, "faint", 11.0))
        yield from lettered(_line(words, x + 10.0, y + 19.0, "value"))
        x += width


def described(scene: Scene, highlights: Mapping[str, Highlight]) -> str:
    """Return a view in sentences, for those who do not see it."""
    said = []
    for group in scene.groups:
        mark = highlights.get(group.id)
        more = f" ({mark.text})" if mark else ""
        said.append(f"{group.name}: {group.says}{more}.")
    joins = [f"{stroke.words}." for stroke in scene.strokes if stroke.id and stroke.words]
    return " ".join([*said, *joins, *scene.remarks]) or f"{scene.title}: nothing is drawn."


def plate(block: Block) -> Node:
    """Return the plate below a tag."""
    rect = block.box
    return box(Rect(rect.x - 3, rect.y, rect.width + 6, rect.height), class_="plate")

"""Limits side by side: each scaled so that its bound stands at the same place."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baywright.drawing.svg import Node, document, headed, line, node, text

WIDTH, LEFT, RIGHT = 720.0, 16.0, 560.0
ROW, TOP = 46.0, 88.0
BOUND_AT = 0.82
"""Where the bound stands, as a share of the width, so that the eye compares gaps."""


@dataclass(frozen=True, slots=True)
class Row:
    """One limit.

    Args:
        name: what is limited.
        used: what is used as a share of the bound, so that 1 stands on it; ``None`` while that
            is not decided.
        words: what is left or over, or on what it depends.
    """

    name: str
    used: float | None
    words: str


def margin_bars(title: str, subtitle: str, rows: Sequence[Row]) -> str:
    """Return limits as an SVG document, one row for each."""
    height = TOP + ROW * len(rows) + 24
    bound = LEFT + (RIGHT - LEFT) * BOUND_AT
    pattern = node("pattern", _cross(), id="over", width=6, height=6, patternUnits="userSpaceOnUse")
    parts = itertools.chain(
        [node("defs", pattern), *headed(title, subtitle)],
        [text("bound", bound, TOP - 8, "penned middle")],
        *(_row(row, TOP + ROW * i) for i, row in enumerate(rows)),
        [line(bound, TOP - 2, bound, TOP + ROW * len(rows), "pen")],
    )
    said = " ".join(f"{row.name}: {row.words}." for row in rows)
    return document((WIDTH, height), f"{title}: {subtitle}", said, parts)


def _cross() -> Node:
    return node("path", d="M0 6 L6 0 M0 0 L6 6", class_="hatch")


def _row(row: Row, y: float) -> Iterator[Node]:
    yield text(row.name, LEFT, y + 18, "said halo")
    yield text(row.words, RIGHT + 12, y + 35, "said")
    yield line(LEFT, y + ROW, WIDTH - 16, y + ROW, "rule")
    if row.used is None:
        yield line(LEFT, y + 31, RIGHT, y + 31, "fine", "2 3")
        return
    width = (RIGHT - LEFT) * BOUND_AT
    used = min(max(row.used, 0.0), 1 / BOUND_AT) * width
    yield node("rect", x=LEFT, y=y + 25, width=min(used, width), height=12, class_="solid")
    if used > width:
        over = used - width
        yield node("rect", x=LEFT + width, y=y + 25, width=over, height=12, fill="url(#over)")
        yield node("rect", x=LEFT + width, y=y + 25, width=over, height=12, class_="outline")

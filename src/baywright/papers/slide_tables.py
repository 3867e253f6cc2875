"""Tables of slides: rules between rows and nothing else, columns by what their cells need."""

from __future__ import annotations

import math
from typing import Any

from pptx.dml.color import RGBColor
from pptx.enum.text import PP_ALIGN
from pptx.oxml import parse_xml
from pptx.oxml.ns import nsdecls, qn
from pptx.util import Inches, Pt

from baywright.papers.columns import shares
from baywright.papers.document import DAGGER, Line, Run, Table, plain


def colour(hexadecimal: str) -> RGBColor:
    """Return a colour of six hexadecimal digits."""
    found: RGBColor = RGBColor.from_string(hexadecimal)  # type: ignore[no-untyped-call]
    return found


INK, INK2 = colour("13201D"), colour("3F4E4A")
FACE = "Source Sans Pro"
PLAIN = "{2D5ABB26-0587-4C30-8999-92F81FD0307C}"
"""The style without fills and rules (ECMA-376 names it by this id in the programs' own list)."""

Box = tuple[float, float, float, float]
"""Left, top, width and height [in]."""


def row_lines(table: Table, letters: float) -> list[int]:
    """Return how many lines each row takes, the head first.

    Args:
        table: the table.
        letters: how many letters stand on a line across all columns.
    """
    parts = shares(table)
    wide = [max(1.0, letters * share / sum(parts) - 3) for share in parts]
    heads = [column.title for column in table.columns]
    rows = [heads, *([plain(cell) for cell in row] for row in table.rows)]
    return [max(_lines(cell, room) for cell, room in zip(row, wide, strict=True)) for row in rows]


def _lines(cell: str, room: float) -> int:
    return max(1, math.ceil(len(cell) / room))


def add_table(page: Any, table: Table, box: Box, size: float) -> None:  # noqa: ANN401
    """Put a table on a slide, its notes as a row below.

    Args:
        page: the slide.
        table: the table.
        box: where it stands.
        size: size of its text [pt].
    """
    rows = len(table.rows) + 1 + len(table.notes)
    left, top, width, height = (Inches(each) for each in box)
    frame = page.shapes.add_table(rows, len(table.columns), left, top, width, height)
    frame._element.graphic.graphicData.tbl.tblPr.find(qn("a:tableStyleId")).text = PLAIN  # noqa: SLF001
    made = frame.table
    parts = shares(table)
    for at, share in enumerate(parts):
        made.columns[at].width = int(width * share / sum(parts))
    heads: tuple[Line, ...] = tuple((Run(column.title),) for column in table.columns)
    for number, row in enumerate((heads, *table.rows)):
        _fill(made, number, row, table, size)
    for number, note in enumerate(table.notes, len(table.rows) + 1):
        made.cell(number, 0).merge(made.cell(number, len(table.columns) - 1))
        _cell(made.cell(number, 0), note, size, right=False)


def _fill(made: Any, number: int, row: tuple[Line, ...], table: Table, size: float) -> None:  # noqa: ANN401
    for at, (line, column) in enumerate(zip(row, table.columns, strict=True)):
        cell = made.cell(number, at)
        _cell(cell, line, size, right=column.right)
        if number == 0:
            _rule(cell, "lnT", "13201D")
        edge = number in (0, len(table.rows))
        _rule(cell, "lnB", "13201D" if edge else "C3CEC8")


def _cell(cell: Any, line: Line, size: float, *, right: bool) -> None:  # noqa: ANN401
    cell.margin_left, cell.margin_right = Inches(0.12), Inches(0.06)
    cell.margin_top = cell.margin_bottom = Inches(0.035)
    paragraph = cell.text_frame.paragraphs[0]
    paragraph.alignment = PP_ALIGN.RIGHT if right else PP_ALIGN.LEFT
    for run in line or (Run(""),):
        made = paragraph.add_run()
        made.text = f"{run.text} {DAGGER}" if run.dagger else run.text
        made.font.name, made.font.size = FACE, Pt(size)
        made.font.bold, made.font.color.rgb = run.style == "strong", INK


def _rule(cell: Any, side: str, colour: str) -> None:  # noqa: ANN401
    properties = cell._tc.get_or_add_tcPr()  # noqa: SLF001 - pptx has no borders
    properties.append(
        parse_xml(
            f'<a:{side} {nsdecls("a")} w="9525"><a:solidFill><a:srgbClr val="{colour}"/>'
            f"</a:solidFill></a:{side}>"
        )
    )

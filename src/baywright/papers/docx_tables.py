"""Tables of a DOCX file, written as XML: hundreds of rows take a second and not a minute."""

from __future__ import annotations

from typing import Any
from xml.sax.saxutils import escape

from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls

from baywright.papers.columns import shares
from baywright.papers.document import DAGGER, Line, Run, Table

MOST_KEPT = 24
"""A table with no more rows than this is kept on one page."""

WIDTH = 9354
"""Width of a table in twentieths of a point: 165 mm."""


def table_xml(table: Table) -> Any:  # noqa: ANN401 - docx has no types
    """Return a table whose head repeats on each page and whose rows are never split."""
    size = 13 if table.small else 17
    widths = _widths(table)
    head = tuple((Run(column.title),) for column in table.columns)
    last = len(table.rows) - 1
    rows = "".join(
        _row(row, table, size, widths, keep=at < last <= MOST_KEPT)
        for at, row in enumerate(table.rows)
    )
    grid = "".join(f'<w:gridCol w:w="{width}"/>' for width in widths)
    return parse_xml(
        f"<w:tbl {nsdecls('w')}>{_properties()}<w:tblGrid>{grid}</w:tblGrid>"
        f"{_row(head, table, size, widths, head=True, keep=True)}{rows}</w:tbl>"
    )


def _properties() -> str:
    lines = "".join(
        f'<w:{side} w:val="single" w:sz="{width}" w:color="{colour}"/>'
        for side, width, colour in (
            ("top", 6, "13201D"),
            ("bottom", 6, "13201D"),
            ("insideH", 4, "C3CEC8"),
        )
    )
    return (
        f'<w:tblPr><w:tblW w:w="{WIDTH}" w:type="dxa"/><w:tblBorders>{lines}</w:tblBorders>'
        '<w:tblLayout w:type="fixed"/><w:tblLook w:firstRow="1"/></w:tblPr>'
    )


def _widths(table: Table) -> list[int]:
    found = shares(table)
    return [share * WIDTH // sum(found) for share in found]


def _row(
    cells: tuple[Line, ...],
    table: Table,
    size: int,
    widths: list[int],
    *,
    head: bool = False,
    keep: bool = False,
) -> str:
    repeated = "<w:tblHeader/>" if head else ""
    inner = "".join(
        _cell(cell, size, width, right=column.right, keep=keep)
        for cell, column, width in zip(cells, table.columns, widths, strict=True)
    )
    return f"<w:tr><w:trPr><w:cantSplit/>{repeated}</w:trPr>{inner}</w:tr>"


def _cell(cell: Line, size: int, width: int, *, right: bool, keep: bool) -> str:
    kept = "<w:keepNext/>" if keep else ""
    side = '<w:jc w:val="right"/>' if right else ""
    runs = "".join(_run(run, size) for run in cell)
    return (
        f'<w:tc><w:tcPr><w:tcW w:w="{width}" w:type="dxa"/></w:tcPr>'
        f'<w:p><w:pPr>{kept}<w:spacing w:before="20" w:after="20"/>{side}</w:pPr>{runs}</w:p>'
        "</w:tc>"
    )


def _run(run: Run, size: int) -> str:
    face = "DejaVu Sans Mono" if run.style == "code" else "Source Sans Pro"
    bold = "<w:b/>" if run.style == "strong" else ""
    slanted = "<w:i/>" if run.style == "emphasis" else ""
    text = escape(f"{run.text} {DAGGER}" if run.dagger else run.text)
    return (
        f'<w:r><w:rPr><w:rFonts w:ascii="{face}" w:hAnsi="{face}"/>{bold}{slanted}'
        f'<w:sz w:val="{size}"/></w:rPr><w:t xml:space="preserve">{text}</w:t></w:r>'
    )

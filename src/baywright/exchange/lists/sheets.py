"""Lists written as text tables (CSV) and as workbooks (XLSX, Office Open XML)."""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeAlias

from xlsxwriter.format import Format
from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.workbook import Workbook
from xlsxwriter.worksheet import Worksheet

from baywright.problems import problem

Cell: TypeAlias = str | int | float | None

FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r")
"""A text that starts with one of these would be worked out by a spreadsheet."""

MOST_WIDTH = 60


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a list.

    Args:
        head: what stands above it.
        total: true when a workbook adds it up below.
        pattern: number format of a workbook, or empty for the usual one.
    """

    head: str
    total: bool = False
    pattern: str = ""


@dataclass(frozen=True, slots=True)
class PartsTable:
    """A list ready to be written.

    Args:
        title: name of its sheet.
        columns: its columns.
        rows: its rows, a cell for each column.
        notes: sentences for readers, on a sheet of their own in a workbook.
        about: properties of the workbook, such as ``title``.
    """

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    notes: tuple[str, ...] = ()
    about: Mapping[str, str] = field(default_factory=dict)


def as_csv(listed: PartsTable) -> bytes:
    """Return a list as a text table in UTF-8: heads, rows, and no totals.

    A text that a spreadsheet would take for a formula gets an apostrophe in front.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow([column.head for column in listed.columns])
    writer.writerows([[_harmless(cell) for cell in row] for row in listed.rows])
    return text.getvalue().encode("utf-8-sig")


def _harmless(cell: Cell) -> Cell:
    if isinstance(cell, str) and cell.startswith(FORMULA_SIGNS):
        return f"'{cell}"
    return "" if cell is None else cell


def as_workbook(listed: PartsTable) -> bytes:
    """Return a list as a workbook: heads that stay in view, totals below, notes beside."""
    target = io.BytesIO()
    options = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    with Workbook(target, options) as book:
        book.set_properties(dict(listed.about))
        _rows(book, listed)
        if listed.notes:
            _notes(book, listed.notes)
    return target.getvalue()


def _rows(book: Workbook, listed: PartsTable) -> None:
    sheet = book.add_worksheet(listed.title)
    for at, column in enumerate(listed.columns):
        _column(book, sheet, listed, at, column)
    sheet.freeze_panes(1, 0)
    sheet.autofilter(0, 0, len(listed.rows), len(listed.columns) - 1)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0)


def _column(book: Workbook, sheet: Worksheet, listed: PartsTable, at: int, column: Column) -> None:
    cells = [row[at] for row in listed.rows]
    numbers = [cell for cell in cells if isinstance(cell, int | float)]
    side = {"align": "right"} if numbers else {"align": "left", "indent": 1}
    look = {"num_format": column.pattern or "General", **side}
    usual, bold = book.add_format(look), {"bold": True, **look}
    total = round(sum(numbers), 6)
    said = [_shown(cell, column) for cell in (*cells, total if column.total else None)]
    sheet.set_column(at, at, _width(column.head, said), usual)
    sheet.write_string(0, at, column.head, book.add_format({"bottom": 1, **bold}))
    for number, cell in enumerate(cells, 1):
        if cell is not None:
            sheet.write(number, at, cell, usual)
    _total(sheet, listed, at, total, book.add_format({"top": 1, **bold}))


def _shown(cell: Cell, column: Column) -> str:
    """Return a cell about as a spreadsheet shows it."""
    if not isinstance(cell, int | float) or "." not in column.pattern:
        return "" if cell is None else str(cell)
    return f"{cell:,.{len(column.pattern.partition('.')[2])}f}"


def _total(sheet: Worksheet, listed: PartsTable, at: int, total: float, style: Format) -> None:
    """Write what stands below a column: its sum, or what the line is."""
    last, column = len(listed.rows) + 1, listed.columns[at]
    if column.total and listed.rows:
        letter = xl_col_to_name(at)
        sheet.write_formula(last, at, f"=SUM({letter}2:{letter}{last})", style, total)
    else:
        sheet.write(last, at, "Total" if at == 0 else "", style)


def _width(head: str, said: Sequence[str]) -> int:
    """Return the width of a column: room for its cells, its head, and the sign of a filter."""
    return min(MOST_WIDTH, max(len(head) + 2, *map(len, said)) + 2)


def _notes(book: Workbook, notes: Sequence[str]) -> None:
    sheet = book.add_worksheet("Notes")
    sheet.set_column(0, 0, 100, book.add_format({"text_wrap": True, "valign": "top"}))
    for number, note in enumerate(notes):
        sheet.write_string(number, 0, note)


def write_table(listed: PartsTable, path: Path) -> None:
    """Write a list as a text table or a workbook, by the ending of the file; whole or not at all.

    Raises:
        Problems: when the ending is another, or the file cannot be written.
    """
    writers = {".csv": as_csv, ".xlsx": as_workbook}
    writer = writers.get(path.suffix.lower())
    if writer is None:
        hint = f"End its name in {' or '.join(writers)}."
        raise problem("no-list", f"{path} is not known to be a list by its name.", None, hint)
    draft = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        draft.write_bytes(writer(listed))
        draft.replace(path)
    except OSError as error:
        why = error.strerror or type(error).__name__
        hint = "Give a place that can be written with --out."
        raise problem("unwritable", f"{path} cannot be written: {why}.", None, hint) from error
    finally:
        draft.unlink(missing_ok=True)

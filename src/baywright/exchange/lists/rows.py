"""Rows of a list, read from a text, a text table or a workbook; no row is left out."""

from __future__ import annotations

import csv
import io
import lzma
import re
import struct
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from python_calamine import CalamineError, CalamineWorkbook

from baywright.problems import Mark, Problem, Problems, problem

ENDINGS = (".csv", ".txt", ".xlsx")
"""Endings of the files that are read."""

MOST_BYTES = 4_000_000
"""Larger files are refused before they are read."""

MOST_UNPACKED = 64_000_000
"""Bytes that a workbook may hold when unpacked."""

MOST_ROWS = 20_000
"""More rows than this are no list of parts."""

SEPARATORS = ",;\t"

_CANNOT_UNPACK = (
    zipfile.BadZipFile,
    zlib.error,
    lzma.LZMAError,
    struct.error,
    EOFError,
    OSError,
    RuntimeError,
    ValueError,
)

_ADDRESS = re.compile(rb'\br="([A-Z]{1,3})([0-9]{1,7})"')


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a list.

    Args:
        mark: where it stands.
        cells: its cells as texts, without white space around them.
        sheet: name of the sheet of a workbook, or empty.
    """

    mark: Mark
    cells: tuple[str, ...]
    sheet: str = ""

    @property
    def text(self) -> str:
        """The row as a person would read it."""
        return " | ".join(cell for cell in self.cells if cell)

    @property
    def where(self) -> str:
        """Where it stands, short: the line, and the sheet where there is one."""
        return f"{self.sheet}!{self.mark.line}" if self.sheet else str(self.mark.line)


def read_rows(path: Path) -> tuple[Row, ...]:
    """Return the rows of a list that are not empty, in their order.

    Args:
        path: a file that ends in .csv, .txt or .xlsx.

    Raises:
        Problems: when it cannot be read as such a file.
    """
    suffix = path.suffix.lower()
    if suffix not in ENDINGS:
        hint = f"Give a file ending in {', '.join(ENDINGS[:-1])} or {ENDINGS[-1]}."
        raise problem("no-list", f"{path} is not known to be a list by its name.", None, hint)
    data = _bytes_of(path)
    rows = tuple(_workbook(data, path) if suffix == ".xlsx" else _text(data, path, suffix))
    if len(rows) > MOST_ROWS:
        hint = f"Give at most {MOST_ROWS:,} rows."
        raise problem("too-large", f"{path} has {len(rows):,} rows.", None, hint)
    return rows


def _bytes_of(path: Path) -> bytes:
    try:
        size = path.stat().st_size
        if size > MOST_BYTES:
            message = f"{path} has {size:,} bytes; a list of parts has at most {MOST_BYTES:,}."
            raise problem("too-large", message, None, "Give the list alone.")
        return path.read_bytes()
    except OSError as error:
        why = error.strerror or type(error).__name__
        raise problem(
            "no-list", f"{path} cannot be read: {why}.", None, "Check the path."
        ) from error


def _text(data: bytes, path: Path, suffix: str) -> Iterator[Row]:
    text = _decoded(data, path)
    if suffix == ".csv":
        yield from _table(text, path)
        return
    for number, line in enumerate(text.splitlines(), 1):
        cells = tuple(cell.strip() for cell in line.split("\t"))
        if any(cells):
            yield Row(Mark(str(path), number, 1), cells)


def _decoded(data: bytes, path: Path) -> str:
    """Return the text of a file: UTF-8, or UTF-16 where the file says so."""
    encoding = "utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig"
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        hint = "Save it as UTF-8 text."
        raise problem(
            "not-text", "This is not text in UTF-8.", Mark(str(path), line, 1), hint
        ) from error
    if "\0" in text:
        raise problem("not-text", f"{path} holds signs that no text has.", None, "Save it as text.")
    return text


def _table(text: str, path: Path) -> Iterator[Row]:
    lines = text.splitlines()
    # A first line such as "sep=;" tells spreadsheets the separator and is no row.
    said = lines[0].lower().removeprefix("sep=") if lines and lines[0].lower()[:4] == "sep=" else ""
    reader = csv.reader(io.StringIO(text), delimiter=said[:1] or _separator(lines), strict=True)
    start = 1
    try:
        for cells in reader:
            stripped = tuple(cell.strip() for cell in cells)
            if any(stripped) and not (said and start == 1):
                yield Row(Mark(str(path), start, 1), stripped)
            start = reader.line_num + 1
    except csv.Error as error:
        hint = "Check the quotes in and above this line."
        message = f"This row cannot be read: {error}."
        raise problem("not-a-table", message, Mark(str(path), start, 1), hint) from error


def _separator(lines: list[str]) -> str:
    """Return the separator that most lines have, and each of them most often."""
    return max(
        SEPARATORS, key=lambda sign: (sum(sign in line for line in lines), -SEPARATORS.index(sign))
    )


def _workbook(data: bytes, path: Path) -> Iterator[Row]:
    _check_packed(data, path)
    try:
        with CalamineWorkbook.from_filelike(io.BytesIO(data)) as book:
            sheets = [
                (name, book.get_sheet_by_name(name).to_python(skip_empty_area=False))
                for name in book.sheet_names
            ]
    except (CalamineError, OSError, ValueError) as error:
        raise _no_workbook(path, str(error)) from error
    filled = [name for name, rows in sheets if any(any(map(_said, row)) for row in rows)]
    for name, rows in sheets:
        for number, row in enumerate(rows, 1):
            cells = tuple(_said(cell) for cell in row)
            if any(cells):
                yield Row(Mark(str(path), number, 1), cells, name if len(filled) > 1 else "")


def _check_packed(data: bytes, path: Path) -> None:
    """Refuse what would not be a workbook, or grow beyond all measure, before it is unpacked."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            unpacked = sum(entry.file_size for entry in packed.infolist())
            if unpacked > MOST_UNPACKED:
                message = f"{path} would hold {unpacked:,} bytes when unpacked."
                raise problem("too-large", message, None, "Give the list alone.")
            # Reading every entry once finds one that holds more or other than it says.
            damaged = packed.testzip()
            for name in packed.namelist() if damaged is None else ():
                if name.startswith("xl/worksheets/"):
                    _check_extent(packed.read(name), path)
    except _CANNOT_UNPACK as error:
        raise _no_workbook(path, str(error)) from error
    if damaged is not None:
        raise _no_workbook(path, f"{damaged} is damaged")


def _check_extent(sheet: bytes, path: Path) -> None:
    """Refuse a sheet with a cell far out, as a reader makes room for all before it."""
    for letters, digits in _ADDRESS.findall(sheet):
        if len(letters) > 2 or int(digits) > MOST_ROWS:
            message = f"{path} has a cell at {(letters + digits).decode()}."
            hint = f"Keep the list within {MOST_ROWS:,} rows and 700 columns."
            raise problem("too-large", message, None, hint)


def _no_workbook(path: Path, why: str) -> Problems:
    first = why.partition("\n")[0].rstrip(".")
    message = f"{path} cannot be read as a workbook: {first}."
    return Problems([Problem("not-a-table", message, None, "Save it again as .xlsx, or as .csv.")])


def _said(cell: object) -> str:
    """Return a cell as a text; whole numbers come without decimals."""
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    return str(cell).strip()

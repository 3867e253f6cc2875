"""Rows of lists from texts, text tables and workbooks."""

from __future__ import annotations

import io
import zipfile
from contextlib import suppress
from pathlib import Path

import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from baywright.exchange.lists.rows import MOST_ROWS, Row, read_rows
from baywright.problems import Problems


def _written(folder: Path, name: str, data: bytes | str) -> Path:
    path = folder / name
    path.write_bytes(data.encode() if isinstance(data, str) else data)
    return path


def _cells(rows: tuple[Row, ...]) -> list[tuple[str, ...]]:
    return [row.cells for row in rows]


def test_a_text_keeps_the_number_of_each_line(tmp_path: Path) -> None:
    rows = read_rows(_written(tmp_path, "a.txt", "8 x dimm-64\n\n  two fans \n"))
    assert [(row.where, row.text) for row in rows] == [("1", "8 x dimm-64"), ("3", "two fans")]


@pytest.mark.parametrize("sign", [",", ";", "\t"])
def test_a_table_is_read_with_its_separator(tmp_path: Path, sign: str) -> None:
    text = f'part{sign}count\n"a{sign}b"{sign}2\n'
    rows = read_rows(_written(tmp_path, "a.csv", text))
    assert _cells(rows) == [("part", "count"), (f"a{sign}b", "2")]


def test_a_line_that_names_the_separator_is_no_row(tmp_path: Path) -> None:
    rows = read_rows(_written(tmp_path, "a.csv", "sep=;\npart;count\n"))
    assert _cells(rows) == [("part", "count")]
    assert rows[0].mark.line == 2


def test_a_row_over_several_lines_stands_where_it_begins(tmp_path: Path) -> None:
    rows = read_rows(_written(tmp_path, "a.csv", 'part,count\n"a\nb",2\nc,3\n'))
    assert [row.mark.line for row in rows] == [1, 2, 4]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_texts_in_unicode_are_read(tmp_path: Path, encoding: str) -> None:
    path = _written(tmp_path, "a.txt", "2 × Lüfter".encode(encoding))
    assert read_rows(path)[0].text == "2 × Lüfter"


def test_rows_of_every_sheet_are_read(tmp_path: Path) -> None:
    path = tmp_path / "a.xlsx"
    with xlsxwriter.Workbook(str(path)) as book:
        first, second = book.add_worksheet("Parts"), book.add_worksheet("More")
        first.write_row(2, 0, ["fan", 6, 0.5])
        second.write_row(0, 1, ["display", True])
    rows = read_rows(path)
    assert [(row.where, row.text) for row in rows] == [
        ("Parts!3", "fan | 6 | 0.5"),
        ("More!1", "display | True"),
    ]


def _workbook(sheet: str) -> bytes:
    """A workbook as small as one can be, with a sheet of one's own."""
    main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    package = "http://schemas.openxmlformats.org/package/2006"
    files = {
        "[Content_Types].xml": f'<Types xmlns="{package}/content-types"/>',
        "_rels/.rels": f'<Relationships xmlns="{package}/relationships"><Relationship Id="r1" '
        f'Type="{office}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{main}" xmlns:r="{office}"><sheets>'
        '<sheet name="S" sheetId="1" r:id="r1"/></sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{package}/relationships">'
        f'<Relationship Id="r1" Type="{office}/worksheet" Target="worksheets/s.xml"/>'
        "</Relationships>",
        "xl/worksheets/s.xml": f'<worksheet xmlns="{main}"><sheetData>{sheet}</sheetData>'
        "</worksheet>",
    }
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, text in files.items():
            packed.writestr(name, text)
    return target.getvalue()


def test_the_smallest_workbook_is_read(tmp_path: Path) -> None:
    data = _workbook('<row r="1"><c r="A1"><v>7</v></c></row>')
    assert _cells(read_rows(_written(tmp_path, "a.xlsx", data))) == [("7",)]


REFUSED = [
    ("a.pdf", b"x", "no-list"),
    ("a.csv", b"\xff\xff\xff", "not-text"),
    ("a.txt", b"a\0b", "not-text"),
    ("a.csv", b'part,count\n"open,2\n', "not-a-table"),
    ("a.xlsx", b"PK\x03\x04 and no more", "not-a-table"),
    ("a.xlsx", b"", "not-a-table"),
    ("a.txt", b"x\n" * (MOST_ROWS + 1), "too-large"),
    ("a.txt", b"x" * 4_000_001, "too-large"),
    ("a.xlsx", _workbook('<row r="9"><c r="XFD9"><v>7</v></c></row>'), "too-large"),
    ("a.xlsx", _workbook('<row r="1048576"><c r="A1048576"><v>7</v></c></row>'), "too-large"),
    ("a.xlsx", _workbook(" " * 70_000_000), "too-large"),
]


@pytest.mark.parametrize(("name", "data", "kind"), REFUSED)
def test_what_is_no_list_is_refused(tmp_path: Path, name: str, data: bytes, kind: str) -> None:
    with pytest.raises(Problems) as refused:
        read_rows(_written(tmp_path, name, data))
    assert [each.kind for each in refused.value.problems] == [kind]
    assert refused.value.problems[0].hint


def test_a_file_that_is_not_there_is_a_problem(tmp_path: Path) -> None:
    with pytest.raises(Problems, match="cannot be read"):
        read_rows(tmp_path / "none.csv")


@given(st.binary(max_size=300), st.sampled_from([".csv", ".txt", ".xlsx"]))
def test_any_bytes_are_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, data: bytes, suffix: str
) -> None:
    path = tmp_path_factory.mktemp("any") / f"a{suffix}"
    path.write_bytes(data)
    try:
        rows = read_rows(path)
    except Problems:
        return
    assert all(any(row.cells) for row in rows)


@given(st.integers(0, 2000), st.binary(min_size=1, max_size=4))
def test_a_damaged_workbook_is_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, at: int, damage: bytes
) -> None:
    data = bytearray(_workbook('<row r="1"><c r="A1"><v>7</v></c></row>'))
    at = min(at, len(data) - len(damage))
    data[at : at + len(damage)] = damage
    path = tmp_path_factory.mktemp("damaged") / "a.xlsx"
    path.write_bytes(bytes(data))
    with suppress(Problems):
        read_rows(path)

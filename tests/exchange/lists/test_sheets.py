"""Lists written as text tables and workbooks."""

from __future__ import annotations

import csv
import io
import shutil
import subprocess
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import pytest

from baywright.exchange.lists.rows import read_rows
from baywright.exchange.lists.sheets import Column, PartsTable, as_csv, as_workbook

LISTED = PartsTable(
    "Parts",
    (Column("Part"), Column("Name"), Column("Count", total=True), Column("Watts", True, "#,##0.0")),
    (("fan", "=1+1", 6, 132.0), ("dimm-64", '64 GB "module", registered', 16, 144.5)),
    ("Planning aid.",),
    {"title": "A list"},
)

SHEET = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"


def test_a_text_table_comes_back_as_written() -> None:
    rows = list(csv.reader(io.StringIO(as_csv(LISTED).decode("utf-8-sig"))))
    assert rows[0] == ["Part", "Name", "Count", "Watts"]
    assert rows[2] == ["dimm-64", '64 GB "module", registered', "16", "144.5"]


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@sum", "\tx"])
def test_no_cell_of_a_text_table_is_a_formula(text: str) -> None:
    table = PartsTable("T", (Column("Name"),), ((text,),))
    assert as_csv(table).decode("utf-8-sig").splitlines()[1].strip('"') == f"'{text}"


def test_a_workbook_comes_back_as_written(tmp_path: Path) -> None:
    path = tmp_path / "list.xlsx"
    path.write_bytes(as_workbook(LISTED))
    parts = [row.cells for row in read_rows(path) if row.sheet == "Parts"]
    assert parts == [
        ("Part", "Name", "Count", "Watts"),
        ("fan", "=1+1", "6", "132"),
        ("dimm-64", '64 GB "module", registered', "16", "144.5"),
        ("Total", "", "22", "276.5"),
    ]


def test_every_file_of_a_workbook_is_sound_xml_and_holds_nothing_foreign() -> None:
    with zipfile.ZipFile(io.BytesIO(as_workbook(LISTED))) as packed:
        assert packed.testzip() is None
        names = set(packed.namelist())
        trees = {name: ElementTree.fromstring(packed.read(name)) for name in names}  # noqa: S314
        texts = b"".join(packed.read(name) for name in names)
    # ECMA-376 part 1, 8.5 and 12.1: a workbook, its sheets, and what kinds of file they are.
    assert {"[Content_Types].xml", "_rels/.rels", "xl/workbook.xml"} <= names
    assert not [name for name in names if "vba" in name.lower() or "external" in name.lower()]
    sheet = trees["xl/worksheets/sheet1.xml"]
    formulas = [cell.text for cell in sheet.iter(f"{SHEET}f")]
    assert formulas == ["SUM(C2:C3)", "SUM(D2:D3)"]
    # The value of each formula is written beside it, so no reader has to work it out.
    summed = [cell for cell in sheet.iter(f"{SHEET}c") if cell.find(f"{SHEET}f") is not None]
    assert [value.text for cell in summed for value in cell.findall(f"{SHEET}v")] == ["22", "276.5"]
    assert b'Target="http' not in texts


@pytest.mark.slow
def test_an_office_program_opens_a_workbook_without_a_word(tmp_path: Path) -> None:
    office = shutil.which("soffice") or shutil.which("libreoffice")
    if office is None:
        pytest.skip("LibreOffice is not installed here")
    path = tmp_path / "list.xlsx"
    path.write_bytes(as_workbook(LISTED))
    home = f"-env:UserInstallation=file://{tmp_path / 'home'}"
    command = [
        office,
        home,
        "--headless",
        "--convert-to",
        "csv",
        "--outdir",
        str(tmp_path),
        str(path),
    ]
    done = subprocess.run(command, capture_output=True, text=True, timeout=100, check=True)
    assert "rror" not in done.stdout + done.stderr
    assert "arning" not in done.stdout
    rows = list(csv.reader(io.StringIO((tmp_path / "list.csv").read_text(encoding="utf-8"))))
    assert rows[-1] == ["Total", "", "22", "276.5"]

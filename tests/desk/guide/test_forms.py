"""The forms of a guide, and its folder: written, read back, proven again."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from io import BytesIO
from pathlib import Path

import docx
import pytest
from typer.testing import CliRunner

from baywright.cli import app
from baywright.desk.guide.folder import guide_files, read_folder
from baywright.desk.guide.verifying import verified
from baywright.papers.as_docx import document_docx
from baywright.papers.document import Heading, Table
from baywright.problems import Problems
from tests.desk.guide.guides import book, copied, guide_of

NAME = "p1"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a guide, written once."""
    target = tmp_path_factory.mktemp("guide")
    for name, content in guide_files(guide_of(NAME), book(NAME), NAME).items():
        data = content.encode() if isinstance(content, str) else content
        (target / name).write_bytes(data)
    return target


def test_the_folder_has_every_form_and_the_proof(folder: Path) -> None:
    assert {path.name for path in folder.iterdir()} == {
        "guide.html",
        "guide.pdf",
        "guide.docx",
        "proof.html",
        "statements.jsonl",
        "about.json",
    }


def test_the_pdf_is_tagged_and_has_bookmarks(folder: Path) -> None:
    data = (folder / "guide.pdf").read_bytes()
    assert b"/MarkInfo" in data or b"/StructTreeRoot" in data
    assert b"/Outlines" in data


def test_every_statement_of_the_page_stands_in_the_proof(folder: Path) -> None:
    page = (folder / "guide.html").read_text("utf-8")
    proof = (folder / "proof.html").read_text("utf-8")
    linked = set(re.findall(r'href="proof\.html#(s\d+)"', page))
    there = set(re.findall(r'<li id="(s\d+)"', proof))
    assert linked
    assert linked <= there


def test_the_page_loads_nothing_from_elsewhere(folder: Path) -> None:
    for name in ("guide.html", "proof.html"):
        page = (folder / name).read_text("utf-8")
        assert not re.findall(r'(?:src|href)="(?!#|data:|proof\.html)[^"]*"', page)


def test_the_docx_has_headings_tables_with_repeated_heads_and_described_pictures() -> None:
    document = guide_of(NAME).document
    held = docx.Document(BytesIO(document_docx(document)))
    titles = [
        p.text for p in held.paragraphs if str(p.style and p.style.name).startswith("Heading")
    ]
    assert titles == [f"{h.number}  {h.text}" for h in document.headings]
    tables = [block for block in document.blocks if isinstance(block, Table)]
    assert len(held.tables) == len(tables)
    for found in held.tables:
        first = found.rows[0]._tr.xml
        assert "w:tblHeader" in first
        assert "w:cantSplit" in first
    for shape in held.inline_shapes:
        assert shape._inline.docPr.get("descr")


@pytest.mark.slow
def test_the_docx_opens_in_an_office_program(folder: Path, tmp_path: Path) -> None:
    office = shutil.which("soffice")
    if office is None:
        pytest.skip("There is no office program here; the DOCX was not opened by one.")
    home = f"-env:UserInstallation=file://{tmp_path}/home"
    done = subprocess.run(
        [
            *(office, home, "--headless", "--convert-to", "pdf"),
            *("--outdir", str(tmp_path), str(folder / "guide.docx")),
        ],
        capture_output=True,
        timeout=240,
        check=False,
    )
    if not (tmp_path / "guide.pdf").exists() and b"no export filter" in done.stderr:
        pytest.skip("The office program here reads no texts.")
    assert (tmp_path / "guide.pdf").stat().st_size > 10_000


def test_a_guide_that_was_just_written_holds(folder: Path) -> None:
    about, statements = read_folder(folder)
    assert about.book == NAME
    found = verified(book(NAME), statements)
    assert found.failed == ()
    assert found.stopped == ()
    assert sum(found.by_engine.values()) == len(statements)


def test_the_commands_write_and_verify(tmp_path: Path) -> None:
    templates = tmp_path / "templates"
    templates.mkdir()
    text = '# Bays\n\nAt most {{ most("bays", "bay") }}; fans move {{ fact("parts.fan.flow") }}.\n'
    (templates / "bays.md").write_text(text, "utf-8")
    here = copied(NAME, tmp_path)
    out = str(tmp_path / "out")
    run = CliRunner().invoke
    arguments = ["guide", str(here), "-o", out, "--templates", str(templates), "--format", "html"]
    written = run(app, [*arguments, "--json"])
    assert written.exit_code == 0, written.output
    assert json.loads(written.output)["statements"] == 2
    assert run(app, ["verify", out]).exit_code == 0
    parts = here / "parts.yaml"
    changed = parts.read_text("utf-8").replace("flow: {value: 14 CFM", "flow: {value: 15 CFM", 1)
    assert changed != parts.read_text("utf-8")
    parts.write_text(changed, "utf-8")
    failed = run(app, ["verify", out, "--json"])
    assert failed.exit_code == 4
    told = json.loads(failed.output)["failed"]
    assert [each["query"]["text"] for each in told] == ["parts.fan.flow"]
    again = run(app, [*arguments[:2], "-o", out, "--format", "pptx"])
    assert again.exit_code == 2


def test_templates_can_be_copied_and_used(tmp_path: Path) -> None:
    done = CliRunner().invoke(app, ["guide", NAME, "--copy-templates", str(tmp_path / "mine")])
    assert done.exit_code == 0, done.output
    assert (tmp_path / "mine" / "01-overview.md").is_file()


def test_a_folder_without_its_page_about_is_refused(tmp_path: Path) -> None:
    (tmp_path / "statements.jsonl").write_text("", "utf-8")
    with pytest.raises(Problems) as caught:
        read_folder(tmp_path)
    assert caught.value.problems[0].kind == "not-about"


def test_headings_of_the_page_are_those_of_the_document(folder: Path) -> None:
    page = (folder / "guide.html").read_text("utf-8")
    anchors = re.findall(r'<h[2-4] id="([^"]+)"', page)
    blocks = guide_of(NAME).document.blocks
    assert anchors == [block.anchor for block in blocks if isinstance(block, Heading)]

"""Sheets: every kind for every machine, each number with its statement, each fit to its form."""

from __future__ import annotations

import itertools
import json
import re
from dataclasses import replace
from pathlib import Path

import pytest

from baywright.desk.guide.by_hand import typed_numbers
from baywright.desk.guide.folder import read_folder
from baywright.desk.guide.verifying import verified
from baywright.desk.sheets.asked import LENGTHS, Asked, Length
from baywright.desk.sheets.files import form_of, sheet_files
from baywright.desk.sheets.making import KINDS, make_sheet, template_of
from baywright.papers.as_typst import document_pdf
from baywright.papers.document import Bullets, Paragraph, Run, Table, Warned, plain
from baywright.problems import Problems
from tests.desk.sheets.sheets import book, sheet

BOOKS = ("p1", "f1", "f2", "l4")
BY_OTHERS = str(Path(__file__).parents[2] / "books_by_others" / "r0")


def pages(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))


def tables(name: str, asked: Asked) -> list[Table]:
    return [each for each in sheet(name, asked).document.blocks if isinstance(each, Table)]


@pytest.mark.parametrize("kind", KINDS)
def test_no_number_is_typed_by_hand(kind: str) -> None:
    assert not list(typed_numbers(template_of(kind)))


@pytest.mark.parametrize("name", [*BOOKS, BY_OTHERS])
def test_a_summary_is_one_page(name: str) -> None:
    assert pages(document_pdf(sheet(name, Asked("summary")).document)) == 1


def test_a_summary_that_is_far_too_long_is_not_cut() -> None:
    """It goes on to a next page at its own size, where all of it can be read."""
    document = sheet("p1", Asked("summary")).document
    long = replace(document, blocks=document.blocks * 12)
    assert pages(document_pdf(long)) > 1


def test_every_digit_of_a_sentence_has_its_statement() -> None:
    for block in sheet("p1", Asked("summary")).document.blocks:
        match block:
            case Paragraph():
                lines: tuple[tuple[Run, ...], ...] = (block.runs,)
            case Bullets():
                lines = tuple(block.items)
            case _:
                continue
        for run in itertools.chain.from_iterable(lines):
            bare = run.text.replace("Pannier P1", "")
            assert run.statement or not re.search(r"\d", bare), run.text


@pytest.mark.parametrize("kind", ["summary", "questions", "build"])
def test_a_sheet_is_proven_again(kind: str) -> None:
    build = "n1" if kind == "build" else ""
    made = sheet("p1", Asked(kind, build, length="line"))
    found = verified(book("p1"), made.statements)
    assert not found.failed
    assert not found.stopped


def test_each_length_holds_statements_of_the_longer_one_only() -> None:
    held = {}
    for length in LENGTHS:
        made = sheet("p1", Asked("questions", length=length))
        held[length] = {each.query: each.value for each in made.statements}
    short: Length
    long: Length
    for short, long in (("line", "paragraph"), ("paragraph", "full")):
        assert held[short].items() <= held[long].items()
    assert len(held["line"]) < len(held["full"])


def test_a_build_says_what_its_parts_come_to() -> None:
    limits, parts = tables("p1", Asked("build", "n1"))
    assert limits.title.startswith("Limits")
    total = [plain(cell) for cell in parts.rows[-1]]
    assert total[0] == "in all"
    # Seen with `baywright list p1 n1`: peak draw 156.2 W and mass 6.224 kg, rounded for people.
    assert total[3].startswith("156.2 W")
    assert total[4].startswith("6.224 kg")


def test_limits_stand_nearest_first_with_their_cautions_before_them() -> None:
    blocks = sheet("p1", Asked("build", "n1")).document.blocks
    first = next(at for at, each in enumerate(blocks) if isinstance(each, Table))
    assert any(isinstance(each, Warned) for each in blocks[:first])


def test_a_build_that_cannot_be_built_says_why() -> None:
    made = sheet("f2", Asked("build", "n4"))
    legal = next(each for each in made.statements if each.query.text == "legal")
    assert legal.verdict == "no"
    # demo.md: N4 as asked draws 1,159 W, and a 1300 W supply gives 1000 W at 120 V.
    assert "1,159 W against 1,000 W" in legal.words
    assert legal.reasons


def test_a_build_of_another_folder_can_be_named(tmp_path: Path) -> None:
    path = tmp_path / "other.yaml"
    path.write_bytes((book("p1").folder / "builds" / "n1.yaml").read_bytes())
    made = make_sheet(book("p1"), Asked("build", str(path)))
    assert len(made.statements) == len(sheet("p1", Asked("build", "n1")).statements)


def test_what_is_lost_comes_first_in_a_comparison() -> None:
    words = [plain(table.rows[0][3]) for table in tables("f2", Asked("comparison"))]
    assert words[0] in ("gone", "less")
    assert words[-1] == "same"


@pytest.mark.parametrize(
    ("asked", "kind"),
    [
        (Asked("sumary"), "no-sheet"),
        (Asked("build"), "no-build"),
        (Asked("build", "nn"), "no-build"),
        (Asked("comparison"), "no-other"),
    ],
)
def test_what_makes_no_sense_is_refused_with_a_hint(asked: Asked, kind: str) -> None:
    with pytest.raises(Problems) as caught:
        make_sheet(book("p1"), asked)
    assert caught.value.problems[0].kind == kind
    assert caught.value.problems[0].hint


@pytest.mark.parametrize("form", ["md", "html", "docx", "json"])
def test_a_file_has_its_proof_beside_it(form: str, tmp_path: Path) -> None:
    made = sheet("p1", Asked("models"))
    folder, files = sheet_files(made, book("p1"), "p1", "models", tmp_path / f"m.{form}")
    assert folder == tmp_path
    assert f"m.{form}" in files
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(content.encode() if isinstance(content, str) else content)
    about, statements = read_folder(tmp_path / f"m.{form}.proof")
    assert about.book == "p1"
    assert statements == made.statements


def test_json_has_the_text_and_its_statements() -> None:
    made = sheet("p1", Asked("models"))
    _, files = sheet_files(made, book("p1"), "p1", "models", Path("m.json"))
    data = json.loads(files["m.json"])
    assert len(data["statements"]) == len(made.statements)
    assert data["title"] == "Pannier P1"


def test_a_form_that_is_none_is_refused() -> None:
    with pytest.raises(Problems, match="not written as"):
        form_of(Path("out.doc"))
    made = sheet("p1", Asked("models"))
    with pytest.raises(Problems, match="not written as slides"):
        sheet_files(made, book("p1"), "p1", "models", Path("m.pptx"))

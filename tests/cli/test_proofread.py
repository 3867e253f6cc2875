"""The command proofread: its formats, its files and its exit codes."""

from __future__ import annotations

import json
from pathlib import Path

import docx
import pytest

from tests.cli.test_commands import run

DRAFT = """# Ferryman F2 in two minutes

It has plenty of memory sockets. We will come to the slot widths later.

Lift out the air guide; it cuts power.
"""


@pytest.fixture
def draft(tmp_path: Path) -> Path:
    path = tmp_path / "draft.md"
    path.write_text(DRAFT, encoding="utf-8")
    return path


def test_the_terminal_tells_place_word_and_sentence(draft: Path) -> None:
    result = run("proofread", "f2", str(draft))
    assert result.exit_code == 0
    assert "3:1  Vague amount" in result.stdout
    assert "Say: It has 32 memory sockets." in result.stdout
    assert "5:1  Caution after action" in result.stdout


def test_an_editor_gets_a_line_for_each_remark(draft: Path) -> None:
    result = run("proofread", "f2", str(draft), "--format", "editor")
    assert result.exit_code == 0
    assert f"{draft}:3:1: Vague amount: It has 32 memory sockets." in result.stdout
    assert all(line.startswith(f"{draft}:") for line in result.stdout.splitlines())


@pytest.mark.parametrize("options", [("--json",), ("--format", "json")])
def test_json_tells_all_of_it(draft: Path, options: tuple[str, ...]) -> None:
    told = json.loads(run("proofread", "f2", str(draft), *options).stdout)
    assert (told["book"], told["as_of"], told["passages"]) == ("f2", "2031-07-01", 4)
    assert told["words_per_minute"] is None
    promise = next(each for each in told["remarks"] if each["kind"] == "promise")
    assert (promise["line"], promise["column"], promise["heading"]) == (
        3,
        34,
        "Ferryman F2 in two minutes",
    )
    assert promise["proof"]["facts"][0]["fact"] == "places.R1a.lanes"


def test_a_page_is_written_to_a_new_file_alone(draft: Path, tmp_path: Path) -> None:
    out = tmp_path / "proof.html"
    command = ("proofread", "f2", str(draft), "--format", "html", "--out", str(out))
    assert run(*command).exit_code == 0
    assert "<!doctype html>" in out.read_text(encoding="utf-8")
    again = run(*command)
    assert again.exit_code == 2
    assert "is there already" in again.stderr


def test_a_document_comes_back_with_comments(tmp_path: Path) -> None:
    made = docx.Document()
    made.add_paragraph("It has plenty of memory sockets. It is full.")
    made.save(str(tmp_path / "a.docx"))
    before = (tmp_path / "a.docx").read_bytes()
    out = tmp_path / "b.docx"
    command = ("proofread", "f2", str(tmp_path / "a.docx"), "--format", "docx")
    assert run(*command).exit_code == 2
    assert run(*command, "--out", str(tmp_path / "a.docx")).exit_code == 2
    assert run(*command, "--out", str(out)).exit_code == 0
    told = [comment.text for comment in docx.Document(str(out)).comments]
    assert any(each.startswith("Vague amount: It has 32 memory sockets.") for each in told)
    assert (tmp_path / "a.docx").read_bytes() == before


def test_captions_are_held_to_a_pace(tmp_path: Path) -> None:
    path = tmp_path / "a.vtt"
    words = " ".join(["word"] * 30)
    path.write_text(f"WEBVTT\n\n00:00.000 --> 00:10.000\n{words}.\n", encoding="utf-8")
    assert "Too fast" not in run("proofread", "f2", str(path)).stdout
    assert "Too fast" in run("proofread", "f2", str(path), "--pace", "160").stdout
    assert run("proofread", "f2", str(path), "--pace", "0").exit_code == 2


def test_what_cannot_be_read_is_told_with_its_place(tmp_path: Path) -> None:
    path = tmp_path / "a.vtt"
    path.write_text("WEBVTT\n\n00:61.000 --> 01:02.000\nA.\n", encoding="utf-8")
    result = run("proofread", "f2", str(path))
    assert result.exit_code == 2
    assert result.stderr.startswith(f"{path}:3:1: ")
    assert run("proofread", "f2", str(tmp_path / "none.md")).exit_code == 2
    assert run("proofread", "f2", str(path), "--out", str(tmp_path / "b")).exit_code == 2

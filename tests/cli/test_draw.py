"""The command draw: files, forms, and what it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from baywright.cli import app
from baywright.files.books import bundled_books

N4 = str(bundled_books()["f2"] / "builds" / "n4.yaml")


def run(*arguments: str) -> Result:
    return CliRunner().invoke(app, ["draw", *arguments], env={"COLUMNS": "100", "TERM": "dumb"})


def test_one_view_goes_to_standard_output() -> None:
    result = run("f2", N4, "--view", "front")
    assert (result.exit_code, result.stdout[:4]) == (0, "<svg")


@pytest.mark.parametrize(
    ("name", "start"),
    [("x.svg", b"<svg"), ("x.png", b"\x89PNG"), ("x.dark.png", b"\x89PNG"), ("x.pdf", b"%PDF")],
)
def test_a_file_gets_the_form_of_its_name(name: str, start: bytes, tmp_path: Path) -> None:
    result = run("f2", N4, "--view", "rear", "--out", str(tmp_path / name))
    assert (result.exit_code, result.output) == (0, "")
    assert (tmp_path / name).read_bytes()[:4] == start


def test_all_views_go_into_a_folder(tmp_path: Path) -> None:
    result = run("p1", "--out", str(tmp_path / "p1"), "--form", "pdf")
    assert result.exit_code == 0
    assert len(list((tmp_path / "p1").glob("*.pdf"))) == 9


def test_json_says_what_is_drawn() -> None:
    (drawing,) = json.loads(run("f2", N4, "--view", "front", "--json").stdout)["drawings"]
    assert drawing["places"]["A.1"] == {"state": "fitted", "parts": ["sas-2400"]}
    assert drawing["places"]["A"] == {"state": "fitted", "parts": ["S8"]}


@pytest.mark.parametrize(
    ("arguments", "kind"),
    [
        (("f2",), "one-file"),
        (("f2", "--out", "x.svg"), "one-file"),
        (("f2", "--view", "front", "--out", "x.gif"), "no-form"),
        (("f2", "--view", "top"), "no-view"),
        (("f2", "--view", "front", "--mark", "A=red"), "no-mark"),
    ],
)
def test_what_makes_no_sense_ends_with_2(arguments: tuple[str, ...], kind: str) -> None:
    result = run(*arguments)
    assert result.exit_code == 2
    assert f"[{kind}]" in result.stderr

"""The command fit: what it prints, its JSON, and its exit codes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from baywright.answers.inquiry import StoppedError
from baywright.cli import app, fits
from baywright.files.books import bundled_books

N3 = str(bundled_books()["l4"] / "needs" / "n3.yaml")
N1 = str(bundled_books()["p1"] / "needs" / "n1.yaml")


def run(*arguments: str) -> Result:
    return CliRunner().invoke(app, arguments, env={"COLUMNS": "80", "TERM": "dumb"})


def test_proposals_are_printed_with_cautions_first() -> None:
    result = run("fit", "p1", N1)
    assert result.exit_code == 0, result.output
    lines = result.stdout.splitlines()
    assert max(map(len, lines)) <= 80
    assert lines[0].endswith("CAUTION")
    assert "2 proposals" in lines
    assert "356,160 FLO" in result.stdout
    assert "Planning aid" in result.stdout


def test_a_no_is_an_answer() -> None:
    result = run("fit", "l4", N3)
    assert result.exit_code == 0
    assert "No build meets the need." in result.stdout
    assert "accelerators: 8 becomes 6" in result.stdout
    assert "With 2 machines instead of 1" in result.stdout


def test_as_json() -> None:
    result = run("fit", "l4", N3, "--json")
    assert result.exit_code == 0
    (outcome,) = json.loads(result.stdout)["outcomes"]
    assert not outcome["met"]
    assert len(outcome["answer"]["nearest"]) >= 2


def test_a_need_with_mistakes_says_where(tmp_path: Path) -> None:
    path = tmp_path / "need.yaml"
    path.write_text("book: l4\nname: n\ndemand: {copies: 3}\n", "utf-8")
    result = run("fit", "l4", str(path))
    assert result.exit_code == 2
    assert "need.yaml:3" in result.stderr
    assert "no data is asked for" in result.stderr


def test_a_limit_ends_with_3(monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: object) -> None:
        raise StoppedError("the time was up at 4 machines")

    monkeypatch.setattr(fits, "fitted", stop)
    result = run("fit", "l4", N3)
    assert result.exit_code == 3
    assert "the time was up" in result.stderr


def test_the_schema_of_a_need() -> None:
    found = json.loads(run("schema", "need").stdout)
    assert found["title"] == "Need"
    assert "must_not" in found["properties"]

"""The page on service, its part on faults: what it shows is what the program prints."""

from __future__ import annotations

import json
import re
import shlex
from pathlib import Path

import pytest
from typer.testing import CliRunner

from baywright.cli import app
from baywright.service.faults.search import MOST_STATES

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "service.md").read_text("utf-8")
SHOWN = re.findall(r"\$ baywright (faults [^\n]*)\n(.*?)```", PAGE, re.DOTALL)


def lines(text: str) -> list[str]:
    return [line.rstrip() for line in text.strip().splitlines()]


@pytest.mark.parametrize(("command", "shown"), SHOWN, ids=[command for command, _ in SHOWN])
def test_output_is_as_shown(command: str, shown: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", "80")
    assert lines(CliRunner().invoke(app, shlex.split(command)).output) == lines(shown)


def test_one_fault_and_two_are_shown() -> None:
    assert len(SHOWN) == 2


def test_the_page_names_every_field(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    made = json.loads(CliRunner().invoke(app, shlex.split(f"{SHOWN[0][0]} --json")).output)
    fields = {*made, *made["found"][0], *made["found"][0]["checks"][0], *made["found"][0]["tree"]}
    usual = {"name", "book", "as_of", "status", "aid", "untimed", "why_not", "facts"}
    assert {field for field in fields - usual if f"`{field}`" not in PAGE} == set()


def test_the_page_states_the_bound_of_the_search() -> None:
    assert f"{MOST_STATES:,} states" in PAGE


def test_a_drawing_and_a_list_are_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    out = tmp_path / "tree.svg"
    command = shlex.split(SHOWN[0][0])
    assert CliRunner().invoke(app, [*command, "--out", str(out)]).exit_code == 0
    assert "press it home" in out.read_text("utf-8")
    assert "module.M1.a1" in CliRunner().invoke(app, [*command, "--list"]).output

"""The page on service, its part on access: what it shows is what the program prints."""

from __future__ import annotations

import json
import re
import shlex
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from baywright.cli import app
from tests.answers.json_examples import shortened

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "service.md").read_text("utf-8")
SHOWN = re.findall(r"\$ baywright (service [^\n]*)\n(.*?)```", PAGE, re.DOTALL)
FAN = "service f2 src/baywright/books/f2/builds/n4.yaml F"


def lines(text: str) -> list[str]:
    return [line.rstrip() for line in text.strip().splitlines()]


def printed(command: str, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", "80")
    return CliRunner().invoke(app, shlex.split(command)).output


def prepared(value: dict[str, Any]) -> dict[str, Any]:
    """Return what is printed as the page shows it: lists and mappings cut."""
    short: dict[str, Any] = shortened(value)
    short["cautions"] = dict(list(short["cautions"].items())[:1])
    plan = short["plans"][0]
    plan["facts"] = plan["facts"][:1]
    for step in plan["steps"]:
        step["facts"] = step["facts"][:1]
    return short


@pytest.mark.parametrize(("command", "shown"), SHOWN, ids=[command for command, _ in SHOWN])
def test_output_is_as_shown(command: str, shown: str, monkeypatch: pytest.MonkeyPatch) -> None:
    assert lines(printed(command, monkeypatch)) == lines(shown)


def test_a_plan_and_a_refusal_are_shown() -> None:
    assert [command for command, _ in SHOWN] == [FAN, f"{FAN.removesuffix('F')}M1 --keep-running"]


def test_the_example_is_what_the_program_prints(monkeypatch: pytest.MonkeyPatch) -> None:
    (shown,) = re.findall(r"<!-- example: service -->\n\n```json\n(.*?)\n```", PAGE, re.DOTALL)
    assert json.loads(shown) == prepared(json.loads(printed(f"{FAN} --json", monkeypatch)))

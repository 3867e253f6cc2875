"""The page on service, its parts on losses and spares: what it shows is what the program prints."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from typer.testing import CliRunner

from baywright.cli import app

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "service.md").read_text("utf-8")
SHOWN = re.findall(r"\$ baywright ((?:lose|spares) [^\n]*)\n(.*?)```", PAGE, re.DOTALL)


def lines(text: str) -> list[str]:
    return [line.rstrip() for line in text.strip().splitlines()]


@pytest.mark.parametrize(("command", "shown"), SHOWN, ids=[command for command, _ in SHOWN])
def test_output_is_as_shown(command: str, shown: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", "80")
    assert lines(CliRunner().invoke(app, shlex.split(command)).output) == lines(shown)


def test_both_are_shown() -> None:
    assert {command.split()[0] for command, _ in SHOWN} == {"lose", "spares"}

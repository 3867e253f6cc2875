"""The README is true: what it shows is run, and must come out as shown."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from typer.testing import CliRunner

from baywright.cli import app

ROOT = Path(__file__).resolve().parents[2]
README = ROOT / "README.md"
_BLOCK = re.compile(r"```console\n(.*?)```", re.DOTALL)
_MILLISECONDS = re.compile(r"[\d,.]+ m?s\b")


def _shown() -> list[tuple[str, str]]:
    """Return every command of the README with the output shown below it."""
    found = []
    for block in _BLOCK.findall(README.read_text(encoding="utf-8")):
        for piece in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, output = piece.partition("\n")
            found.append((command, output))
    return found


def _plain(text: str) -> list[str]:
    """Return the lines of an output without trailing space and without times."""
    return [_MILLISECONDS.sub("0 ms", line.rstrip()) for line in text.strip().splitlines()]


@pytest.mark.parametrize(("command", "shown"), _shown(), ids=[c for c, _ in _shown()])
def test_output_is_as_shown(command: str, shown: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", "80")
    program, *arguments = shlex.split(command)
    assert program == "baywright"
    result = CliRunner().invoke(app, arguments)
    assert _plain(result.output) == _plain(shown)


def test_links_lead_somewhere() -> None:
    for target in re.findall(r"\]\(([^)#]+)\)", README.read_text(encoding="utf-8")):
        assert (ROOT / target).exists(), target

"""The pictures of the page on drawings are what its commands draw."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from typer.testing import CliRunner

from baywright.cli import app
from baywright.drawing.marks import Said
from baywright.drawing.registry import VIEWS

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "drawings.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^\$ (baywright draw .*)$", PAGE, re.MULTILINE)


@pytest.mark.parametrize("command", COMMANDS)
def test_a_picture_is_what_its_command_draws(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    _, *arguments = shlex.split(command)
    picture = Path(arguments[-1])
    again = tmp_path / picture.name
    result = CliRunner().invoke(app, [*arguments[:-1], str(again)])
    assert result.exit_code == 0, result.output
    assert again.read_text(encoding="utf-8") == picture.read_text(encoding="utf-8")


def test_every_picture_of_the_page_has_a_command_and_a_text() -> None:
    shown = re.findall(r"!\[([^]]*)\]\(pictures/([^)]+)\)", PAGE)
    assert {name for _, name in shown} == {Path(c.split()[-1]).name for c in COMMANDS}
    assert all(len(text) > 20 for text, _ in shown)


def test_the_page_lists_every_view_and_every_mark() -> None:
    for name in (*VIEWS, *(said.value for said in Said)):
        assert f"`{name}`" in PAGE

"""The book manual is carried out as a stranger would: every step must come out as shown."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from baywright.desk.capture.targets import targets
from baywright.files.books import read_book
from tests.docs.manual import PAGE, plain, walked


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    return tmp_path


def test_every_step_comes_out_as_shown(desk: Path) -> None:
    commands = []
    for step in walked():
        assert plain(step.printed) == plain(step.output), step.command
        commands.append(step.command.split()[1])
    assert {"new", "capture", "check", "ask", "judge", "missing"} <= set(commands)
    assert read_book(desk / "s2").book.id == "s2"


def test_links_lead_somewhere() -> None:
    for target in re.findall(r"\]\(([^)#]+)\)", PAGE.read_text(encoding="utf-8")):
        assert (PAGE.parent / target).exists(), target


def test_what_a_table_can_be_about_is_on_the_page() -> None:
    text = PAGE.read_text(encoding="utf-8")
    named = {target.name for target in targets().values()}
    assert [name for name in sorted(named) if f"`{name}`" not in text] == []

"""The page on the store: its kinds of problem, commands and limits are the program's."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from typer.testing import CliRunner

from baywright.cli import app
from baywright.store.passwords import LEAST_PASSWORD, MOST_PASSWORD
from baywright.store.person import MOST_PERSON
from baywright.store.store import PATIENCE
from baywright.store.texts import MOST_JSON, MOST_NAME, MOST_TEXT
from tests.style.sources import Source, sources

PAGE = (Path(__file__).parents[2] / "docs" / "store.md").read_text("utf-8")
WORDS = " ".join(PAGE.split())
_MAKERS = {"problem", "Problem", "Fault"}


def _kinds(source: Source) -> Iterator[str]:
    for node in ast.walk(source.tree):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") in _MAKERS:
            first = node.args[0]
            if isinstance(first, ast.Constant):
                yield str(first.value)


def test_the_kinds_of_problem_on_the_page_are_those_of_the_store() -> None:
    ours = (source for source in sources() if source.path.startswith("src/baywright/store/"))
    raised = {kind for source in ours for kind in _kinds(source)}
    table = PAGE.partition("| kind of problem |")[2]
    assert set(re.findall(r"^\| `([a-z-]+)` \|", table, re.MULTILINE)) == raised


@pytest.mark.parametrize("command", re.findall(r"`baywright ([a-z]+ ?[a-z]*)", PAGE))
def test_the_commands_on_the_page_are_there(command: str) -> None:
    words = command.split()
    words = words if words[0] == "people" else words[:1]
    assert CliRunner().invoke(app, [*words, "--help"]).exit_code == 0


def test_the_limits_on_the_page_are_those_in_use() -> None:
    assert f"up to {MOST_NAME} characters (of a person, {MOST_PERSON})" in WORDS
    assert f"a question {MOST_TEXT:,}, an answer {MOST_JSON:,}" in WORDS
    assert f"{LEAST_PASSWORD} to {MOST_PASSWORD:,} characters" in WORDS
    assert f"up to {PATIENCE:g} seconds" in WORDS

"""The table of told facts in docs/proofreading.md: each sentence has the verdict beside it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from baywright.language.passages import Passage, Place
from tests.language.test_judged import proofreader

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "proofreading.md").read_text("utf-8")

SECTION = PAGE.partition("## How facts are told")[2].partition("\n## ")[0]

ROWS = re.findall(r"^\| (?P<text>[A-Z][^|]*\.) \| (?P<verdict>[a-z-]+) \|$", SECTION, re.MULTILINE)


def test_there_is_a_table() -> None:
    assert len(ROWS) > 10


@pytest.mark.parametrize(("text", "verdict"), ROWS)
def test_a_sentence_has_the_verdict_beside_it(text: str, verdict: str) -> None:
    held = proofreader("f2", "", "", "")
    assert held.remark(Passage(text, Place("", 1, 1), 0), correct=False).kind == verdict

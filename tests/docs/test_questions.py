"""The page on questions is true: its examples are asked, its ways to ask are all there are."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from baywright.desk.asking import FORMS, ask
from baywright.desk.opening import Opened, open_book
from baywright.desk.request import SHORTEST
from baywright.engines.contract import Limit

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "questions.md").read_text(encoding="utf-8")
_IN_THE_TABLE = re.compile(r"^\|.*\| `([^`]+)` \|$", re.MULTILINE)
_ON_ITS_OWN = re.compile(r"^    ((?:most|least)\(.*\))$", re.MULTILINE)


@pytest.fixture(scope="module")
def f2() -> Opened:
    return open_book("f2")


@pytest.mark.parametrize("question", _IN_THE_TABLE.findall(PAGE) + _ON_ITS_OWN.findall(PAGE))
def test_every_example_can_be_asked(f2: Opened, question: str) -> None:
    assert ask(f2, question).reading


def test_every_way_to_ask_is_on_the_page() -> None:
    assert len(_IN_THE_TABLE.findall(PAGE)) == len(FORMS)
    assert all(f"`{word}(" in PAGE for word in FORMS)


def test_the_limits_on_the_page_are_those_in_use(f2: Opened) -> None:
    assert f"A limit below {SHORTEST:g} seconds" in PAGE
    assert f2.panel.limit == Limit(20)
    assert "20 seconds unless given" in PAGE
    assert f2.panel.patience_for_the_best == Limit(3)
    assert "within three seconds" in PAGE

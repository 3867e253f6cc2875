"""The page on proofreading is true: it has every kind, every ending, every limit, every key."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from baywright.desk.drafts.as_json import proofread_json
from baywright.desk.drafts.checking import proofread_file
from baywright.desk.opening import open_book
from baywright.exchange.drafts.draft import FORMS
from baywright.exchange.drafts.refusing import MOST_TEXT_BYTES
from baywright.exchange.drafts.timed_text import LONGEST_PAUSE, MOST_WORDS
from baywright.language.findings.grounds import WORDS_PER_MINUTE
from baywright.language.findings.pace import SHORTEST
from baywright.language.kind_words import KIND_WORDS
from baywright.language.passages import KINDS

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "proofreading.md").read_text("utf-8")


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_is_on_the_page_with_its_word(kind: str) -> None:
    (row,) = [line for line in PAGE.splitlines() if line.startswith("| ") and f"`{kind}`" in line]
    assert KIND_WORDS[kind] in row  # type: ignore[index]


def test_every_ending_is_on_the_page() -> None:
    assert set(re.findall(r"`(\.\w+)`", PAGE)) == set(FORMS)


def test_the_limits_on_the_page_are_those_in_use() -> None:
    assert f"more than {MOST_TEXT_BYTES // 1_000_000} MB" in PAGE
    assert f"speaks for {LONGEST_PAUSE:g} seconds" in PAGE
    assert f"{MOST_WORDS} words without a stop" in PAGE
    assert f"at least {SHORTEST:g} seconds" in PAGE
    assert f"{WORDS_PER_MINUTE:g} unless" in PAGE


def test_every_key_of_the_json_is_on_the_page(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    path.write_text("It has plenty of memory sockets.", encoding="utf-8")
    told = proofread_json(proofread_file(open_book("f2"), path))
    remarks = told["remarks"]
    assert isinstance(remarks, list)
    assert [key for key in (*told, *remarks[0]) if f"`{key}`" not in PAGE] == []

"""The table of facts: every fact once, with what stands on it, and a safe way to change it."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from baywright.desk.checking import check
from baywright.desk.fact_table import change_fact, fact_rows, seen_of
from baywright.desk.opening import Opened, open_book
from baywright.files.books import find_book
from baywright.problems import Problems


@pytest.fixture
def opened(tmp_path: Path) -> Opened:
    return open_book(Path(shutil.copytree(find_book("p1"), tmp_path / "p1")))


def test_every_fact_is_there_once_with_its_source(opened: Opened) -> None:
    rows = fact_rows(opened)
    assert len(rows) == check(opened).facts
    assert all(row.where and row.source and row.status for row in rows)


def test_what_stands_on_a_fact_is_what_quotes_it(opened: Opened) -> None:
    quoted = {
        (fact.path, origin.sentence)
        for origin in opened.machine.space.origins.values()
        for fact in origin.facts
    }
    said = {(row.path, sentence) for row in fact_rows(opened) for sentence in row.used}
    assert said
    assert said <= quoted


def test_a_change_is_refused_once_the_file_is_another(opened: Opened) -> None:
    seen = seen_of(opened, "power.base")
    change_fact(opened, "power.base", "19 W", seen)
    with pytest.raises(Problems, match="changed-meanwhile"):
        change_fact(opened, "power.base", "20 W", seen)
    again = {row.path: row.text for row in fact_rows(open_book(opened.folder))}
    assert again["power.base"] == "19 W"

"""A need as a form: what it knows is read and written, what it does not know stays."""

from __future__ import annotations

from pathlib import Path

import pytest

from baywright.desk.fit.form import fill_need, need_form
from baywright.files.books import bundled_books, need_from
from baywright.problems import Problems

NEEDS = sorted(file for book in bundled_books().values() for file in book.glob("needs/*.yaml"))


def _values(text: str) -> dict[str, str]:
    return {field.path: field.text for section in need_form(text) for field in section.fields}


@pytest.mark.parametrize("file", NEEDS, ids=lambda file: file.stem)
def test_a_form_put_back_as_it_was_changes_nothing(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    values = _values(text)
    assert values["name"]
    assert fill_need(text, values) == text


@pytest.mark.parametrize("file", NEEDS, ids=lambda file: file.stem)
def test_one_field_changes_one_line_of_a_file_that_stays_sound(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    new = fill_need(text, {"name": "Another name"})
    differ = [a for a, b in zip(text.splitlines(), new.splitlines(), strict=True) if a != b]
    assert len(differ) == 1
    assert need_from(new.encode(), "need").name.known == "Another name"


def test_a_form_fills_an_empty_file() -> None:
    new = fill_need("book: f2\n", {"name": "N", "demand.guests.count": "4", "must": "a\n\n b "})
    assert new == "book: f2\nname: N\ndemand:\n  guests:\n    count: 4\nmust:\n  - a\n  - b\n"
    assert fill_need(new, {"demand.guests.count": "", "must": ""}) == "book: f2\nname: N\n"


def test_a_fact_with_its_source_keeps_it() -> None:
    text = "book: f2\nname: N\nhosts: {value: 2, note: as told}\n"
    assert _values(text)["hosts"] == "2"
    assert fill_need(text, {"hosts": "3"}) == text.replace("2, note", "3, note")


def test_a_comment_that_would_be_lost_is_kept_by_refusing() -> None:
    text = "book: f2\nname: N\nhosts: 2  # as told\n"
    with pytest.raises(Problems, match="layout"):
        fill_need(text, {"hosts": ""})


def test_what_the_form_has_no_field_for_is_left_out_of_account() -> None:
    assert fill_need("book: f2\n", {"book": "p1", "site.rack": "x"}) == "book: f2\n"
    assert all(not field.text for section in need_form("a: [") for field in section.fields)

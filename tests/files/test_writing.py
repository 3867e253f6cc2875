from __future__ import annotations

import os
from pathlib import Path

import pytest
from pydantic import BaseModel

from baywright.facts.book import Book
from baywright.facts.build import Fitted
from baywright.facts.fact import Fact
from baywright.files.books import bundled_books, find_book, read_book
from baywright.files.roundtrip import LayoutError, changed, rewritten
from baywright.files.writing import file_of_fact, fingerprint, set_value, write_book
from baywright.problems import Problems
from tests.files.example import write_example


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_example(tmp_path)


def put(folder: Path, path: str, text: str) -> Book:
    _, seen = file_of_fact(folder, path)
    return set_value(folder, path, text, seen)


def lines_changed(before: str, after: str) -> list[tuple[str, str]]:
    pairs = zip(before.splitlines(), after.splitlines(), strict=True)
    return [(old, new) for old, new in pairs if old != new]


def without_marks(value: object) -> object:
    if isinstance(value, Fact):
        return (value.value, value.text, value.could_be, value.source, value.date, value.status)
    if isinstance(value, Fitted):
        return [(item.part, item.count) for item in value.items], value.controller
    if isinstance(value, BaseModel):
        return {name: without_marks(getattr(value, name)) for name in type(value).model_fields}
    if isinstance(value, dict):
        return {str(key): without_marks(inner) for key, inner in value.items()}
    return [without_marks(inner) for inner in value] if isinstance(value, list) else value


@pytest.mark.parametrize("name", bundled_books())
def test_a_copy_of_a_bundled_book_is_the_same(name: str, tmp_path: Path) -> None:
    folder, copy = find_book(name), tmp_path / "copy"
    write_book(folder, copy)
    assert without_marks(read_book(copy)) == without_marks(read_book(folder))
    for file in copy.iterdir():
        assert file.read_text(encoding="utf-8") == (folder / file.name).read_text(encoding="utf-8")


def test_a_copy_never_goes_over_something(book: Path, tmp_path: Path) -> None:
    (tmp_path / "there").mkdir()
    (tmp_path / "there" / "x").touch()
    with pytest.raises(Problems, match="not-empty"):
        write_book(book, tmp_path / "there")


def test_one_value_changes_and_nothing_else(book: Path) -> None:
    file = book / "parts.yaml"
    before = file.read_text()
    changed_book = put(book, "parts.cpu-8.tdp", "80 W")
    assert lines_changed(before, file.read_text()) == [("    tdp: 65 W", "    tdp: 80 W")]
    assert without_marks(changed_book) == without_marks(read_book(book))


def test_a_value_with_its_source_keeps_the_source(book: Path) -> None:
    fact = put(book, "chassis.price", "850 FLO").chassis.price
    assert (fact.text, fact.source) == ("850 FLO", "price-list")


def test_an_unknown_fact_becomes_known(book: Path) -> None:
    before = (book / "parts.yaml").read_text()
    price = put(book, "parts.S2.price", "75 FLO").parts["S2"].price
    assert price is not None
    assert (price.text, price.status, price.note) == ("75 FLO", "stated", "asked on 2031-06-20")
    assert len(lines_changed(before, (book / "parts.yaml").read_text())) == 1


def test_a_text_is_quoted_where_it_has_to_be(book: Path) -> None:
    for text in ("a: b", "- x", "#1", "'x'", "yes", "[x", "two\nlines", "1,024", " x ", "~x"):
        assert put(book, "parts.fan.name", text).parts["fan"].name == text


def test_comments_stay(book: Path) -> None:
    before = (book / "book.yaml").read_text()
    put(book, "book.purpose", "host for two rooms")
    after = (book / "book.yaml").read_text()
    assert before.count("#") == after.count("#")
    assert len(lines_changed(before, after)) == 1


@pytest.mark.parametrize(
    ("path", "text", "kind"),
    [
        ("parts.cpu-8.tdp", "80 kg", "wrong-dimension"),
        ("parts.cpu-8.tdp", "", "no-value"),
        ("parts.cpu-8.tdp", "8\x00 W", "strange-character"),
        ("parts.cpu-8.kind", "drive", "missing"),
        ("places.M1.owner", "P7", "unknown-reference"),
    ],
)
def test_what_would_break_the_book_is_not_written(
    book: Path, path: str, text: str, kind: str
) -> None:
    before = {file.name: file.read_bytes() for file in book.iterdir() if file.is_file()}
    with pytest.raises(Problems, match=kind):
        put(book, path, text)
    after = {file.name: file.read_bytes() for file in book.iterdir() if file.is_file()}
    assert after == before


def test_a_file_that_changed_meanwhile_is_not_written(book: Path) -> None:
    file, seen = file_of_fact(book, "parts.cpu-8.tdp")
    file.write_text(file.read_text() + "# a remark\n")
    with pytest.raises(Problems, match="changed-meanwhile"):
        set_value(book, "parts.cpu-8.tdp", "80 W", seen)
    assert seen != fingerprint(file.read_bytes())


def test_a_fact_that_is_not_there(book: Path) -> None:
    with pytest.raises(Problems, match=r"Did you mean 'parts.cpu-8.tdp'\?"):
        file_of_fact(book, "parts.cpu-8.tpd")


def test_a_failed_write_leaves_the_old_file_and_no_other(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(descriptor: int) -> None:
        raise OSError(28, f"No space left on device: {descriptor}")

    before = {file.name for file in book.iterdir()}
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(Problems, match="unwritable"):
        put(book, "parts.cpu-8.tdp", "80 W")
    assert {file.name for file in book.iterdir()} == before
    assert "65 W" in (book / "parts.yaml").read_text()


def test_rights_of_the_file_stay(book: Path) -> None:
    (book / "parts.yaml").chmod(0o640)
    put(book, "parts.cpu-8.tdp", "80 W")
    assert (book / "parts.yaml").stat().st_mode & 0o777 == 0o640


def test_a_link_stays_a_link(book: Path, tmp_path: Path) -> None:
    (book / "parts.yaml").rename(tmp_path / "elsewhere.yaml")
    (book / "parts.yaml").symlink_to(tmp_path / "elsewhere.yaml")
    put(book, "parts.cpu-8.tdp", "80 W")
    assert (book / "parts.yaml").is_symlink()
    assert "80 W" in (tmp_path / "elsewhere.yaml").read_text()


def test_line_ends_stay() -> None:
    assert changed("a: 1\r\nb: 2\r\n", ("b",), "3") == "a: 1\r\nb: 3\r\n"


@pytest.mark.parametrize("text", ["a:\n  - 1\n  - b\n", "a:\n- 1\n- b\n", "a:\n    - 1\n    - b\n"])
def test_indentation_stays(text: str) -> None:
    assert changed(text, ("a", 1), "c") == text.replace("b", "c")


def test_an_odd_layout_is_refused_rather_than_lost() -> None:
    with pytest.raises(LayoutError):
        changed("a:    1\nb:\n   c: 2\n", ("a",), "3")


def test_a_comment_that_would_be_lost_is_a_refusal() -> None:
    with pytest.raises(LayoutError):
        changed("a:\n  could_be:\n    - 1  # why\n    - 2\n", ("a",), "3")


def test_rewriting_keeps_comments() -> None:
    text = "# head\na:\n   b: 1   # why\n\n# foot\n"
    comments = [line.partition("#")[2] for line in rewritten(text).splitlines() if "#" in line]
    assert comments == [" head", " why", " foot"]

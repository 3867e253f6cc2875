"""What a book says of itself in words is held against its facts."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from baywright.desk.drafts.own_prose import own_findings
from baywright.desk.opening import open_book
from baywright.files.books import find_book
from baywright.language.kind_words import marked
from tests.desk.demo import opened


def _changed(tmp_path: Path, file: str, old: str, new: str) -> Path:
    """Return a copy of the book of the F2 with one text changed."""
    folder = tmp_path / "f2"
    shutil.copytree(find_book("f2"), folder)
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return folder


@pytest.mark.parametrize(
    ("file", "old", "new", "sentence"),
    [
        (
            "book.yaml",
            "purpose: general two-socket host",
            "purpose: the F2 has 28 memory sockets",
            "There are 32 memory sockets.",
        ),
        (
            "places.yaml",
            "note: cabled to a controller in riser 1 and nowhere else",
            "note: holds 12 fast drives",
            "",
        ),
        (
            "must_say.yaml",
            "Zone B with fast drives, network module O2 and riser 3 work with processor 2 only.",
            "Every build has six fans.",
            "",
        ),
    ],
)
def test_prose_that_is_not_so_is_found_with_its_line(
    tmp_path: Path, file: str, old: str, new: str, sentence: str
) -> None:
    folder = _changed(tmp_path, file, old, new)
    (found,) = marked(own_findings(open_book(folder)))
    line = int(found.passage.place.where.removeprefix(f"{file}:"))
    written = (folder / file).read_text(encoding="utf-8").splitlines()[line - 1]
    assert written.strip().endswith(new)
    assert found.passage.text in new
    assert found.sentence.startswith(sentence)


@pytest.mark.parametrize("book", ["f2", "f1", "l4", "p1"])
def test_the_bundled_books_say_nothing_wrong_of_themselves(book: str) -> None:
    assert {each.kind for each in marked(own_findings(opened(book)))} <= {"sample"}


def test_an_open_book_is_gone_through_once() -> None:
    assert own_findings(opened("f2")) is own_findings(opened("f2"))

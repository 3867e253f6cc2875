"""What a need may not ask for: each is told with its place and what to do."""

from __future__ import annotations

import pytest

from baywright.facts.need_checks import check_need
from baywright.files.books import find_book, need_from, read_book

START = "book: f2\nname: need\n"


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("demand: {drive_failures: 3, capacity: 1 TB}", "drive-failures"),
        ("demand: {copies: 3}", "no-data"),
        ("demand: {fill: 75 %}", "no-data"),
        ("demand: {capacity: 1 TB, copies: 3, drive_failures: 1}", "two-ways"),
        ("demand: {capacity: 1 TB}\nsurvive: {hosts: 1}", "no-copies"),
        ("demand: {cores: {could_be: [8, 16]}}", "unknown"),
        ("survive: {fans: 2}", "survive"),
        ("hosts: 2\nsurvive: {hosts: 2}", "survive"),
        ("hosts: 0", "not-positive"),
        ("survive: {hosts: -1}", "negative"),
        ("budget: 100 ACR", "wrong-dimension"),
        ('must: ["cores >="]', "syntax"),
    ],
)
def test_it_is_refused(text: str, kind: str) -> None:
    need = need_from((START + text).encode(), "need.yaml")
    (found,) = check_need(need, read_book(find_book("f2")))
    assert found.kind == kind
    assert found.mark is not None
    assert found.hint


def test_a_need_for_another_book_is_refused() -> None:
    need = need_from(b"book: f1\nname: need\n", "need.yaml")
    (found,) = check_need(need, read_book(find_book("f2")))
    assert found.kind == "unknown-reference"


@pytest.mark.parametrize(("book", "name"), [("p1", "n1"), ("f2", "n2"), ("l4", "n3"), ("f2", "n4")])
def test_the_customers_needs_stand(book: str, name: str) -> None:
    folder = find_book(book)
    need = need_from((folder / "needs" / f"{name}.yaml").read_bytes(), name)
    assert check_need(need, read_book(folder)) == []

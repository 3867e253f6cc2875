"""The second way to read a book: plain text by path, the same as the first way reads."""

from __future__ import annotations

import pytest

from baywright.desk.fact_table import fact_rows
from baywright.desk.opening import open_book
from baywright.files.books import bundled_books, find_book
from baywright.files.values import values_of


@pytest.mark.parametrize("name", sorted(bundled_books()))
def test_both_ways_read_the_same(name: str) -> None:
    written = values_of(find_book(name))
    for row in fact_rows(open_book(name)):
        if row.path:
            assert written[row.path] == list(row.could_be or (row.text,)), row.path

"""Whatever is pasted, every cell is kept or reported, and a book is never left half written."""

from __future__ import annotations

import csv
import io
from collections import Counter
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from baywright.desk.capture.captured import How
from baywright.desk.capture.writing import Looked, look, write
from baywright.exchange.lists.pasted import pasted_rows
from baywright.files.books import read_book
from baywright.problems import Problems
from tests.files.example import write_example

HEADINGS = [
    "Part",
    "Name",
    "Power (W)",
    "Price",
    "Weight",
    "Ships",
    "Size",
    "Rating high",
    "Odd",
    "",
]
CELLS = [
    *("fan", "ps-400", "dimm-16", "new", "-", "?", "a or b", "x; y", 'a "b"', "x: # y"),
    *("6", "6 W", "8,5", "1.300", "1,300.5", "6 or 7", "350 g", "90 FLO", "FLO 90", "±3"),
    "2031-07-01",
]

cells = st.sampled_from(CELLS) | st.text(max_size=8)
tables = st.tuples(
    st.lists(st.sampled_from(HEADINGS), min_size=2, max_size=6),
    st.lists(st.lists(cells, min_size=1, max_size=7), min_size=1, max_size=5),
    st.sampled_from(["fan", "supplies", "memory", "parts", "places", "ports", "sources"]),
    st.sampled_from("\t;,"),
)


def looked(book: Path, text: str, about: str) -> Looked | None:
    try:
        return look(str(book), "pasted", text, How(about))
    except Problems:
        return None


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(table=tables)
def test_every_cell_of_any_table_is_accounted_for(
    table: tuple[list[str], list[list[str]], str, str], tmp_path_factory: object
) -> None:
    headings, rows, about, separator = table
    stream = io.StringIO()
    csv.writer(stream, delimiter=separator).writerows([headings, *rows])
    book = write_example(tmp_path_factory.mktemp("any"))  # type: ignore[attr-defined]
    found = looked(book, stream.getvalue(), about)
    if found is None:
        return
    every = Counter(text for row in pasted_rows(stream.getvalue(), "x") for text in row.cells)
    kept = Counter(cell.text for cell in found.captured.cells)
    kept.update(column.heading for column in found.captured.columns)
    assert kept == every
    before = read_book(book)
    try:
        write(found, leave_rest=True)
    except Problems:
        assert read_book(book) == before
    else:
        assert found.change
        assert read_book(book).model_fields_set == found.change.book.model_fields_set

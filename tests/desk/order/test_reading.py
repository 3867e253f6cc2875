"""Orders as people write them: what counts, what is left, and nothing dropped."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.desk.opening import open_book
from baywright.desk.order.columns import entries
from baywright.desk.order.reading import Order, read_order
from baywright.exchange.lists.rows import Row
from baywright.facts.book import Book
from baywright.problems import Mark, Problems


@cache
def book(name: str = "f2") -> Book:
    return open_book(name).book


def rows(*lines: str | tuple[str, ...]) -> list[Row]:
    cells = [(line,) if isinstance(line, str) else line for line in lines]
    return [Row(Mark("list", number, 1), each) for number, each in enumerate(cells, 1)]


def read(*lines: str | tuple[str, ...]) -> Order:
    return read_order(book(), [book("f1")], rows(*lines))


@pytest.mark.parametrize(
    ("line", "count", "text"),
    [
        ("8 x 64 GB module", "8", "64 gb module"),
        ("8x dimm-64", "", "8x dimm-64"),
        ("dimm-64 x 8", "8", "dimm-64"),
        ("dimm-64: 8", "8", "dimm-64"),
        ("2 pcs 1300W PSU", "2", "1300w psu"),
        ("- two 1300 W supplies", "2", "1300 w supplies"),
        ("16 64 GB modules", "16", "64 gb modules"),
        ("64 GB module", "", "64 gb module"),
        ("16-core processor", "", "16-core processor"),
        ("3) 2 × fan", "2", "fan"),
        ("fans, qty 6", "6", "fans"),
        ("fans (6)", "6", "fans"),
    ],
)
def test_a_line_of_text_is_a_number_and_words(line: str, count: str, text: str) -> None:
    if line == "8x dimm-64":
        count, text = "8", "dimm-64"
    (entry,) = entries(rows(line))
    assert (entry.count, entry.text) == (count, text)


@pytest.mark.parametrize(
    "line",
    [
        "4 x cpu-32, 12 x dimm-64",
        "four cpu-32 and twelve 64 GB modules",
        "- 4x cpu-32; 12x dimm-64",
        ("4 x cpu-32", "12 x dimm-64"),
    ],
)
def test_a_line_of_several_counts_is_read_part_by_part(line: str | tuple[str, ...]) -> None:
    assert read(line).counts == {"cpu-32": 4, "dimm-64": 12}


def test_a_comma_inside_a_name_parts_nothing() -> None:
    (entry,) = entries(rows("8 x SAS drive, 2.4 TB"))
    assert (entry.count, entry.text) == ("8", "sas drive, 2.4 tb")


def test_columns_go_by_their_heads() -> None:
    found = read(
        ("Order of 5 May", "", "", ""),
        ("Qty", "Description", "Code", "Price"),
        ("16", "64 GB module", "dimm-64", "4,960.00"),
        ("2", "48-core processor", "", ""),
    )
    assert found.counts == {"dimm-64": 16, "cpu-48": 2}
    assert [each.text for each in found.not_read] == ["Order of 5 May"]


def test_columns_without_heads_are_a_number_and_words() -> None:
    assert read(("dimm-64", "16"), ("2", "48-core processor")).counts == {
        "dimm-64": 16,
        "cpu-48": 2,
    }


def test_what_an_unknown_column_says_is_listed() -> None:
    found = read(("Part", "Count", "Colour"), ("fan", "4", "blue"))
    assert [each.text for each in found.not_read] == ["Colour: blue"]


@pytest.mark.parametrize("count", ["-3", "1.5", "many", "999999999"])
def test_a_number_that_is_none_is_listed_with_its_line(count: str) -> None:
    found = read(("Part", "Count"), ("fan", "4"), ("dimm-64", count))
    assert [(each.where, each.counts) for each in found.not_read] == [("3", True)]


def test_a_line_without_a_number_is_one_piece_and_says_so() -> None:
    found = read("fault display")
    assert found.counts == {"display": 1}
    assert found.lines[0].notes == ("no number is given, so it is taken as 1",)


def test_the_same_part_on_two_lines_adds_up() -> None:
    assert read("2 x fan", "4 fans").counts == {"fan": 6}


def test_id_and_words_that_differ_could_be_either() -> None:
    found = read(("Part", "Name", "Count"), ("dimm-64", "32 GB module", "8"))
    assert [set(line.parts) for line in found.unclear] == [{"dimm-64", "dimm-32"}]


def test_numbers_are_shared_among_machines() -> None:
    found = read("3 x Ferryman F2", "6 x cpu-32", "48 x dimm-64")
    assert (found.machines, found.counts) == (3, {"cpu-32": 2, "dimm-64": 16})


def test_numbers_that_cannot_be_shared_are_a_problem() -> None:
    with pytest.raises(Problems, match="line 2 is not the same for each"):
        read("3 x Ferryman F2", "7 x cpu-32")


def test_a_ready_made_model_brings_its_parts() -> None:
    found = read("model F2-b", "8 x fast-1920")
    # From the demo scenario: two 24-core processors, 16 modules of 32 GB, two cages N8.
    assert {part: found.counts[part] for part in ("cpu-24", "dimm-32", "N8", "fast-1920")} == {
        "cpu-24": 2,
        "dimm-32": 16,
        "N8": 2,
        "fast-1920": 8,
    }


def test_settings_are_read_by_their_words() -> None:
    found = read("2 x fan", "Reedbed 11", "fixed drives, built at the factory only")
    assert dict(found.settings) == {"system": "reedbed_11", "variant": "fixed"}


def test_a_list_without_any_part_is_a_problem() -> None:
    with pytest.raises(Problems, match="No line names a part"):
        read("good morning", "and good night")
    with pytest.raises(Problems, match="it is empty"):
        read()


_WORDS = st.sampled_from(
    [
        "fan",
        "dimm-64",
        "64 GB",
        "module",
        "x",
        "8",
        "16-core",
        "PSU",
        "S8i",
        "please",
        "%",
        "=",
        "-3",
    ]
)


@given(st.lists(st.lists(_WORDS, min_size=1, max_size=4).map(" ".join), min_size=1, max_size=6))
def test_every_line_is_read_or_listed(lines: list[str]) -> None:
    found = read("1 x display", *lines)
    seen = {line.where for line in found.lines} | {each.where for each in found.not_read}
    assert seen == {str(number) for number in range(1, len(lines) + 2)}

"""Words of parts lists: what says the same becomes the same, and digits are never guessed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.desk.order.words import key_of, slips, spelled, tokens


@pytest.mark.parametrize(
    ("text", "other"),
    [
        ("64GB DIMMs", "64 GB memory"),
        ("1.3 kW PSU", "1300 W supplies"),
        ("1,300 W supply", "1300W power supply"),
        ("2,4 TB SAS disks", "2400 GB SAS drive"),
        ("16-core CPU", "processor 16 cores"),
        ("dual-wide GPU", "double wide accelerators"),
        ("25GbE NIC", "network 25 Gb/s"),
    ],
)
def test_what_says_the_same_has_the_same_tokens(text: str, other: str) -> None:
    assert set(tokens(text)) == set(tokens(other))


@pytest.mark.parametrize(
    ("text", "other"), [("64 GB", "46 GB"), ("6 Gb/s", "6 GB"), ("800 W", "800 GB"), ("S8", "N8")]
)
def test_what_says_something_else_has_other_tokens(text: str, other: str) -> None:
    assert set(tokens(text)) != set(tokens(other))


def test_keys_are_letters_and_digits_alone() -> None:
    assert key_of("DIMM 64") == key_of("dimm-64") == key_of("Dimm–64") == "dimm64"


@pytest.mark.parametrize(
    ("word", "read"),
    [
        ("procesor", "processor"),
        ("moduel", "module"),
        ("suplly", "supply"),
        ("suqqly", None),  # two slips, and shorter words allow one
        ("planning", None),  # two slips from "blanking", and the first letter is another
        ("fna", None),  # too short to be sure of
        ("ps800", None),  # digits are never guessed
        ("cable", "cable"),
    ],
)
def test_misspelt_words_are_read_where_one_word_alone_is_near(word: str, read: str | None) -> None:
    known = ("processor", "module", "supply", "blanking", "fan", "cable", "ps1300")
    assert spelled(word, known) == read


def test_a_word_as_near_to_two_others_is_not_read() -> None:
    assert spelled("bard", ("card", "bird")) is None


@given(st.text("abc", max_size=5), st.text("abc", max_size=5))
def test_slips_are_counted_alike_both_ways(one: str, other: str) -> None:
    assert slips(one, other, 9) == slips(other, one, 9)
    assert (slips(one, other, 9) == 0) == (one == other)
    assert slips(one, other, 1) in (None, slips(one, other, 9))

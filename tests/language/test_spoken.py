"""Numbers as they are spoken, and back."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.language.spoken import UNITS, spoken, spoken_number, written
from baywright.language.tokens import NOT_UNITS

SYMBOLS = sorted(set(UNITS) - NOT_UNITS)


@given(st.integers(0, 999_999_999), st.sampled_from(SYMBOLS))
def test_an_amount_comes_back_as_it_was_written(number: int, unit: str) -> None:
    assert written(spoken(f"It has {number} {unit}.")) == f"It has {number} {unit}."


@given(st.integers(0, 9999), st.integers(0, 99), st.sampled_from(SYMBOLS))
def test_decimals_come_back(whole: int, hundredths: int, unit: str) -> None:
    text = f"It has {whole}.{hundredths:02} {unit}."
    assert written(spoken(text)) == text


@given(st.integers(0, 999_999_999))
def test_no_number_is_spoken_with_digits(number: int) -> None:
    assert not any(sign.isdigit() for sign in spoken_number(Fraction(number)))


@pytest.mark.parametrize(
    ("text", "aloud"),
    [
        ("It runs at 5600 MT/s.", "It runs at five thousand six hundred megatransfers per second."),
        ("firmware 2.4 or later", "firmware two point four or later"),
        ("at 230 V", "at two hundred and thirty volts"),
        ("one 64 GB module", "one sixty-four gigabyte module"),
        ("processor 2, PCIe 5.0 x16 and Reedbed 10", "processor 2, PCIe 5.0 x16 and Reedbed 10"),
        ("since 17 March 2031", "since 17 March 2031"),
        ("in a 1U tray", "in a 1U tray"),
        ("2 TB fits.", "Two terabytes fits."),
    ],
)
def test_what_is_part_of_a_name_stays(text: str, aloud: str) -> None:
    assert spoken(text) == aloud


@pytest.mark.parametrize(
    ("aloud", "text"),
    [
        ("ninety-six and one hundred and twenty-eight gigabytes", "96 and 128 GB"),
        ("eight one hundred and fifty watt cards", "eight 150 W cards"),
        ("one point two and two point four terabytes", "1.2 and 2.4 TB"),
        ("two supplies and three fans", "two supplies and three fans"),
    ],
)
def test_numbers_that_meet_are_told_apart(aloud: str, text: str) -> None:
    assert written(aloud) == text

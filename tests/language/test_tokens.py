"""Numbers, amounts and dates in running text."""

from __future__ import annotations

from fractions import Fraction

import pytest

from baywright.language.tokens import Token, tokens


def only(text: str, currency: str = "") -> Token:
    (token,) = tokens(text, currency)
    return token


@pytest.mark.parametrize(
    ("text", "number", "unit"),
    [
        ("24", 24, ""),
        ("1,159", 1159, ""),
        ("twenty-four", 24, ""),
        ("64GB", 64, "GB"),
        ("four terabytes", 4, "TB"),
        ("48 dB(A)", 48, "dB(A)"),
        ("0.25 GB/s", Fraction(1, 4), "GB/s"),
        ("25 Gb/s", 25, "Gb/s"),
        ("35 °C", 35, "°C"),
        ("2U", 2, "U"),
    ],
)
def test_numbers_and_amounts(text: str, number: int | Fraction, unit: str) -> None:
    token = only(text)
    assert (token.number, token.unit) == (number, unit)


def test_capitals_of_units_count() -> None:
    assert only("6 GB/s").unit != only("6 Gb/s").unit


def test_a_currency_is_a_unit_only_where_it_is_given() -> None:
    assert only("6,000 FLO", "FLO").unit == "FLO"
    assert len(tokens("6,000 FLO")) == 2


@pytest.mark.parametrize("text", ["17 March 2031", "March 17, 2031", "2031-03-17"])
def test_dates(text: str) -> None:
    token = only(text)
    assert token.date is not None
    assert token.date.isoformat() == "2031-03-17"


def test_in_is_no_unit() -> None:
    assert [token.text for token in tokens("24 in total")] == ["24", "in", "total"]


def test_hyphens_inside_words_are_left_out() -> None:
    assert [token.text for token in tokens("a hot-swap bay")] == ["a", "hot", "swap", "bay"]

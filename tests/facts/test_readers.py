from __future__ import annotations

import datetime
from fractions import Fraction

import pytest
from pydantic_core import PydanticCustomError

from baywright.facts.readers import (
    Reader,
    read_date,
    read_money,
    read_ratio,
    read_truth,
    read_whole,
)


@pytest.mark.parametrize(
    ("reader", "text", "value"),
    [
        (read_whole, "16", 16),
        (read_whole, " 1,024 ", 1024),
        (read_whole, "-3", -3),
        (read_ratio, "0.62", Fraction(31, 50)),
        (read_ratio, "62 %", Fraction(31, 50)),
        (read_ratio, "62.5%", Fraction(5, 8)),
        (read_ratio, "1/3", Fraction(1, 3)),
        (read_ratio, "1e-17", Fraction(1, 10**17)),
        (read_ratio, "0", 0),
        (read_ratio, "1", 1),
        (read_date, "2031-07-01", datetime.date(2031, 7, 1)),
        (read_truth, "yes", True),
        (read_truth, "No", False),
    ],
)
def test_read(reader: Reader, text: str, value: object) -> None:
    assert reader(text) == value


@pytest.mark.parametrize(
    ("reader", "text", "kind"),
    [
        (read_whole, "1.5", "not-a-number"),
        (read_whole, "1,2", "not-a-number"),
        (read_whole, "", "not-a-number"),
        (read_whole, "²", "not-a-number"),
        (read_whole, "9" * 16, "not-a-number"),
        (read_ratio, "1.2", "not-a-ratio"),
        (read_ratio, "-0.1", "not-a-ratio"),
        (read_ratio, "101 %", "not-a-ratio"),
        (read_ratio, "1/0", "not-a-ratio"),
        (read_ratio, "1e999999999", "not-a-ratio"),
        (read_ratio, "1e-999999999", "not-a-ratio"),
        (read_ratio, "nan", "not-a-ratio"),
        (read_date, "1 July 2031", "not-a-date"),
        (read_date, "2031-02-30", "not-a-date"),
        (read_truth, "maybe", "not-yes-or-no"),
        (read_money, "5 W", "wrong-dimension"),
    ],
)
def test_refused(reader: Reader, text: str, kind: str) -> None:
    with pytest.raises(PydanticCustomError) as caught:
        reader(text)
    assert caught.value.type == kind
    assert (caught.value.context or {})["hint"]

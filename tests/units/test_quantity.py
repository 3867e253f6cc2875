"""Comparing, adding and printing amounts."""

from fractions import Fraction

import pytest

from baywright.units import Quantity, UnitError, number, parse, show


def test_amounts_of_one_dimension_compare_by_size() -> None:
    assert parse("1 kW") == parse("1000 W")
    assert hash(parse("1 kW")) == hash(parse("1000 W"))
    assert parse("2.5 in") < parse("64 mm")
    assert parse("6 GB/s") >= parse("48 Gb/s")
    assert max(parse("1 U"), parse("44 mm")) == parse("1 U")


def test_amounts_of_different_dimensions_differ_and_have_no_order() -> None:
    assert parse("64 GB", "memory") != parse("64 GB", "capacity")
    assert parse("1 W") != "1 W"
    with pytest.raises(UnitError, match="a length; a power is wanted"):
        assert parse("1 W") < parse("1 mm")


def test_converting_to_another_dimension_is_refused() -> None:
    with pytest.raises(UnitError, match="is a power"):
        parse("1300 W").to("mm")
    with pytest.raises(UnitError, match="a length is wanted"):
        Quantity(Fraction(1), "W", "length")


def test_rounding_to_the_safe_side() -> None:
    need = Quantity(Fraction(11581, 10), "W")
    assert (need.ceil("W"), need.floor("W"), need.ceil("kW")) == (1159, 1158, 2)


@pytest.mark.parametrize("written", ["1300 W", "2.5 in", "64 GB", "48 dB(A)", "35 °C", "-10 K"])
def test_printed_as_written(written: str) -> None:
    assert str(parse(written)) == written


def test_numbers_for_people() -> None:
    assert number(1159) == "1,159"
    assert number(Fraction("-0.62")) == "-0.62"
    assert number(Fraction(1, 3)) == "0.333333"
    assert number(Fraction(1, 8), places=2) == "0.13"
    assert number(Fraction(-1, 1000), places=2) == "0.00"
    assert show(Fraction(11581, 10), "W", "up") == "1,159 W"
    assert show(Fraction(11589, 10), "W", "down") == "1,158 W"
    assert show(Fraction(-3, 2), "K") == "-2 K"
    assert show(Fraction(235, 100), "kW", places=1) == "2.4 kW"


def test_sums() -> None:
    assert parse("1 kW") + parse("300 W") == parse("1300 W")
    assert str(parse("1 kW") - parse("300 W")) == "0.7 kW"
    assert -parse("10 K") == parse("-10 K")
    assert 24 * parse("12 W") == parse("288 W")
    with pytest.raises(UnitError, match="cannot be added"):
        parse("1 W") + parse("1 mm")


def test_temperatures_have_differences_but_no_sums_or_multiples() -> None:
    assert parse("35 °C") - parse("5 K") == parse("30 °C")
    assert parse("5 K") + parse("30 °C") == parse("35 °C")
    assert parse("35 °C") - parse("30 °C") == parse("5 K")
    with pytest.raises(UnitError):
        parse("35 °C") + parse("35 °C")
    with pytest.raises(UnitError, match="no multiples"):
        2 * parse("35 °C")

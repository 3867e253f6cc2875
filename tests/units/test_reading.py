"""Reading amounts, and what is said about those that cannot be read."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.problems import Mark
from baywright.units import DIMENSIONS, Quantity, UnitError, money, parse
from baywright.units.lookup import dimension_of, find, spellings


@pytest.mark.parametrize(
    ("written", "magnitude", "unit", "dimension"),
    [
        ("1300 W", "1300", "W", "power"),
        ("1300W", "1300", "W", "power"),
        ("1,300 W", "1300", "W", "power"),
        ("1,300.25\N{NO-BREAK SPACE}W", "1300.25", "W", "power"),
        ("2.5 in", "2.5", "in", "length"),
        ("-10 K", "-10", "K", "temperature_difference"),
        ("\N{MINUS SIGN}10 K", "-10", "K", "temperature_difference"),
        ("90 %", "90", "%", "ratio"),
        ("48 dB(A)", "48", "dB(A)", "sound"),
        ("520 cm2", "520", "cm²", "area"),
        ("35 degC", "35", "°C", "temperature"),
        ("14 days", "14", "d", "time"),
        ("9,000 FLO", "9000", "FLO", "money:FLO"),
        ("64 GB", "64", "GB", "capacity"),
    ],
)
def test_accepted(written: str, magnitude: str, unit: str, dimension: str) -> None:
    read = parse(written)
    assert (read.magnitude, read.unit, read.dimension) == (Fraction(magnitude), unit, dimension)


def test_the_wanted_dimension_decides_between_units_of_one_spelling() -> None:
    assert parse("64 GB", "memory").to("GiB") == 64
    assert parse("64 GB", "capacity").to("B") == 64 * 10**9
    assert parse("100 CFM", "money:CFM").dimension == money("CFM")


@pytest.mark.parametrize(
    ("written", "wanted", "kind", "says"),
    [
        ("", None, "not-a-number", "such as '1300 W'"),
        ("many W", "power", "not-a-number", "Write a power, such as '1300 W'"),
        ("1 300 W", None, "not-a-number", "not one number and one unit"),
        ("1.300,5 W", None, "not-a-number", "commas only between thousands"),
        ("13,00 W", None, "not-a-number", "commas only between thousands"),
        ("9" * 31 + " W", None, "not-a-number", "at most 30 digits"),
        ("9" * 100_000 + " W", None, "not-a-number", "..."),
        ("760", "length", "no-unit", "such as '760 mm'"),
        ("760 mms", "length", "unknown-unit", "Did you mean"),
        ("3 GHZ", None, "unknown-unit", "'GHz'"),
        ("6 gb/s", "data_rate", "unknown-unit", "'Gb/s' and 'GB/s' differ by eight"),
        ("3 months", "time", "unknown-unit", "no fixed length"),
        ("1/2 W", None, "unknown-unit", "'/2 W'"),
        (
            "1300 W", "length", "wrong-dimension",
            "'1300 W' is a power; a length is wanted, such as '760 mm'.",
        ),
        ("300 K", "temperature", "wrong-dimension", "such as '35 °C'"),
    ],
)  # fmt: skip
def test_refused(written: str, wanted: str | None, kind: str, says: str) -> None:
    with pytest.raises(UnitError) as caught:
        parse(written, wanted)
    assert caught.value.kind == kind
    assert says in str(caught.value)


def test_an_error_becomes_a_problem_with_a_place() -> None:
    mark = Mark("parts.yaml", 3, 7)
    with pytest.raises(UnitError) as caught:
        parse("760", "length")
    shown = str(caught.value.problem(mark))
    assert shown == "parts.yaml:3:7: '760' has no unit. Write a length, such as '760 mm'. [no-unit]"


def test_three_capitals_are_a_currency_unless_they_are_a_unit_in_the_wrong_case() -> None:
    assert dimension_of("FLO") == "money:FLO"
    assert dimension_of("RPM") is None
    with pytest.raises(UnitError):
        money("flo")


amounts = st.builds(
    Quantity,
    st.decimals(-(10**6), 10**6, places=4).map(Fraction),
    st.sampled_from(spellings()),
)


@given(amounts)
def test_what_is_printed_reads_back(amount: Quantity) -> None:
    assert parse(str(amount), amount.dimension) == amount


def test_every_spelling_is_found() -> None:
    for name, entry in DIMENSIONS.items():
        for unit in entry.units:
            assert all(find(spelling, name)[1] is unit for spelling in unit.spellings)

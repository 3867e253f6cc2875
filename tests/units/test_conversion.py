"""Sizes of units against published values."""

from fractions import Fraction

import pytest

from baywright.units import DIMENSIONS, parse
from baywright.units.conversion import scale


@pytest.mark.parametrize(
    ("written", "unit", "expected"),
    [
        # EIA-310, repeated in the Redfish Chassis schema: one rack unit is 44.45 mm.
        ("1 U", "mm", Fraction("44.45")),
        # International yard and pound agreement of 1959: 1 in = 25.4 mm. From memory; the
        # 2.5 in drive of SFF-8201 and the rack unit of 1.75 in agree with it.
        ("1 in", "mm", Fraction("25.4")),
        ("2.5 in", "mm", Fraction("63.5")),
        # IEC 80000-13, from memory; the powers are recomputed here.
        ("1 TiB", "B", Fraction(1024**4)),
        ("1 TB", "B", Fraction(1000**4)),
        ("1 TiB", "TB", Fraction("1.099511627776")),
        # Definitions.
        ("6 GB/s", "Gb/s", Fraction(48)),
        ("1 years", "d", Fraction("365.25")),
        ("1 year", "h", Fraction(8766)),
        ("1 kWh", "J", Fraction(3_600_000)),
        ("1 kW", "W", Fraction(1000)),
        ("18 F", "mF", Fraction(18_000)),
        ("32 °F", "°C", Fraction(0)),
        ("212 °F", "°C", Fraction(100)),
    ],
)
def test_exact_values(written: str, unit: str, expected: Fraction) -> None:
    assert parse(written).to(unit) == expected


def test_heat_of_one_watt() -> None:
    """1 W is 3.412142 BTU/h: ISO 80000-5, as pint's own definitions give it too.

    The published value has seven figures, hence the tolerance of half a unit in the last.
    """
    assert abs(parse("1 W").to("BTU/h") - Fraction("3.412142")) < Fraction("0.0000005")


def test_airflow_of_one_cubic_metre_an_hour() -> None:
    """A foot is 0.3048 m exactly, so 1 CFM is 1.699011 m³/h; recomputed here by hand."""
    expected = Fraction("0.3048") ** 3 * 60
    assert parse("1 CFM").to("m³/h") == expected


def test_inch_of_water() -> None:
    """249.089 Pa, the conventional inch of water; from memory, with six figures."""
    assert abs(parse("1 inH2O").to("Pa") - Fraction("249.089")) < Fraction("0.0005")


def test_a_terabyte_of_memory_is_1024_gigabytes() -> None:
    """Common practice of the memory trade, no source; a drive's terabyte has 1000."""
    assert parse("1 TB", "memory").to("GB") == 1024
    assert parse("1 TB", "capacity").to("GB") == 1000


@pytest.mark.parametrize("name", DIMENSIONS)
def test_every_unit_has_an_exact_positive_size(name: str) -> None:
    for unit in DIMENSIONS[name].units:
        assert scale(unit.spelling, name).factor > 0


@pytest.mark.parametrize("name", DIMENSIONS)
def test_every_example_is_of_its_dimension(name: str) -> None:
    assert parse(DIMENSIONS[name].example, name).dimension == name

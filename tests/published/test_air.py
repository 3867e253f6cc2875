"""Heat carried by air, and inlet limits, against numbers in print.

Airflow: 1.75522 CFM for each W and K of rise, and 3.15939 for each W and °F, hold for the standard
air of ASHRAE, 0.075 lb/ft3 and 0.24 BTU/(lb °F); a maker's note rounds the second to 3160 a kW.
Read in stored copies; recomputed here.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from baywright.facts.sections import Derating
from baywright.laws.air import derated
from baywright.sizing.air.atmosphere import density
from baywright.sizing.air.flow import CFM, SPECIFIC_HEAT, heat_carried, heat_per_flow
from baywright.units import parse

POUND, FOOT, BTU = 0.45359237, 0.3048, 1055.05585262
"""kg and m, exact by the agreement of 1959; J, ISO 80000-5."""

STANDARD_DENSITY = 0.075 * POUND / FOOT**3
STANDARD_HEAT = 0.24 * BTU / POUND * 1.8


def test_standard_air_needs_the_printed_flow() -> None:
    flow = 1 / (STANDARD_DENSITY * STANDARD_HEAT * CFM)
    assert flow == pytest.approx(1.75522, rel=2e-4)
    assert flow * 1.8 == pytest.approx(3.15939, rel=2e-4)


def test_ours_is_the_printed_flow_at_the_density_of_the_site() -> None:
    """We take the air of the standard atmosphere at the site, 15 °C and 1.225 kg/m3 at sea level,
    which is denser than standard air: the same watts take 2 % less flow."""
    flow = 1 / float(heat_per_flow(0.0))
    assert flow == pytest.approx(1.75522 * STANDARD_DENSITY / density(0.0), rel=4e-4)
    assert flow == pytest.approx(1.7216, rel=1e-4)


def test_specific_heat_is_that_of_dry_air() -> None:
    """1.006 kJ/(kg K) in ASHRAE Fundamentals, from memory; the ideal diatomic gas is near it."""
    assert pytest.approx(1006.0, rel=2e-3) == SPECIFIC_HEAT


@pytest.mark.parametrize("altitude", [0.0, 900.0, 2300.0, 3050.0])
def test_heat_is_rounded_to_the_safe_side_by_less_than_a_billionth(altitude: float) -> None:
    exact = heat_carried(CFM, 1.0, altitude)
    assert 0 <= exact - float(heat_per_flow(altitude)) < 1.1e-9


@pytest.mark.parametrize(("watts", "printed"), [(1, "3.412142")])
def test_a_watt_in_btu_an_hour(watts: int, printed: str) -> None:
    """1 W is 3.412142 BTU/h: ISO 80000-5, and read in a file of the package pint; seven digits."""
    shown = parse(f"{watts} W").to("BTU/h")
    assert round(shown, 6) == Fraction(printed)


@pytest.mark.parametrize(
    ("name", "per"), [("A1", "300 m"), ("A2", "300 m"), ("A3", "175 m"), ("A4", "125 m")]
)
def test_a_limit_falls_by_a_kelvin_over_the_printed_altitude(name: str, per: str) -> None:
    """ASHRAE TC 9.9, 2021: classes A1 to A4 lose 1 K per 300, 300, 175 and 125 m. The slopes were
    read in a text that quotes them; that they begin at 900 m is from memory."""
    limits = {"A1": "32 °C", "A2": "35 °C", "A3": "40 °C", "A4": "45 °C"}
    falls = Derating.model_validate({"above": "900 m", "by": "1 K", "per": per})
    limit, height = parse(limits[name]), parse("900 m").to("m") + parse(per).to("m")
    assert derated(limit, falls, parse("900 m")) == limit.to("°C")
    assert derated(limit, falls, parse(f"{height} m")) == limit.to("°C") - 1

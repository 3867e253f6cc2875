"""Heat carried by air, and inlet limits, against numbers in print.

Airflow: 1.75522 CFM for each W and K of rise, and 3.15939 for each W and °F, hold for the standard
air of ASHRAE, 0.075 lb/ft3 and 0.24 BTU/(lb °F); a maker's note rounds the second to 3160 a kW.
Read in stored copies; recomputed here.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from CoolProp.CoolProp import PropsSI

from baywright.facts.sections import Derating
from baywright.laws.air import derated
from baywright.sizing.air.atmosphere import density, pressure, temperature
from baywright.sizing.air.flow import (
    CFM,
    SPECIFIC_HEAT,
    heat_carried,
    heat_carried_by,
    heat_per_flow,
)
from baywright.sizing.air.inlet import CLASSES, CLASSES_FALL_ABOVE
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


def test_a_printed_rule_of_thumb_is_met_by_standard_air() -> None:
    """A trade journal: 0.569 W for each CFM and K, or 1.757 CFM for each W; read in a stored copy.
    The digits carry 1e-3; standard air gives 0.5697 and 1.7552."""
    each = heat_carried_by(STANDARD_DENSITY, CFM, 1.0)
    assert each == pytest.approx(0.569, rel=2e-3)
    assert 1 / each == pytest.approx(1.757, rel=2e-3)


@pytest.mark.parametrize("altitude", [0.0, 2300.0])
def test_heat_is_that_of_real_air(altitude: float) -> None:
    """CoolProp 8.0: enthalpy of real air over 18 K from the standard temperature of the site.
    At 15 °C its density is 4e-4 and its specific heat 1.7e-3 above those of our ideal gas."""
    kelvin, pascal = temperature(altitude), pressure(altitude)
    start, end = (PropsSI("H", "T", kelvin + warmer, "P", pascal, "Air") for warmer in (0, 18))
    mass = 525 * CFM * PropsSI("D", "T", kelvin, "P", pascal, "Air")
    assert heat_carried(525 * CFM, 18.0, altitude) == pytest.approx(mass * (end - start), rel=3e-3)


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


PRINTED_CLASSES = [
    # name, lowest and highest inlet, dew point, metres for a fall of 1 K
    ("A1", 15, 32, 17, 300),
    ("A2", 10, 35, 21, 300),
    ("A3", 5, 40, 24, 175),
    ("A4", 5, 45, 24, 125),
]
"""ASHRAE TC 9.9, 2021. Temperatures and dew points were read in a stored copy and in Table 6 of
Regulation (EU) 2019/424; the metres in a text that quotes them."""


def test_the_classes_are_those_printed() -> None:
    ours = [(each.name, each.low, each.high, each.dew_point, each.per) for each in CLASSES]
    assert ours == PRINTED_CLASSES


@pytest.mark.parametrize(("name", "high", "per"), [(c[0], c[2], c[4]) for c in PRINTED_CLASSES])
def test_a_limit_falls_by_a_kelvin_over_the_printed_altitude(
    name: str, high: int, per: int
) -> None:
    """That the limits begin to fall at 900 m is from memory."""
    falls = Derating.model_validate({"above": "900 m", "by": "1 K", "per": f"{per} m"})
    limit, height = parse(f"{high} °C"), parse(f"{900 + per} m")
    assert derated(limit, falls, parse("900 m")) == high
    assert derated(limit, falls, height) == high - 1
    ours = next(each for each in CLASSES if each.name == name)
    assert ours.high_at(CLASSES_FALL_ABOVE) == high
    assert ours.high_at(900.0 + per) == high - 1

"""The rules of the scenario, one question each."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.desk.demo import holds, number, reasons

F2 = [
    # Fixed-drive variant: four SATA drives in zone A, no controller on it, factory only.
    ('variant == "fixed" and count(drive, interface="sata") == 4', True),
    ('variant == "fixed" and A != "F4"', False),
    ('variant == "hot_swap" and A == "F4"', False),
    ('A == "F4" and count(drive, at=A) < 4', False),
    ('A == "F4" and B == "S8"', True),
    # The stick is accepted up to release 9 and refused from 10.
    ('BOOT == "usb-stick" and system == "reedbed_9"', True),
    ('BOOT == "usb-stick" and system == "reedbed_10"', False),
    ('BOOT == "usb-stick" and system == "reedbed_11"', False),
    ('BOOT == "boot-module" and system == "reedbed_11"', True),
    # One pack mount near each riser, each for a controller of that riser.
    ("count(pack) == 2 and count(C16) == 2", True),
    ("count(pack) == 1 and count(C16) == 0", False),
    ('K1 == "pack" and R1a != "C16" and R1b != "C16"', False),
    ('K3 == "pack" and R1a == "C16" and R1b == "C16"', False),
    ('K1 == "pack" and R1a == "X8" and R1b == empty', False),
    # At most two C16 and one X8.
    ("count(C16) == 3", False),
    ("count(X8) == 2", False),
    ("count(X8) == 1 and count(C16) == 2", True),
    # A double-wide card takes its "b" slot too.
    ('R1a == "accel-dw" and R1b != empty', False),
    ('R1a == "accel-dw" and R3b == "accel-sw"', True),
    # Zone C reaches a controller in riser 3 only, and what needs the second processor.
    ('C == "S8" and R3a != "C16" and R3b != "C16"', False),
    ('C == "S8" and processors == 1', False),
    ('B == "N8" and processors == 1', False),
    ('B == "S8" and processors == 1', True),
    ('C == "display" and processors == 1', True),
    ("O2 != empty and processors == 1", False),
    # N8h excludes O2; S8 in zone C does not.
    ('C == "N8h" and O2 != empty', False),
    ('C == "S8" and O2 != empty', True),
    # One size of module, the same on both; identical processors.
    ('count("dimm-16") >= 1 and count("dimm-32") >= 1', False),
    ('count("cpu-16") == 1 and count("cpu-24") == 1', False),
    ("processors == 2 and count(memory) == 3", False),
    ("processors == 1 and count(memory) == 12", True),
    # 5600 MT/s at one module a channel; 4400 only with 128 GB.
    ("memory_speed == 5600 MT/s and count(memory) == 32", False),
    ('memory_speed == 4400 MT/s and count("dimm-128") == 0', False),
    ("always(memory_speed >= 4400 MT/s)", True),
    # A line is a span of volts: the low one reaches from 100 to 127 V.
    ("always(voltage >= 100 V)", True),
    ("always(voltage >= 110 V)", False),
    ("always(voltage <= 240 V)", True),
]


@pytest.mark.parametrize(("claim", "true"), F2)
def test_a_rule_of_f2(claim: str, true: bool) -> None:
    assert holds("f2", claim) == true


@pytest.mark.parametrize(
    ("question", "value"),
    [
        ("most(memory_speed)", 5600),
        ('most(memory_speed, given=count("dimm-64") == 32)', 4800),
        ('most(memory_speed, given=count("dimm-128") == 32)', 4400),
        ("most(count(memory), given=memory_speed == 5600 MT/s)", 16),
        # Supplies at 100 to 127 V: the larger two give 1000 W each.
        ('most(supplies_carry_redundant, given=line == "low")', 1000),
        ('most(supplies_carry, given=line == "low")', 2000),
        ('least(supplies_carry_redundant, given=line == "low")', 800),
        ('most(supplies_carry_redundant, given=line == "high")', 2000),
        # The least that is legal and draws: 45 + 150 / 0.9 + 5 + 18 + 4 × 22.
        ("least(load)", Fraction(968, 3)),
        ('most(count("accel-dw"))', 2),
        ('most(count("accel-sw"))', 4),
        ('most(count(accelerator), given=count("accel-dw") == 1)', 3),
        ("most(cores)", 96),
    ],
)
def test_a_number_of_f2(question: str, value: Fraction | int) -> None:
    assert number("f2", question) == value


@pytest.mark.parametrize(
    ("claim", "altitude", "inlet", "true"),
    [
        # 30 °C with 300 W processors, less 1 K per 300 m above 900 m: 25.33 °C at 2,300 m.
        ('P1 == "cpu-48"', "0 m", "30 °C", True),
        ('P1 == "cpu-48"', "0 m", "30.1 °C", False),
        ('P1 == "cpu-48"', "2300 m", "25.3 °C", True),
        ('P1 == "cpu-48"', "2300 m", "25.4 °C", False),
        # 35 °C otherwise: 30.33 °C there.
        ('P1 == "cpu-16"', "0 m", "35 °C", True),
        ('P1 == "cpu-16"', "2300 m", "30.3 °C", True),
        ('P1 == "cpu-16"', "2300 m", "30.4 °C", False),
        # Up to 3,050 m.
        ('P1 == "cpu-16"', "3050 m", "20 °C", True),
        ('P1 == "cpu-16"', "3051 m", "20 °C", False),
    ],
)
def test_the_inlet_limit_falls_with_altitude(
    claim: str, altitude: str, inlet: str, true: bool
) -> None:
    assert holds("f2", claim, altitude=altitude, inlet=inlet) == true


def test_the_altitude_alone_is_why_nothing_is_legal_above_the_limit() -> None:
    assert reasons("f2", "processors == 1", altitude="3051 m") == {"air.altitude"}


@pytest.mark.parametrize(
    ("inlet", "cards"),
    [
        # L4 with cards above 250 W: 30 °C for 7 or 8, 33 for 5 or 6, 35 for up to 4.
        ("30 °C", 8),
        ("30.1 °C", 6),
        ("33.1 °C", 4),
        ("35 °C", 4),
    ],
)
def test_hot_cards_in_l4_depend_on_the_inlet(inlet: str, cards: int) -> None:
    assert number("l4", 'most(count("accel-350"))', inlet=inlet) == cards


def test_at_2300_m_and_27_degrees_l4_takes_six_hot_cards() -> None:
    # 30 - 14 / 3 = 25.3 °C for eight, 33 - 14 / 3 = 28.3 °C for six.
    assert number("l4", 'most(count("accel-350"))', altitude="2300 m", inlet="27 °C") == 6


L4 = [
    ("always(processors == 2)", True),
    ("always(count(memory) == 24)", True),
    ("always(O1 != empty and O2 != empty)", True),
    ('always(line == "high")', True),
    ("always(supplies_redundant)", True),
    ("count(drive) == 8", True),
]


@pytest.mark.parametrize(("claim", "true"), L4)
def test_a_rule_of_l4(claim: str, true: bool) -> None:
    assert holds("l4", claim) == true


F1 = [
    ('count("S8i") == 1 and count(drive) == 9', False),
    ('count("S16i") == 1 and count(drive) == 16', True),
    ("count(controller) == 2 and A != empty and B != empty", False),
    ("R2a != empty and processors == 1", False),
]


@pytest.mark.parametrize(("claim", "true"), F1)
def test_a_rule_of_f1(claim: str, true: bool) -> None:
    assert holds("f1", claim) == true


P1 = [
    ("count(drive) == 2", True),
    ("count(drive) == 3", False),
    ("always(processors == 1)", True),
    ("count(memory) == 6 and memory == 288 GB", True),
    ("count(memory) == 5", False),
]


@pytest.mark.parametrize(("claim", "true"), P1)
def test_a_rule_of_p1(claim: str, true: bool) -> None:
    assert holds("p1", claim) == true

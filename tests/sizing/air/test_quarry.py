"""Orrery Quarry Imaging: eight accelerators of 350 W at 2,300 m, 27 °C, one fan to spare.

The machine draws, DC at its peak:

====================================  ==========
base                                   120.000 W
2 processors of 300 W over 0.9         666.667 W
24 modules of 9 W                      216.000 W
4 fast drives of 20 W                   80.000 W
2 network modules of 18 W               36.000 W
8 fans of 60 W                         480.000 W
8 accelerators of 350 W              2,800.000 W
together                             4,398.667 W
====================================  ==========

Air at 2,300 m by ISO 2533: T = 288.15 - 0.0065 x 2,300 = 273.20 K;
p = 101,325 x (273.20 / 288.15)^5.25588 = 76,578 Pa; rho = p / (287.05287 T) = 0.97648 kg/m3.
One CFM is 0.3048^3 / 60 = 4.719474e-4 m3/s, and cp = 3.5 x 287.05287 = 1,004.685 J/(kg K), so that
each CFM and K carries 0.97648 x 4.719474e-4 x 1,004.685 = 0.463007 W.
"""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from baywright.facts.build import Build
from baywright.sizing.case import Case
from tests.sizing.air.figures import figures_of, limits_of, room, value
from tests.sizing.cases import build_of, case_of

LOAD = 120 + 2 * 300 / 0.9 + 24 * 9 + 4 * 20 + 2 * 18 + 8 * 60 + 8 * 350
EACH = 0.463007
"""W for each CFM and K at 2,300 m."""


@pytest.fixture(scope="module")
def quarry() -> Case:
    return case_of("l4", "n3")


def with_cards(count: int) -> Build:
    """Return the build of the quarry with fewer accelerators, the first board filled first."""
    build = build_of("l4", "n3")
    places = dict(build.places)
    for board, cards in (("X1", min(4, count)), ("X2", max(0, count - 4))):
        items = tuple(dataclasses.replace(i, count=cards) for i in places[board].items if cards)
        places[board] = dataclasses.replace(places[board], items=items)
    return build.model_copy(update={"places": places})


def test_all_eight_fans_carry_the_load(quarry: Case) -> None:
    """8 x 75 CFM x 18 K x 0.463007 = 5,000.5 W, 12 % more than 4,398.7 W."""
    limit = limits_of(quarry)["heat"]
    assert limit.figure.value == pytest.approx(LOAD)
    assert np.ravel(limit.bound)[0] == pytest.approx(8 * 75 * 18 * EACH, rel=1e-5)
    assert limit.margin[0] == pytest.approx(1 - LOAD / (8 * 75 * 18 * EACH), rel=1e-4)
    assert limit.legal


def test_seven_fans_do_not(quarry: Case) -> None:
    """7 x 75 CFM x 18 K x 0.463007 = 4,375.4 W: 23.3 W short."""
    limit = limits_of(quarry)["heat_failed"]
    assert np.ravel(limit.bound)[0] == pytest.approx(4375.4, abs=0.05)
    assert limit.room[0] == pytest.approx(7 * 75 * 18 * EACH - LOAD, abs=0.05)
    assert limit.room[0] < 0
    assert not limit.legal


def test_redundancy_is_said_with_load_voltage_and_altitude(quarry: Case) -> None:
    condition = limits_of(quarry)["heat_failed"].figure.condition
    assert condition == "one fan failed, peak 4,399 W DC, 230 V, 2,300 m"


def test_the_inlet_is_too_warm(quarry: Case) -> None:
    """30 °C with eight cards above 250 W less (2,300 - 900) / 300 K are 25.33 °C, not 27."""
    limit = limits_of(quarry)["inlet"]
    assert np.ravel(limit.bound)[0] == pytest.approx(30 - 1400 / 300)
    assert limit.room[0] == pytest.approx(30 - 1400 / 300 - 27)
    assert limit.margin[0] == pytest.approx(-1.6667 / 10, abs=1e-4)
    assert limit.legal


def test_how_high_the_build_would_hold(quarry: Case) -> None:
    """27 °C keep their limit up to 900 + (30 - 27) x 300 = 1,800 m. Seven fans need
    rho = 4,398.667 / (525 x 4.719474e-4 x 1,004.685 x 18) = 0.98165 kg/m3, and the standard
    atmosphere has that at (288.15 / 0.0065) x (1 - (0.98165 / 1.2250)^(1 / 4.25588)) = 2,248 m.
    All eight: 0.85894 kg/m3, 3,548 m. By both, with redundancy, 1,800 m."""
    assert value(quarry, "altitude_inlet") == pytest.approx(1800)
    assert value(quarry, "altitude_failed") == pytest.approx(2248, abs=1)
    assert value(quarry, "altitude_fans") == pytest.approx(3548, abs=1)
    assert value(quarry, "altitude_most") == pytest.approx(1800)


def test_with_how_many_cards_it_holds_there() -> None:
    """The inlet limit at 2,300 m is 30 - 4.67 = 25.33 °C with 7 or 8 cards, 33 - 4.67 = 28.33 °C
    with 5 or 6. Seven cards draw 4,048.7 W, which seven fans carry, but only six keep the inlet."""
    case = case_of("l4", *(with_cards(count) for count in range(9)))
    inlet, failed = room(case, "inlet") >= 0, room(case, "heat_failed") >= 0
    assert np.flatnonzero(failed).max() == 7
    assert np.flatnonzero(inlet & failed).max() == 6
    limit = np.ravel(limits_of(case)["inlet"].bound)
    assert limit[[5, 6]] == pytest.approx(33 - 1400 / 300)
    assert limit[:5] == pytest.approx([35 - 1400 / 300] * 5)


def test_without_its_drives_one_fan_may_fail() -> None:
    """The four drives draw 80 W, and 23.3 W are missing."""
    build = build_of("l4", "n3")
    drives = dataclasses.replace(build.places["E"], items=build.places["E"].items[:1])
    case = case_of("l4", build.model_copy(update={"places": {**build.places, "E": drives}}))
    assert room(case, "heat_failed")[0] == pytest.approx(7 * 75 * 18 * EACH - LOAD + 80, abs=0.05)


def test_speed_draw_and_temperatures(quarry: Case) -> None:
    """Flow needed: 4,398.667 / (18 x 0.463007) = 527.79 CFM of 600, 87.97 % of full speed, and
    of 525 with one failed, 100.53 %: more than there is. Fans draw 480 x 0.87965^3 = 326.7 W.
    At full speed the air warms by 18 x 527.79 / 600 = 15.83 K, to 42.83 °C; at the speed needed
    by the allowed 18 K, to 45 °C."""
    figures = figures_of(quarry)
    assert figures["flow_needed"].value == pytest.approx(LOAD / (18 * EACH), rel=1e-5)
    assert figures["speed"].value == pytest.approx(87.965, abs=1e-3)
    assert figures["speed_failed"].value == pytest.approx(100.531, abs=1e-3)
    assert figures["fan_power"].value == pytest.approx(480 * 0.87965**3, abs=0.05)
    assert figures["rise"].value == pytest.approx(15.834, abs=1e-3)
    assert figures["exhaust"].value == pytest.approx(42.834, abs=1e-3)
    assert figures["exhaust_most"].value == pytest.approx(45.0)


def test_air_of_the_inlet_temperature_is_thinner(quarry: Case) -> None:
    """The law takes standard air of 0.05 °C at that height. At 27 °C the density is
    273.20 / 300.15 of it, and all fans carry 5,000.5 x 0.91021 = 4,551.5 W."""
    assert value(quarry, "carried_warm") == pytest.approx(5000.47 * 273.20 / 300.15, abs=0.1)


def test_the_curves_give_more_than_the_count_of_fans(quarry: Case) -> None:
    """Eight fans meet the air path at 600 CFM, where the book states both. Seven meet it between
    75 CFM (220 Pa) and 90 CFM (100 Pa) each: 220 - 8 (q - 75) = (220 / 600^2) (7 q)^2, or
    0.029944 q^2 + 8 q - 820 = 0, q = 79.088 CFM each, 553.6 CFM together, not 525."""
    figures = figures_of(quarry)
    assert figures["operating_flow"].value == pytest.approx(600.0)
    each = (-8 + np.sqrt(64 + 4 * 0.0299444 * 820)) / (2 * 0.0299444)
    assert figures["operating_failed"].value == pytest.approx(7 * each, abs=0.05)
    assert figures["operating_failed"].value == pytest.approx(553.6, abs=0.05)
    assert figures["operating_pressure"].value == pytest.approx(220 * 0.97648 / 1.2, abs=0.05)


def test_noise_at_the_speed_needed(quarry: Case) -> None:
    """74 + 50 log10 0.87965 = 71.2 dB(A)."""
    assert value(quarry, "noise_full") == 74
    assert value(quarry, "noise_needed") == pytest.approx(71.2155, abs=1e-3)


def test_no_altitude_of_use_is_stated(quarry: Case) -> None:
    limit = limits_of(quarry)["altitude"]
    assert np.isnan(limit.room).all()
    assert limit.figure.missing == ("air.derating.up_to",)

"""Efficiency grades and Regulation (EU) 2019/424 against their tables.

R: read in a stored copy of the table or of the regulation. The values are exact: they are limits.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from baywright.sizing.energy.grades import GRADES, grade_reached
from baywright.sizing.energy.regulation import (
    BLADE_OR_NODE,
    EFFICIENCY_TOLERANCE,
    IDLE_TOLERANCE,
    MULTI_OUTPUT,
    ONE_SOCKET,
    POWER_FACTOR,
    SINGLE_OUTPUT,
    TWO_SOCKETS,
    Additions,
    Kind,
    active_efficiency,
    idle_limit,
    port_allowance,
)

NOTHING = Additions(performance=0, supplies=0, drives=0, memory=4, channels=8, ports=0)


@pytest.mark.parametrize(
    ("name", "row"),
    [
        ("Bronze", {0.2: 0.81, 0.5: 0.85, 1.0: 0.81}),
        ("Silver", {0.2: 0.85, 0.5: 0.89, 1.0: 0.85}),
        ("Gold", {0.2: 0.88, 0.5: 0.92, 1.0: 0.88}),
        ("Platinum", {0.2: 0.90, 0.5: 0.94, 1.0: 0.91}),
        ("Titanium", {0.1: 0.90, 0.2: 0.94, 0.5: 0.96, 1.0: 0.91}),
    ],
)
def test_rows_of_the_80_plus_table(name: str, row: dict[float, float]) -> None:
    """80 PLUS, 230 V internal redundant, R. A curve on the row reaches it, and a thousandth less
    at any point does not."""
    (grade,) = [grade for grade in GRADES if grade.name == name]
    assert dict(grade.least) == row
    assert grade_reached(row) == name
    for load, least in row.items():
        assert grade_reached({**row, load: least - 0.001}) != name


def test_a_curve_without_a_point_of_the_row_does_not_reach_it() -> None:
    """Titanium has a point at 10 %; a curve that does not state it can reach Platinum at most."""
    assert grade_reached({0.2: 0.99, 0.5: 0.99, 1.0: 0.99}) == "Platinum"
    assert grade_reached({0.5: 0.99}) is None


def test_efficiencies_and_power_factor_of_the_regulation() -> None:
    """Annex II 1.1.2, from 1 January 2023, R."""
    assert dict(SINGLE_OUTPUT) == {0.1: 0.90, 0.2: 0.94, 0.5: 0.96, 1.0: 0.91}
    assert dict(MULTI_OUTPUT) == {0.2: 0.90, 0.5: 0.94, 1.0: 0.91}
    assert POWER_FACTOR == 0.95


@pytest.mark.parametrize(
    ("kind", "base", "by_performance", "active"),
    [(ONE_SOCKET, 25, 10, 9.0), (TWO_SOCKETS, 38, 7, 9.5), (BLADE_OR_NODE, 40, 7, 8.0)],
)
def test_base_and_performance_of_the_idle_limit(
    kind: Kind, base: float, by_performance: float, active: float
) -> None:
    """Annex II, Tables 3, 4 and 5, R."""
    assert idle_limit(kind, NOTHING) == base
    assert idle_limit(kind, replace(NOTHING, performance=2)) == base + 2 * by_performance
    assert kind.least_active == active


@pytest.mark.parametrize(
    ("changed", "watts"),
    [
        ({"supplies": 1}, 10.0),
        ({"drives": 3}, 15.0),
        ({"memory": 104}, 18.0),
        ({"memory": 2}, 0.0),
        ({"channels": 12}, 16.0),
        ({"channels": 4}, 0.0),
        ({"ports": 26}, 26.0),
    ],
)
def test_what_is_added_to_the_idle_limit(changed: dict[str, float], watts: float) -> None:
    """Annex II, Table 4, R: 10 W for a redundant supply, 5 for a drive, 0.18 for a GB above 4, 4
    for a buffered channel above 8. Rounding of 0.18 only."""
    added = idle_limit(TWO_SOCKETS, replace(NOTHING, **changed)) - 38
    assert added == pytest.approx(watts, abs=1e-12)


@pytest.mark.parametrize(
    ("speed", "watts"),
    [(0.1, 0), (1, 2), (2.5, 4), (5, 4), (10, 15), (24, 15), (25, 20), (40, 20), (50, 26)],
)
def test_ports_of_the_idle_limit(speed: float, watts: float) -> None:
    """Annex II, Table 4, R: 0, 2, 4, 15, 20 and 26 W by speed; that a band begins with its lower
    speed is from memory."""
    assert port_allowance(speed) == watts


def test_active_efficiency() -> None:
    """Annex III 3, R: shares of 0.65, 0.30 and 0.05 of the logarithms. Rounding only."""
    found = active_efficiency(20.0, 10.0, 5.0)
    assert found == pytest.approx(20**0.65 * 10**0.30 * 5**0.05, rel=1e-12)
    assert math.isnan(float(active_efficiency(0.0, 10.0, 5.0)))


def test_tolerances_of_a_market_authority() -> None:
    """Annex IV, R: efficiency 2 %, idle power 10 %."""
    assert (EFFICIENCY_TOLERANCE, IDLE_TOLERANCE) == (0.02, 0.10)

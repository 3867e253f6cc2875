"""Lifting against numbers in print.

The manual is NIOSH publication 94-110, Waters, Putz-Anderson and Garg. Its tables were read in the
source of several public programs that agree with one another (L), and in a public specification
that quotes it page by page (R2).
"""

from __future__ import annotations

import pint
import pytest

from baywright.sizing.rack.lifting import (
    asymmetry_multiplier,
    coupling_multiplier,
    distance_multiplier,
    frequency_multiplier,
    horizontal_multiplier,
    lifting_index,
    vertical_multiplier,
    weight_limit,
)

INCH = 0.0254

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()

RATES = (0.2, 0.5, *range(1, 17))

TABLE_5 = {
    (1, "low"): "1 .97 .94 .91 .88 .84 .80 .75 .70 .60 .52 .45 .41 .37 0 0 0 0",
    (1, "high"): "1 .97 .94 .91 .88 .84 .80 .75 .70 .60 .52 .45 .41 .37 .34 .31 .28 0",
    (2, "low"): ".95 .92 .88 .84 .79 .72 .60 .50 .42 .35 .30 .26 0 0 0 0 0 0",
    (2, "high"): ".95 .92 .88 .84 .79 .72 .60 .50 .42 .35 .30 .26 .23 .21 0 0 0 0",
    (8, "low"): ".85 .81 .75 .65 .55 .45 .35 .27 .22 .18 0 0 0 0 0 0 0 0",
    (8, "high"): ".85 .81 .75 .65 .55 .45 .35 .27 .22 .18 .15 .13 0 0 0 0 0 0",
}


@pytest.mark.parametrize(("hours", "hands"), TABLE_5)
def test_how_often_one_lifts(hours: int, hands: str) -> None:
    """Table 5, p. 15: seen as L in four public programs, the same in all. Exact, being a table."""
    height = 0.5 if hands == "low" else 0.75
    ours = [frequency_multiplier(rate, hours, height) for rate in RATES]
    assert ours == [float(each) for each in TABLE_5[hours, hands].split()]


def test_between_two_rows_a_straight_line() -> None:
    """Example 7, pp. 56-57, takes 2.4 lifts a minute between the rows of 2 and 3: R2. Exact."""
    assert frequency_multiplier(2.4, 1, 0.8) == pytest.approx(0.91 - 0.4 * 0.03)


@pytest.mark.parametrize(
    ("how", "low", "high"), [("good", 1.0, 1.0), ("fair", 0.95, 1.0), ("poor", 0.9, 0.9)]
)
def test_how_well_the_hands_hold(how: str, low: float, high: float) -> None:
    """Table 7, p. 18: L and R2. Exact, being a table; it changes at 75 cm."""
    grips = [coupling_multiplier(how, height) for height in (0.74, 0.75)]  # type: ignore[arg-type]
    assert grips == [low, high]


@pytest.mark.parametrize(
    ("centimetres", "printed"),
    [(25, 1.0), (28, 0.89), (30, 0.83), (32, 0.78), (40, 0.63), (50, 0.5), (60, 0.42), (63, 0.4)],
)
def test_how_far_in_front(centimetres: int, printed: float) -> None:
    """Table 1, metric: from memory (M); the formula itself is R2. Two printed digits, so 0.005,
    and a little for the halves that the table rounds up."""
    assert horizontal_multiplier(centimetres / 100) == pytest.approx(printed, abs=0.0051)


def test_past_its_range_the_manual_lets_nothing_be_lifted() -> None:
    """Restrictions, pp. 8-12: beyond 63 cm, 175 cm, 175 cm and 135 degrees nothing: R2. Exact."""
    assert horizontal_multiplier(0.631) == vertical_multiplier(1.751) == 0.0
    assert distance_multiplier(1.751) == asymmetry_multiplier(135.1) == 0.0
    assert horizontal_multiplier(0.1) == distance_multiplier(0.1) == 1.0


@pytest.mark.parametrize(
    ("ours", "printed"),
    [
        (vertical_multiplier(22 * INCH), 0.94),
        (distance_multiplier(37 * INCH), 0.87),
        (coupling_multiplier("fair", 22 * INCH), 0.95),
    ],
)
def test_the_multipliers_of_package_inspection(ours: float, printed: float) -> None:
    """Example 4, figure 14, p. 46, in inches and pounds: R2. Two printed digits, and the constants
    in centimetres are not exact conversions of those in inches: 0.006."""
    assert ours == pytest.approx(printed, abs=0.006)


def test_the_limit_of_package_inspection() -> None:
    """Example 4: HM 1, V 22 in, D 37 in, fair grip, FM 0.88: 34.9 lb printed, 34.8 from unrounded
    multipliers: R2. FM 0.88 is the row of 3 lifts a minute for up to one hour.

    51 lb is 0.6 % more than 23 kg and 30 in 1.6 % more than 75 cm, so 1 %."""
    ours = weight_limit(0.25, 22 * INCH, 37 * INCH, rate=3.0, hours=1.0, coupling="fair")
    pounds = UNITS.Quantity(ours, "kg").m_as("lb")
    assert pounds == pytest.approx(34.8, rel=0.01)


def test_a_box_low_on_a_conveyor() -> None:
    """H 20 in, V 6 in, D 16 in, fair grip: multipliers 0.50, 0.82, 0.93, 0.95 and 18.4 lb, read in
    a stored page of answered questions (R). 2 %: as above, and 25 cm is 1.6 % less than 10 in."""
    assert horizontal_multiplier(20 * INCH) == pytest.approx(0.50, rel=0.02)
    assert vertical_multiplier(6 * INCH) == pytest.approx(0.82, abs=0.005)
    assert distance_multiplier(16 * INCH) == pytest.approx(0.93, abs=0.005)
    ours = weight_limit(20 * INCH, 6 * INCH, 16 * INCH, coupling="fair")
    assert UNITS.Quantity(ours, "kg").m_as("lb") == pytest.approx(18.4, rel=0.02)


def test_an_index() -> None:
    """3.086 lb of a limit of 37.89 lb is an index of 0.081: read in a public exercise (R). Three
    printed digits."""
    assert lifting_index(3.086, 37.89) == pytest.approx(0.081, abs=0.0005)


def test_the_most_that_anyone_is_recommended() -> None:
    """The load constant is 23 kg, NIOSH 94-110, p. 7: R2. Exact."""
    assert weight_limit(0.25, 0.75, 0.25) == 23.0

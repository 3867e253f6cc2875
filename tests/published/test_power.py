"""Power against numbers in print and against reference libraries.

How each was seen stands beside it: R read in a stored copy, R2 quoted elsewhere, L in a file of a
public package, C recomputed here, M from memory.
"""

from __future__ import annotations

import cmath
import math

import numpy as np
import pint
import pytest

from baywright.facts.parts import Supply
from baywright.files.books import find_book, read_book
from baywright.sizing.equation import Floats
from baywright.sizing.power.circuits import feed_current, hosts_on_feed, leakage, usable_current
from baywright.sizing.power.efficiency import Curve, efficiency
from baywright.sizing.power.hold_up import bridged
from baywright.sizing.power.intake import (
    apparent_power,
    current,
    heat,
    heat_by_hour,
    input_power,
    loss,
)
from baywright.sizing.power.phases import line_current, neutral_current, three_phase_power

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("output", "share", "taken", "lost"),
    [(500.0, 0.80, 625.0, 125.0), (500.0, 0.90, 555.5, 55.5), (425.0, 0.85, 500.0, 75.0)],
)
def test_input_and_loss_of_a_converter(
    output: float, share: float, taken: float, lost: float
) -> None:
    """Two examples of a maker's note on converters, one of a calculator of efficiency, R.

    The second is printed cut off to one decimal, 555.5 for 555.56, so 0.1 W is allowed.
    """
    assert input_power(output, share) == pytest.approx(taken, abs=0.1)
    assert loss(input_power(output, share), output) == pytest.approx(lost, abs=0.1)


@pytest.mark.parametrize(
    ("watts", "factor", "amps"), [(2000.0, 0.75, 22.22), (1000.0, 0.85, 9.8), (3000.0, 1.0, 25.0)]
)
def test_current_of_one_phase(watts: float, factor: float, amps: float) -> None:
    """A textbook on conversion of electrical power, one leg after the other at 120 V, R; printed
    to a tenth or a hundredth of an ampere."""
    found = current(apparent_power(watts, factor), 120.0)
    assert found == pytest.approx(amps, abs=0.006)


def test_heat_by_hour_is_that_of_the_reference_library() -> None:
    """pint 0.25, L: the same definitions, so only rounding is allowed. 3.412142 is ISO 80000-5."""
    expected = UNITS.Quantity(1232.677, "W").to("Btu_it / hour").magnitude
    assert heat_by_hour(heat(1232.677)) == pytest.approx(expected, rel=1e-12)
    assert heat_by_hour(1.0) == pytest.approx(3.412142, abs=5e-7)


@pytest.mark.parametrize(
    ("volts", "amps", "printed"),
    [(400.0, 32.0, 22_170.0), (208.0, 24.0, 8_646.0), (208.0, 24.25, 8_740.0)],
)
def test_three_phase_power(volts: float, amps: float, printed: float) -> None:
    """The first two recomputed, C; the third from a maker's note on loads between lines of a
    208 V system, R, printed to 10 VA."""
    assert three_phase_power(volts, amps) == pytest.approx(printed, abs=5.0)


@pytest.mark.parametrize(
    ("lines", "printed"),
    [((10.0, 15.0, 20.0), 8.66), ((10.0, 10.0, 5.0), 5.0), ((7.0, 7.0, 7.0), 0.0)],
)
def test_neutral_current(lines: tuple[float, float, float], printed: float) -> None:
    """Two calculators of neutral current, R, to a hundredth; equal currents cancel, C."""
    assert neutral_current(*lines) == pytest.approx(printed, abs=0.005)


def test_neutral_current_is_not_a_slip_in_print() -> None:
    """For 10, 8 and 6 A a forum of electricians printed 15.1 A (R): its product terms lost their
    signs. Phasors give 3.46 A, and no neutral carries more than the largest line here."""
    assert neutral_current(10.0, 8.0, 6.0) == pytest.approx(3.4641, abs=5e-5)


@pytest.mark.parametrize("lines", [(10.0, 8.0, 6.0), (20.8, 41.5, 0.0), (3.0, 3.0, 9.0)])
def test_neutral_current_is_the_sum_of_phasors(lines: tuple[float, float, float]) -> None:
    """Complex numbers of the standard library as reference, C; only rounding is allowed."""
    turns = [cmath.rect(amps, math.radians(120 * k)) for k, amps in enumerate(lines)]
    assert neutral_current(*lines) == pytest.approx(abs(sum(turns)), abs=1e-12)


@pytest.mark.parametrize(
    ("one", "other", "printed"),
    [(105.0, 33.0, 124.8), (33.0, 33.0, 57.2), (10.0, 10.0, 17.32), (14.0, 14.0, 24.25)],
)
def test_current_of_a_line_of_a_delta(one: float, other: float, printed: float) -> None:
    """Three makers' notes on loads between lines, R, printed to a tenth or a hundredth."""
    assert line_current(one, other) == pytest.approx(printed, abs=0.05)


def test_linear_interpolation_between_two_efficiencies() -> None:
    """A published question: 78.6 at 2 and 71.5 at 3 give 77.7761928469799 at 2.116029176481704,
    R. Loads and values are scaled into our range by 10 and 100; all digits are asked for."""
    curve = Curve((0.2, 0.3), (0.786, 0.715))
    found = efficiency(0.2116029176481704, curve)
    assert found == pytest.approx(0.777761928469799, abs=1e-14)


def test_interpolation_is_that_of_the_reference_library() -> None:
    """NumPy's interp inside the points, L; outside it extends and we do not."""
    curve = Curve((0.1, 0.2, 0.5, 1.0), (0.87, 0.91, 0.945, 0.915))
    shares = np.linspace(0.1, 1.0, 97)
    expected = np.interp(shares, curve.loads, curve.values)
    assert np.allclose(efficiency(shares, curve), expected, rtol=0, atol=1e-15)
    assert np.isnan(efficiency(np.array([0.05, 1.01]), curve)).all()


@pytest.mark.parametrize(("rating", "usable"), [(20.0, 16.0), (30.0, 24.0), (60.0, 48.0)])
def test_continuous_load_of_a_breaker(rating: float, usable: float) -> None:
    """NEC 210.20(A), R2: a breaker is at least 125 % of the continuous load, so 80 % of it may
    be drawn. IEC 60364-4-43 has no such rule: there the share is 1."""
    assert usable_current(rating, 1 / 1.25) == pytest.approx(usable, rel=1e-12)
    assert usable_current(rating, 1.0) == rating


def test_after_a_loss_the_other_feed_carries_all() -> None:
    """A published planner of two feeds, R: surviving amperes are all watts over volts times power
    factor; a host with half of them on each of two feeds doubles what the other carries."""
    watts, volts, factor = 1400.0, 230.0, 0.95
    everything = current(apparent_power(watts, factor), volts)
    half: Floats = np.divide(everything, 2)
    assert feed_current(everything, 1.0) == pytest.approx(2 * feed_current(half, 1.0))
    assert hosts_on_feed(25.6, half) == 7
    assert hosts_on_feed(25.6, everything) == 3


def test_earth_leakage_of_portable_computers_on_one_device() -> None:
    """A newsgroup of electricians, R: ten appliances of 0.75 mA are 7.5 mA, a quarter of 30 mA.
    A forum of engineers quotes BS 7671, 531.3.2: at most 30 %, which is 9 mA or 12 of them."""
    assert leakage(0.75, 10.0) == pytest.approx(7.5)
    assert hosts_on_feed(0.3 * 30.0, 0.75) == 12


def test_time_without_input_of_a_capacitor() -> None:
    """A published example, R: 400 V down to 300 V at 200 W for 20 ms takes 114 uF, printed to
    three digits. Our hold-up is the same energy over the load."""
    energy = 0.5 * 114e-6 * (400.0**2 - 300.0**2)
    assert bridged(energy, 200.0) == pytest.approx(0.020, rel=5e-3)


@pytest.mark.parametrize("book", ["f2", "f1", "l4", "p1"])
def test_inlets_of_the_books_carry_what_the_standard_says(book: str) -> None:
    """C14 10 A and C20 16 A: IEC 60320 as the Circuit and Outlet schemas of Redfish give it, L."""
    rated = {"C14": 10, "C20": 16}
    parts = read_book(find_book(book)).parts.values()
    inlets = [part for part in parts if isinstance(part, Supply) and part.inlet]
    assert inlets
    for supply in inlets:
        assert supply.inlet_current is not None
        assert supply.inlet_current.known.to("A") == rated[supply.inlet]

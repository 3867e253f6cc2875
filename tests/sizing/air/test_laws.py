"""What holds for any numbers and any builds."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from time import process_time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.facts.parts import Fan
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.sizing.air.atmosphere import HIGHEST, LOWEST, density
from baywright.sizing.air.curves import Curve, operating_point, side_by_side
from baywright.sizing.air.fans import flow_at, power_at, pressure_at, speed_for
from baywright.sizing.air.flow import flow_needed, heat_carried, highest_altitude, rise_of
from baywright.sizing.air.inlet import derated, highest_for_inlet
from baywright.sizing.air.intake import added_resistance, flow_left, grille_loss
from baywright.sizing.air.noise import at_distance, at_speed, of_equal_sources, summed
from baywright.sizing.air.sheet import sheet
from baywright.sizing.case import Case, Surroundings
from tests.sizing.air.figures import bundled, compiled, limits_of, room
from tests.sizing.cases import machine_of

ALTITUDES = st.floats(LOWEST, HIGHEST)
HEATS = st.floats(1.0, 50_000.0)
FLOWS = st.floats(1e-3, 2.0)
RISES = st.floats(1.0, 40.0)
LEVELS = st.floats(0.0, 120.0)
SHARES = st.floats(0.01, 1.0)
CLOSE = 1e-9


@st.composite
def curves(draw: st.DrawFn) -> Curve:
    """Draw a fan curve of two to six points."""
    count = draw(st.integers(1, 5))
    steps = st.lists(st.floats(0.5, 50.0), min_size=count, max_size=count)
    flows = np.concatenate([[0.0], np.cumsum(draw(steps))])
    pressures = np.concatenate([[0.0], np.cumsum(draw(steps))])[::-1]
    return Curve(tuple(flows.tolist()), tuple(pressures.tolist()))


def random_case(
    seed: int, size: int, machine: Machine | None = None, around: Surroundings | None = None
) -> Case:
    """Return random builds, legal or not."""
    machine = machine or machine_of("f2")
    numbers = np.random.default_rng(seed)
    codes = {
        name: numbers.integers(0, len(fitting.options), size)
        for name, fitting in machine.frame.fittings.items()
        if not fitting.derived
    }
    usual = Surroundings(volts=230.0, altitude=500.0, inlet=25.0)
    return Case(machine.frame, codes, around or usual)


@given(HEATS, RISES, ALTITUDES)
def test_the_flow_needed_carries_just_the_heat(heat: float, rise: float, altitude: float) -> None:
    flow = flow_needed(heat, rise, altitude)
    assert heat_carried(flow, rise, altitude) == pytest.approx(heat)
    assert rise_of(heat, flow, altitude) == pytest.approx(rise)


@given(HEATS, RISES, ALTITUDES, ALTITUDES)
def test_higher_never_cools_better(heat: float, rise: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert flow_needed(heat, rise, high) >= flow_needed(heat, rise, low) * (1 - CLOSE)


@given(HEATS, HEATS, RISES, ALTITUDES)
def test_more_heat_never_needs_less_air(
    one: float, other: float, rise: float, altitude: float
) -> None:
    less, more = sorted((one, other))
    assert flow_needed(less, rise, altitude) <= flow_needed(more, rise, altitude) * (1 + CLOSE)


@given(HEATS, FLOWS, RISES)
def test_at_its_highest_altitude_a_flow_just_suffices(
    heat: float, flow: float, rise: float
) -> None:
    height = float(highest_altitude(heat, flow, rise))
    if math.isnan(height):
        assert heat_carried(flow, rise, LOWEST) < heat * (1 + CLOSE)
    elif height == HIGHEST:
        assert heat_carried(flow, rise, HIGHEST) > heat * (1 - CLOSE)
    else:
        assert heat_carried(flow, rise, height) == pytest.approx(heat)


@given(st.floats(20.0, 60.0), st.floats(0.0, 60.0), st.floats(100.0, 500.0), ALTITUDES)
def test_an_inlet_keeps_its_limit_up_to_its_highest_altitude(
    limit: float, inlet: float, per: float, altitude: float
) -> None:
    height = float(highest_for_inlet(limit, 900.0, 1.0, per, inlet))
    holds = float(derated(limit, 900.0, 1.0, per, altitude)) - inlet
    if math.isnan(height):
        assert holds < 0
    elif altitude < height - 1e-6:
        assert holds >= -1e-6
    elif altitude > height + 1e-6:
        assert holds <= 1e-6


@given(SHARES, st.floats(1.0, 500.0), st.floats(1.0, 500.0), st.floats(1.0, 100.0))
def test_fan_laws_agree_with_each_other(
    speed: float, flow: float, pressure: float, power: float
) -> None:
    """The power in the air, flow times pressure, falls as the power of the fan does."""
    slow = flow_at(flow, speed) * pressure_at(pressure, speed)
    assert slow / (flow * pressure) == pytest.approx(power_at(power, speed) / power)
    assert speed_for(flow_at(flow, speed), flow) == pytest.approx(speed)


@given(curves(), st.integers(1, 12), st.floats(1e-6, 10.0))
def test_an_operating_point_lies_on_both_curves(curve: Curve, count: int, square: float) -> None:
    """Found again by halving, on the curve of one fan against the air path as one fan sees it."""
    point = operating_point(side_by_side([(curve, count)]), square)
    low, high = 0.0, curve.flows[-1]
    for _ in range(200):
        middle = (low + high) / 2
        given_there = float(np.interp(middle, curve.flows, curve.pressures))
        below = given_there > square * (count * middle) ** 2
        low, high = (middle, high) if below else (low, middle)
    assert point.flow == pytest.approx(count * low, rel=1e-6, abs=1e-9)
    assert point.pressure == pytest.approx(square * point.flow**2)


@given(curves(), curves(), st.integers(1, 6), st.integers(1, 6), st.floats(1e-6, 10.0))
def test_another_fan_never_moves_less(
    one: Curve, other: Curve, count: int, more: int, square: float
) -> None:
    """Nor does a failed fan take more than its share, where all fans are alike."""
    alone = operating_point(side_by_side([(one, count)]), square)
    mixed = operating_point(side_by_side([(one, count), (other, more)]), square)
    alike = operating_point(side_by_side([(one, count + 1)]), square)
    assert mixed.flow >= alone.flow * (1 - 1e-6)
    assert alike.flow * (1 - 1e-6) <= alone.flow * (count + 1) / count
    assert alike.flow >= alone.flow * (1 - 1e-6)


@given(curves(), st.floats(1e-6, 10.0), st.floats(1e-6, 10.0))
def test_more_resistance_never_lets_more_through(curve: Curve, one: float, other: float) -> None:
    less, more = sorted((one, other))
    assert operating_point(curve, more).flow <= operating_point(curve, less).flow * (1 + 1e-6)


@given(SHARES, st.floats(0.0, 0.99), st.floats(0.0, 0.99))
def test_more_in_front_of_the_intake_never_helps(share: float, one: float, other: float) -> None:
    less, more = sorted((one, other))
    assert grille_loss(share * (1 - more)) >= grille_loss(share * (1 - less)) - 1e-9
    assert added_resistance(0.05, share, more) >= added_resistance(0.05, share, less) - 1e-9
    assert flow_left(1.0, more) <= flow_left(1.0, less)


@given(st.lists(LEVELS, min_size=1, max_size=8), LEVELS)
def test_another_source_never_makes_it_quieter(levels: list[float], another: float) -> None:
    together = summed(*levels)
    assert max(levels) <= together + 1e-9
    assert together <= max(levels) + 10 * math.log10(len(levels)) + 1e-9
    assert summed(*levels, another) >= together - 1e-9
    assert summed(*reversed(levels)) == pytest.approx(together)


@given(LEVELS, st.integers(1, 50), st.floats(0.1, 100.0), st.floats(0.1, 100.0))
def test_sources_and_distances_can_be_undone(
    level: float, count: int, here: float, there: float
) -> None:
    assert of_equal_sources(level, count) == pytest.approx(summed(*[level] * count))
    assert at_distance(at_distance(level, here, there), there, here) == pytest.approx(level)


@given(LEVELS, SHARES, SHARES, LEVELS)
def test_a_slower_fan_is_never_louder(level: float, one: float, other: float, idle: float) -> None:
    slow, fast = sorted((one, other))
    assert at_speed(level, slow, idle) <= at_speed(level, fast, idle) + 1e-9
    assert at_speed(level, slow, idle) >= idle


LIMITED = ("heat", "heat_failed", "inlet", "altitude")


@settings(max_examples=10)
@given(st.integers(0, 10_000), st.sampled_from(["f2", "l4", "p1"]))
def test_many_builds_at_once_are_each_build_alone(seed: int, book: str) -> None:
    together = random_case(seed, 12, machine_of(book))
    whole = sheet(together)
    for index in range(0, 12, 5):
        codes = {name: code[index : index + 1] for name, code in together.codes.items()}
        alone = sheet(replace(together, codes=codes))
        for many, one in zip(whole.figures, alone.figures, strict=True):
            each = np.broadcast_to(many.values, 12)[index]
            assert each == pytest.approx(one.value, nan_ok=True), many.key


@settings(max_examples=15)
@given(st.integers(0, 10_000), st.floats(0.0, 1000.0), st.floats(0.0, 5000.0))
def test_more_load_or_height_never_makes_a_limit_wider(
    seed: int, extra: float, higher: float
) -> None:
    case = random_case(seed, 20)
    loaded = case.amid(replace(case.around, extra=extra))
    raised = case.amid(replace(case.around, altitude=500.0 + higher))
    for key in LIMITED:
        before = room(case, key)
        assert (room(loaded, key) <= before + CLOSE).all(), key
        assert (room(raised, key) <= before + CLOSE).all(), key


@settings(max_examples=15)
@given(st.integers(0, 10_000))
def test_one_fan_fewer_never_carries_more(seed: int) -> None:
    limits = limits_of(random_case(seed, 50))
    assert (np.asarray(limits["heat_failed"].bound) <= np.asarray(limits["heat"].bound)).all()


@cache
def with_two_kinds_of_fan() -> Machine:
    """Return a bundled book with another, weaker fan, so that sets of fans may be mixed."""
    book = bundled("f2")
    weak = bundled("p1").parts["fan"]
    assert isinstance(weak, Fan)
    weaker = book.parts["fan"].model_copy(update={"flow": weak.flow})
    return compiled(book.model_copy(update={"parts": {**book.parts, "weaker": weaker}}))


@pytest.mark.parametrize("book", ["f2", "l4", "p1", "f1", "mixed"])
def test_the_laws_of_the_book_say_the_same_at_sea_level(book: str) -> None:
    """The laws carry heat per CFM as an exact number rounded down by less than a billionth."""
    machine = with_two_kinds_of_fan() if book == "mixed" else machine_of(book)
    case = random_case(7, 200, machine, Surroundings())
    names = machine.names
    limits = limits_of(case)
    for key, word in (("heat", "air_carries"), ("heat_failed", "air_carries_redundant")):
        meaning = names[word].meaning
        assert isinstance(meaning, Linear)
        by_law = case.total(meaning)
        assert np.asarray(limits[key].bound) == pytest.approx(by_law, rel=1e-8)
    redundant = case.holds("air_redundant")
    assert ((room(case, "heat_failed") >= 0) == redundant).all()


def test_a_sweep_of_altitudes_is_each_altitude_alone() -> None:
    case = random_case(3, 1)
    heights = np.linspace(0.0, 4000.0, 9)
    swept = np.asarray(limits_of(case.amid(replace(case.around, altitude=heights)))["heat"].bound)
    for height, bound in zip(heights, swept, strict=True):
        alone = limits_of(case.amid(replace(case.around, altitude=float(height))))["heat"]
        assert np.ravel(alone.bound)[0] == pytest.approx(bound)
    assert swept / swept[0] == pytest.approx(np.asarray(density(heights)) / density(0.0))


def test_a_thousand_builds_take_less_than_a_quarter_of_a_second() -> None:
    """All eight subjects of sizing have two seconds; usually this takes 0.03 s."""
    case = random_case(1, 1000)
    start = process_time()
    sheet(case)
    assert process_time() - start < 0.25

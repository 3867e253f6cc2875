"""Limits, nearest first, and what breaks first: against limits whose crossings are known."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.sizing import limits
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats, Reals
from baywright.sizing.figure import Figure, Limit, Sheet
from baywright.sizing.limits import SWEEPS, Crossing, Sweep, first_to_break, nearest_first, sheets
from baywright.sizing.subject import Subject
from tests.sizing.cases import case_of

HOST = case_of("f2", "n2")
HOST_HERE = HOST.amid(replace(HOST.around, inlet=20.0))

Rule = Callable[[Floats], Floats]

sweeps = st.sampled_from(SWEEPS)
shares = st.floats(0.001, 0.999)


def start_of(sweep: Sweep) -> float:
    """Return where a sweep starts for the host of the clinics."""
    said = getattr(HOST_HERE.around, sweep.what)
    assert said is not None
    return float(said)


def along(sweep: Sweep, share: float) -> float:
    """Return the value at a share of a sweep."""
    return start_of(sweep) + share * (sweep.end - start_of(sweep))


def gone(sweep: Sweep, values: Floats) -> Floats:
    """Return the share of a sweep that values have gone."""
    return np.divide(np.subtract(values, start_of(sweep)), sweep.end - start_of(sweep))


def crossings(sweep: Sweep, **rules: Rule) -> list[Crossing]:
    """Return where limits of at most 0 are passed, each a rule of the share gone."""

    def sheet(case: Case) -> Sheet:
        at = gone(sweep, getattr(case.around, sweep.what))
        return Sheet(limits=tuple(limit(key, rule(at)) for key, rule in rules.items()))

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(limits, "SUBJECTS", (Subject("ours", "Ours", sheet),))
        return first_to_break(HOST_HERE, sweep)


def limit(key: str, values: Floats, bound: Floats = 0.0) -> Limit:
    """Return a limit that a number must not rise past."""
    return Limit(Figure(key, key, values, "W"), bound, "most", "It breaks.", scale=1.0)


def close(sweep: Sweep, found: float, wanted: float) -> bool:
    """Whether a crossing is found as well as four rounds can: to 1e-9 of the sweep."""
    return abs(found - wanted) <= 1e-9 * abs(sweep.end - start_of(sweep))


@given(sweeps, shares, st.sampled_from([0.3, 1.0, 3.0]))
def test_a_limit_is_passed_where_it_is_passed(sweep: Sweep, share: float, power: float) -> None:
    (found,) = crossings(sweep, ours=lambda x: np.power(x, power) - share**power)
    assert found.known
    assert close(sweep, found.at, along(sweep, share))
    assert gone(sweep, found.at) >= share - 1e-12


@given(sweeps, shares)
def test_a_jump_is_found_like_a_slope(sweep: Sweep, share: float) -> None:
    """A rating that falls at a voltage, say."""
    (found,) = crossings(sweep, ours=lambda x: np.where(np.greater(x, share), 1.0, -1.0))
    assert found.known
    assert close(sweep, found.at, along(sweep, share))


@given(sweeps, shares)
def test_where_it_is_no_longer_decided_it_says_so(sweep: Sweep, share: float) -> None:
    (found,) = crossings(sweep, ours=lambda x: np.where(np.greater(x, share), np.nan, -1.0))
    assert not found.known
    assert close(sweep, found.at, along(sweep, share))


def past(place: float) -> Rule:
    """Return the rule of a limit that is passed at a place."""
    return lambda x: np.subtract(x, place)


@given(sweeps, st.lists(shares, min_size=2, max_size=6, unique=True))
def test_the_first_to_break_comes_first(sweep: Sweep, places: list[float]) -> None:
    rules = {f"limit{number}": past(place) for number, place in enumerate(places)}
    found = [crossing.limit.figure.key for crossing in crossings(sweep, **rules)]
    order = sorted(range(len(places)), key=lambda number: places[number])
    gaps = np.diff(sorted(places))
    assert len(found) == len(places)
    assert found == [f"limit{number}" for number in order] or gaps.min() < 1e-8


@given(sweeps, st.floats(0.5, 20.0), st.floats(0.0, 6.0), st.floats(-0.9, 0.9))
def test_none_is_passed_earlier(sweep: Sweep, waves: float, phase: float, level: float) -> None:
    """A limit that comes and goes, in waves longer than a dozen steps of the sweep."""

    def rule(x: Floats) -> Floats:
        return np.sin(np.multiply(x, waves) * np.pi + phase) - level

    found = crossings(sweep, ours=rule)
    grid = np.linspace(0.0, 1.0, 20_001)
    past = np.asarray(rule(grid)) > 1e-3
    if found:
        past &= grid < float(gone(sweep, found[0].at)) - 1 / 256
    if rule(0.0) <= 0:
        assert not past.any()
    else:
        assert not found


def test_what_is_passed_or_open_from_the_start_is_left_out() -> None:
    for sweep in SWEEPS:
        found = crossings(
            sweep,
            passed=lambda x: np.add(x, 1.0),
            open=lambda x: np.multiply(x, np.nan),
            never=lambda x: np.subtract(x, 1.5),
        )
        assert found == []


def test_without_a_voltage_there_is_no_sweep_of_it() -> None:
    silent = HOST.amid(replace(HOST.around, volts=None))
    for sweep in SWEEPS:
        assert sweep.what != "volts" or first_to_break(silent, sweep) == []


@given(st.lists(st.one_of(st.floats(-5, 5), st.just(float("nan"))), max_size=8))
def test_the_nearest_comes_first_and_the_open_last(values: list[float]) -> None:
    ordered = nearest_first(limit(str(n), each) for n, each in enumerate(values))
    margins = [float(each.margin) for each in ordered]
    known = [margin for margin in margins if not math.isnan(margin)]
    assert known == sorted(known)
    assert margins[: len(known)] == known


def test_a_figure_on_its_bound_is_not_past_it() -> None:
    """0.1 + 0.2 is 4e-17 more than 0.3 in binary."""
    for side in ("most", "least"):
        on = replace(limit("on", 0.1 + 0.2, 0.3), side=side)
        assert float(on.room) == 0.0
    assert float(limit("past", 0.3 + 1e-9, 0.3).room) < 0


def found_in(book: str, name: str, sweep: str) -> dict[str, Crossing]:
    """Return the crossings of a build of the demo by the key of their figure."""
    case = case_of(book, name)
    (chosen,) = (each for each in SWEEPS if each.name == sweep)
    return {crossing.limit.figure.key: crossing for crossing in first_to_break(case, chosen)}


def test_more_load_on_a_host_of_the_clinics() -> None:
    """It draws 1327.667 W. One supply of 2,000 W carries 672.333 W more, both 2672.333 W more."""
    found = found_in("f2", "n2", "load rises")
    assert found["power.redundancy"].at == pytest.approx(672.3333333, rel=1e-6)
    assert found["power.carry"].at == pytest.approx(2672.3333333, rel=1e-6)


def test_more_load_on_the_host_of_the_record_office() -> None:
    """1,159 W on two supplies of 1,000 W at 120 V: not redundant from the start, 841 W to go."""
    found = found_in("f2", "n4", "load rises")
    assert "power.redundancy" not in found
    assert found["power.carry"].at == pytest.approx(841.0, rel=1e-6)


@pytest.mark.parametrize(("sweep", "volts"), [("voltage falls", 200.0), ("voltage rises", 240.0)])
def test_past_its_lines_the_supplies_are_not_decided(sweep: str, volts: float) -> None:
    crossing = found_in("f2", "n2", sweep)["power.carry"]
    assert crossing.at == pytest.approx(volts, rel=1e-6)
    assert not crossing.known


def test_higher_up_the_host_of_the_clinics() -> None:
    """It may be used up to 3,050 m."""
    assert found_in("f2", "n2", "altitude rises")["air.altitude"].at == pytest.approx(3050.0)


BUILDS = [("f2", "n2"), ("f2", "n4"), ("f1", "n5-wanted"), ("l4", "n3"), ("p1", "n1")]


@pytest.mark.parametrize(("book", "name"), BUILDS)
def test_every_crossing_of_the_demo_is_one(book: str, name: str) -> None:
    """A little before it the limit holds, at it the limit is passed or no longer decided."""
    case = case_of(book, name)
    for sweep in SWEEPS:
        found = first_to_break(case, sweep)
        if not found:
            continue
        start = float(getattr(case.around, sweep.what) or sweep.start or 0.0)
        step = 1e-8 * (sweep.end - start)
        before = rooms_at(case, sweep, [crossing.at - step for crossing in found])
        after = rooms_at(case, sweep, [crossing.at for crossing in found])
        for number, crossing in enumerate(found):
            key = crossing.limit.figure.key
            assert before[key][number] >= 0, (sweep.name, key)
            assert (after[key][number] < 0) == crossing.known, (sweep.name, key)


def rooms_at(case: Case, sweep: Sweep, values: list[float]) -> dict[str, Reals]:
    """Return what is left of each limit at some values of a sweep."""
    there = case.amid(case.around.changed(sweep.what, np.array(values)))
    found = [each for sheet in sheets(there).values() for each in sheet.limits]
    return {each.figure.key: np.broadcast_to(each.room, len(values)) for each in found}


@pytest.mark.parametrize(("book", "name"), BUILDS)
def test_limits_and_figures_have_names_of_their_own(book: str, name: str) -> None:
    found = sheets(case_of(book, name)).values()
    limited = Counter(each.figure.key for sheet in found for each in sheet.limits)
    figures = Counter(figure.key for sheet in found for figure in sheet.figures)
    for keys in (limited, figures):
        assert [key for key, count in keys.items() if count > 1] == []

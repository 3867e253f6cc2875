"""Laws that storage keeps whatever the numbers."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.sizing.storage.backup import cartridges
from baywright.sizing.storage.groups import groups_of
from baywright.sizing.storage.levels import Layout, layouts, usable_pooled, usable_surviving
from baywright.sizing.storage.links import drive_lane_rate, lane_rate, oversubscription, usb_rate
from baywright.sizing.storage.loss import (
    hourly_rate,
    odds_of_unreadable,
    odds_within,
    rebuild_time,
    time_to_loss,
    time_to_loss_of_groups,
)
from baywright.sizing.storage.ranking import ranked, rated
from baywright.sizing.storage.traffic import (
    SATURATED,
    drive_time,
    mixed_io,
    odds_of_waiting,
    response_one_queue,
    response_shared_queue,
)
from baywright.sizing.storage.wear import pack_energy, pack_life, years_of_writing
from tests.sizing.cases import case_of

DRIVES = st.integers(1, 48)
RATES = st.floats(1e-8, 1e-3)
REPAIRS = st.floats(1e-3, 10.0)
SHARES = st.floats(0.0, 1.0)


@given(DRIVES, st.integers(0, 2), st.integers(0, 2))
def test_a_layout_uses_every_drive_and_survives_what_it_has_to(
    drives: int, spares: int, survives: int
) -> None:
    for layout in layouts(drives, spares, survives):
        assert layout.drives + layout.spares == drives
        assert layout.level.survives >= survives
        assert layout.size >= layout.level.least
        assert 0 < layout.data_drives <= layout.drives


@given(DRIVES, st.integers(0, 3))
def test_the_most_usable_layout_is_that_of_the_formula(drives: int, survives: int) -> None:
    most = max((each.data_drives for each in layouts(drives, 0, survives)), default=0)
    assert usable_surviving(drives, survives, 1.0) == most


@given(DRIVES, st.integers(0, 2))
def test_one_failure_more_never_leaves_more_space(drives: int, survives: int) -> None:
    less = usable_surviving(drives, survives + 1, 1.0)
    assert less <= usable_surviving(drives, survives, 1.0)


@given(st.integers(2, 8), st.integers(2, 4), st.floats(0.1, 1.0))
def test_a_copy_more_never_leaves_more_space(machines: int, copies: int, fill: float) -> None:
    fewer = usable_pooled(1e12, machines, 0, copies - 1, fill)
    more = usable_pooled(1e12, machines, 0, copies, fill)
    assert np.isnan(more) if copies > machines else more < fewer


@given(st.integers(3, 40), st.integers(1, 2), RATES, REPAIRS, SHARES)
def test_repair_in_parallel_and_whole_sectors_never_hurt(
    drives: int, survives: int, failure: float, repair: float, spoilt: float
) -> None:
    plain = time_to_loss(drives, survives, failure, repair)
    assert time_to_loss(drives, survives, failure, repair, parallel=True) >= plain * (1 - 1e-12)
    assert time_to_loss(drives, survives, failure, repair, unreadable=spoilt) <= plain * (1 + 1e-12)
    assert time_to_loss(drives, survives, failure, 2 * repair) >= plain
    assert time_to_loss(drives + 1, survives, failure, repair) < plain


@given(st.integers(4, 24), RATES, REPAIRS)
def test_a_check_more_never_makes_loss_likelier(drives: int, failure: float, repair: float) -> None:
    times = [float(time_to_loss(drives, survives, failure, repair)) for survives in range(3)]
    assert times == sorted(times)


@pytest.mark.parametrize("parallel", [False, True])
@given(
    drives=st.integers(2, 10),
    survives=st.integers(0, 2),
    failure=RATES,
    repair=REPAIRS,
    spoilt=SHARES,
)
def test_one_group_is_the_chain_of_one_group(
    drives: int, survives: int, failure: float, repair: float, spoilt: float, *, parallel: bool
) -> None:
    if drives <= survives:
        return
    if survives == 0:
        spoilt = 0.0
    one = time_to_loss(drives, survives, failure, repair, parallel=parallel, unreadable=spoilt)
    several = time_to_loss_of_groups(
        1, drives, survives, failure, repair, parallel=parallel, unreadable=spoilt
    )
    assert several == pytest.approx(float(one), rel=1e-9)


@given(st.integers(1, 6), st.integers(2, 8), RATES, st.floats(1.0, 10.0))
def test_groups_repaired_in_parallel_are_as_many_times_as_likely_to_lose(
    groups: int, drives: int, failure: float, repair: float
) -> None:
    """Independent groups, each close to exponential: the mean shrinks by their number."""
    failure = min(failure, 1e-5)
    one = time_to_loss_of_groups(1, drives, 1, failure, repair, parallel=True)
    every = time_to_loss_of_groups(groups, drives, 1, failure, repair, parallel=True)
    assert every == pytest.approx(one / groups, rel=1e-2)


def exact_pairs(groups: int, failure: Fraction, repair: Fraction) -> Fraction:
    """Mirrored pairs, one repair at a time, solved in fractions by Gauss on the plain system."""
    size = groups + 1
    rows = [[Fraction(0)] * (size + 1) for _ in range(size)]
    for degraded, row in enumerate(rows):
        up, lost = 2 * (groups - degraded) * failure, degraded * failure
        down = repair if degraded else Fraction(0)
        row[degraded] += up + lost + down
        if degraded < groups:
            row[degraded + 1] -= up
        if degraded:
            row[degraded - 1] -= down
        row[-1] = Fraction(1)
    for pivot in range(size):
        for other in range(size):
            if other != pivot:
                share = rows[other][pivot] / rows[pivot][pivot]
                rows[other] = [a - share * b for a, b in zip(rows[other], rows[pivot], strict=True)]
    return rows[0][-1] / rows[0][0]


@pytest.mark.parametrize("groups", [1, 2, 5, 12])
def test_the_elimination_is_exact_to_rounding(groups: int) -> None:
    failure, repair = Fraction(1, 10**7), Fraction(1, 24)
    exact = float(exact_pairs(groups, failure, repair))
    found = time_to_loss_of_groups(groups, 2, 1, float(failure), float(repair))
    assert found == pytest.approx(exact, rel=1e-13)


def test_the_odds_of_a_year_are_those_of_the_whole_chain() -> None:
    """The chain of R5 over 8 drives, run for a year by squaring exp(Q t / 2^20) twenty times."""
    fails, repairs = 1e-5, 1 / 24
    rates = np.array(
        [
            [-8 * fails, 8 * fails, 0],
            [repairs, -repairs - 7 * fails, 7 * fails],
            [0, 0, 0],
        ]
    )
    step = rates * 8766 / 2**20
    moved = np.eye(3) + step + step @ step / 2
    for _ in range(20):
        moved = moved @ moved
    mean = time_to_loss(8, 1, fails, repairs)
    assert odds_within(8766, mean) == pytest.approx(moved[0, 2], rel=5e-3)


def test_groups_that_cannot_be() -> None:
    with pytest.raises(ValueError, match="more drives"):
        time_to_loss_of_groups(1, 2, 2, 1e-6, 1.0)
    assert np.isnan(time_to_loss(2, 2, 1e-6, 1.0))


@given(st.floats(0, 1e15), st.floats(0, 1e15), st.floats(1e-18, 1e-13))
def test_reading_more_never_meets_fewer_bad_sectors(a: float, b: float, rate: float) -> None:
    low, high = sorted((a, b))
    assert odds_of_unreadable(low, rate) <= odds_of_unreadable(high, rate) <= 1


@given(st.floats(0.0, 0.99))
def test_a_yearly_share_and_its_rate_go_back_and_forth(share: float) -> None:
    rate = hourly_rate(share)
    back = odds_within(8766, 1 / rate) if rate else 0.0
    assert back == pytest.approx(share, abs=1e-12)


@given(st.floats(0, 0.99), st.floats(0, 0.99))
def test_more_load_never_rebuilds_sooner(a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert rebuild_time(1e12, 1e8, low) <= rebuild_time(1e12, 1e8, high)
    assert np.isnan(rebuild_time(1e12, 1e8, 1.0))


@given(SHARES, st.floats(1, 1e6), st.floats(1, 1e6))
def test_checks_never_make_writing_cheaper(share: float, reads: float, writes: float) -> None:
    plain, single, double = (drive_time(share, reads, writes, k, 1 + k) for k in range(3))
    assert plain <= single <= double
    assert mixed_io(8, plain, 100.0) <= 100


@given(st.integers(1, 40), st.floats(0, SATURATED))
def test_a_shared_queue_is_never_slower(servers: int, busy: float) -> None:
    alone, shared = response_one_queue(1.0, busy), response_shared_queue(1.0, busy, servers)
    assert shared <= alone * (1 + 1e-12)
    assert response_shared_queue(1.0, busy, 1) == pytest.approx(float(alone))
    assert 0 <= odds_of_waiting(servers, busy) <= 1


@given(st.floats(SATURATED, 5.0, exclude_min=True), st.integers(1, 40))
def test_near_saturation_no_time_is_given(busy: float, servers: int) -> None:
    assert np.isnan(response_one_queue(0.005, busy))
    assert np.isnan(response_shared_queue(0.005, busy, servers))


@given(st.integers(0, 60), st.floats(1e9, 1e13), st.floats(1e9, 1e13))
def test_cartridges_hold_what_is_kept(backups: int, size: float, capacity: float) -> None:
    needed = cartridges(backups, size, capacity)
    assert needed * capacity >= backups * size * (1 - 1e-12)
    assert cartridges(backups + 1, size, capacity) >= needed


def test_cartridges_without_a_size() -> None:
    with pytest.raises(ValueError, match="above zero"):
        cartridges(3, 0.0, 2e12)


@given(st.floats(-20, 90), st.floats(-20, 90))
def test_a_warmer_pack_never_lives_longer(a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert pack_life(5, 45, high, 10, 25) <= pack_life(5, 45, low, 10, 25) <= 20


def test_a_pack_emptier_than_empty_is_not_decided() -> None:
    assert np.isnan(pack_energy(18, 4.0, 5.0))


@given(st.floats(1e9, 1e14), st.floats(1.0, 5.0))
def test_more_writes_never_last_longer(written: float, grown: float) -> None:
    assert years_of_writing(1e15, written, grown) <= years_of_writing(1e15, written)


@given(st.floats(0, 1e12), st.floats(1, 1e12))
def test_oversubscription(behind: float, link: float) -> None:
    assert (oversubscription(behind, link) > 1) == (behind / link > 1)
    assert oversubscription(0.0, float("nan")) == 0
    assert np.isnan(oversubscription(1.0, 0.0))


def test_a_rate_without_a_code_is_not_decided() -> None:
    assert np.isnan(
        [drive_lane_rate(10e9), usb_rate(7e9), lane_rate(7), lane_rate(float("nan"))]
    ).all()
    with pytest.raises(ValueError, match="lanes"):
        lane_rate(4, -1)


def test_layouts_are_ranked_by_space_then_odds() -> None:
    case = case_of("f2", "n4")
    group = next(each for each in groups_of(case) if each.slot == "R1b")
    found = ranked(case, group, 2)
    assert [each.usable for each in found] == sorted((e.usable for e in found), reverse=True)
    assert found[0].layout == Layout(found[0].layout.level, 1, 16)
    assert rated(case, group, found[0].layout) == found[0]

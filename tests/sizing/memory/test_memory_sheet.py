"""Memory of the demo builds, worked out by hand, and what is not decided."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.laws.linear import Linear
from baywright.laws.memory import SUBSYSTEM
from baywright.laws.subsystem import Lowest
from baywright.sizing.case import Case
from baywright.sizing.memory.kept_back import guest_memory, guests
from baywright.sizing.memory.listings import listings
from baywright.sizing.memory.sheet import sheet
from tests.sizing.builds import (
    EVERY,
    OTHERS,
    SETTLED,
    alone,
    case_by_others,
    changed,
    figures_in,
    limits_in,
    random_case,
)
from tests.sizing.cases import case_of


def values(case: Case) -> dict[str, float]:
    return {
        key.removeprefix("memory."): figure.value for key, figure in figures_in(sheet(case)).items()
    }


def read(book: str, build: str) -> Case:
    return case_by_others(book, build) if book in SETTLED else case_of(book, build)


def test_the_record_office_fills_every_channel_once() -> None:
    """N4: 2 x 8 modules of 64 GB are 1,024 GB at 5,600 MT/s. A channel gives 5600e6 x 8 = 44.8
    GB/s, the 16 channels 716.8 GB/s; 64 cores have 16 GB each. Two ranks a module: one spare
    leaves half."""
    found = values(case_of("f2", "n4"))
    assert found["capacity"] == 1024
    assert found["speed"] == 5600
    assert found["channel"] == pytest.approx(44.8)
    assert found["bandwidth"] == found["even"] == pytest.approx(716.8)
    assert found["bandwidth.P1"] == found["even.P2"] == pytest.approx(358.4)
    assert (found["core"], found["free"], found["regions"]) == (16, 16, 1)
    assert found["evenness"] == pytest.approx(100)
    assert (found["mirrored"], found["rank_spared"]) == (512, 512)
    assert np.isnan(found["module_spared"])
    assert found["width"] == 80


def test_a_host_of_the_clinics_carries_its_guests() -> None:
    """N2: 2 x 16 modules of 64 GB are 2,048 GB; doubled channels run at 4,800 MT/s, 38.4 GB/s
    each and 614.4 GB/s in all. 32 GB stay back, and a guest of 12 GB costs 8 % more: 2,016 / 1.08
    is 1,866.67 GB for guests, 155 of them. Three hosts carry 465 and so the 420 asked for; two
    carry 310 and do not."""
    found = values(case_of("f2", "n2"))
    assert (found["capacity"], found["speed"], found["speed_spread"]) == (2048, 4800, 5600)
    assert found["bandwidth"] == pytest.approx(614.4)
    left = guest_memory(found["capacity"], 32, 0.08)
    assert left == pytest.approx(1866.67, abs=0.005)
    assert guests(left, 12) == 155
    assert 2 * 155 < 420 <= 3 * 155


def test_the_college_doubles_its_memory_with_its_second_processor() -> None:
    """N5: 6 modules of 16 GB at 3,200 MT/s, 25.6 GB/s each; then twice that."""
    owned, wanted = values(case_of("f1", "n5-owned")), values(case_of("f1", "n5-wanted"))
    assert (owned["capacity"], wanted["capacity"]) == (96, 192)
    assert owned["bandwidth"] == pytest.approx(6 * 25.6)
    assert wanted["bandwidth"] == pytest.approx(12 * 25.6)
    assert (owned["bandwidth.P2"], owned["free"], wanted["free"]) == (0, 6, 12)
    assert owned["width"] == 72


def test_twelve_modules_on_eight_channels_make_two_regions() -> None:
    """Four channels hold 64 GB and four 32 GB: 256 GB over eight channels, 128 GB over four. At
    4,800 MT/s a channel gives 38.4 GB/s, eight of them 307.2. All 384 GB take as long as the 64
    GB of one full channel: 38.4 x 384 / 64 = 230.4 GB/s, three quarters of what eight channels
    filled alike would give. Channels pair up, so that a mirror leaves 192 GB."""
    case = changed(case_of("f2", "n4"), M1="12 x dimm-32", M2="12 x dimm-32")
    found = values(case)
    assert (found["capacity"], found["speed"], found["regions"]) == (768, 4800, 2)
    assert found["bandwidth.P1"] == pytest.approx(307.2)
    assert found["even.P1"] == pytest.approx(230.4)
    assert found["evenness"] == pytest.approx(75)
    assert found["mirrored"] == 384
    table = {listing.key: listing for listing in listings(case)}["memory.regions"]
    assert table.rows[:2] == (
        ("processor 1", "8", "256", "307.2"),
        ("processor 1", "4", "128", "153.6"),
    )


def test_one_module_cannot_be_mirrored() -> None:
    case = changed(case_of("f2", "n4"), P2="empty", M1="1 x dimm-32", M2="empty")
    figure = figures_in(sheet(case))["memory.mirrored"]
    assert np.isnan(figure.value)
    assert "paired" in figure.outside
    assert values(case)["evenness"] == pytest.approx(100 / 8)


def test_the_largest_modules_slow_down_most() -> None:
    """128 GB modules: 4,400 MT/s when doubled, 35.2 GB/s a channel; four ranks each and eight on
    a channel, as many as it carries."""
    case = changed(case_of("f2", "n4"), M1="16 x dimm-128", M2="16 x dimm-128")
    found = values(case)
    assert (found["capacity"], found["speed"]) == (4096, 4400)
    assert found["bandwidth"] == pytest.approx(16 * 35.2)
    ranks = limits_in(sheet(case))["memory.ranks"]
    assert (ranks.figure.value, ranks.room.tolist()) == (8, [0])
    assert ranks.facts[0].path == "memory.ranks_per_channel"


def test_the_accelerator_box_and_the_branch_box() -> None:
    """N3: 2 x 12 modules of 64 GB, 24 channels of 44.8 GB/s. N1: two modules of 32 GB on six
    channels of 38.4 GB/s reach a third of what all would."""
    box, branch = values(case_of("l4", "n3")), values(case_of("p1", "n1"))
    assert (box["capacity"], box["free"]) == (1536, 0)
    assert box["bandwidth"] == pytest.approx(24 * 44.8)
    assert branch["bandwidth"] == pytest.approx(2 * 38.4)
    assert branch["evenness"] == pytest.approx(100 / 3)


@pytest.mark.parametrize(("book", "build"), EVERY)
def test_what_is_not_decided_says_why(book: str, build: str) -> None:
    case = read(book, build)
    found = sheet(case)
    for figure in (*found.figures, *(limit.figure for limit in found.limits)):
        undecided = bool(np.isnan(figure.values).any())
        assert undecided == bool(figure.missing) or (undecided and figure.outside), figure.key
        assert figure.key.startswith("memory.")
    for listing in listings(case):
        assert all(len(row) == len(listing.header) for row in listing.rows)


def test_a_book_without_memory_speeds_and_ranks_names_them() -> None:
    """The sensor box of another maker has one channel, one module and no section on memory."""
    assert OTHERS.is_dir()
    found = figures_in(sheet(case_by_others("r0", "pump")))
    assert found["memory.capacity"].value == 16
    assert found["memory.bandwidth"].missing == ("memory.speeds",)
    assert found["memory.rank_spared"].missing == ("parts.dimm-16.ranks",)
    assert found["memory.width"].missing == ("parts.dimm-16.check_bits",)


def test_banks_of_one_processor_are_taken_together() -> None:
    """The four-socket host has two banks of six channels a processor; its build fills the twelve
    channels of one processor at 6,000 MT/s, 12 x 48 GB/s, a quarter of the machine's."""
    found = values(case_by_others("t4", "big"))
    assert found["bandwidth.P1"] == pytest.approx(12 * 48)
    assert found["evenness"] == pytest.approx(25)


@pytest.mark.parametrize("book", ["f2", "f1", "l4", "p1"])
@settings(max_examples=15)
@given(seed=st.integers(0, 10_000))
def test_many_builds_at_once_are_the_builds_one_by_one(book: str, seed: int) -> None:
    many = random_case(book, 4, seed)
    together = figures_in(sheet(many))
    for build in range(many.size):
        for key, figure in figures_in(sheet(alone(many, build))).items():
            one, row = np.ravel(figure.values)[0], np.broadcast_to(together[key].values, 4)
            assert np.array_equal(one, row[build], equal_nan=True), key


@given(seed=st.integers(0, 10_000))
def test_speed_and_capacity_are_those_of_the_laws(seed: int) -> None:
    """Random builds of the general host, the speed looked up as the laws of memory do."""
    case = random_case("f2", 8, seed)
    names = SUBSYSTEM.names(case.frame)
    lowest = names["memory_speed"].meaning
    assert isinstance(lowest, Lowest)
    found = figures_in(sheet(case))
    rows = zip(*(case.options(name) for name in lowest.scope), strict=True)
    expected = [np.nan if (n := lowest.number(*row)) is None else float(n) for row in rows]
    assert np.array_equal(found["memory.speed"].values, expected, equal_nan=True)
    memory = names["memory"].meaning
    assert isinstance(memory, Linear)
    assert np.array_equal(found["memory.capacity"].values, case.total(memory))

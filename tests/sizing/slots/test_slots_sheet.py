"""Slots of the demo builds, worked out by hand, and what is not decided."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.facts.parts import Cage, Card
from baywright.facts.places import Slot
from baywright.sizing.case import Case
from baywright.sizing.figure import Listing
from baywright.sizing.slots.listings import listings
from baywright.sizing.slots.sheet import sheet
from tests.sizing.builds import (
    EVERY,
    SETTLED,
    alone,
    case_by_others,
    changed,
    figures_in,
    limits_in,
    random_case,
)
from tests.sizing.cases import case_of

LANE = 32e9 * 128 / 130 / 8 / 1e9
"""GB/s of one lane of generation 5; of generation 4 it is half."""


def values(case: Case) -> dict[str, float]:
    return {
        key.removeprefix("slots."): figure.value for key, figure in figures_in(sheet(case)).items()
    }


def tables(case: Case) -> dict[str, Listing]:
    return {listing.key: listing for listing in listings(case)}


def read(book: str, build: str) -> Case:
    return case_by_others(book, build) if book in SETTLED else case_of(book, build)


def test_the_record_office_has_two_controllers_and_one_network_module() -> None:
    """N4: each controller has 8 lanes of generation 4 in a slot of 16 of generation 5 and moves
    8 x 1.969 = 15.75 GB/s; the network module 16 x 1.969 = 31.51. Processor 1 gives 16 + 8 lanes
    of 80, processor 2 the 8 of the other controller. R1a, R3a and O2 are free, with one width
    each, since the slots below R1a and R3a are taken."""
    case = case_of("f2", "n4")
    found = values(case)
    assert found["bandwidth"] == pytest.approx(LANE / 2 * (8 + 8 + 16))
    assert found["bandwidth.P1"] == pytest.approx(LANE / 2 * 24)
    assert (found["lanes_free.P1"], found["lanes_free.P2"]) == (56, 72)
    assert (found["cards"], found["free"], found["free_lanes"], found["free_width"]) == (
        3,
        3,
        16,
        1,
    )
    assert [row[0] for row in tables(case)["slots.free"].rows] == [
        "slot R1a",
        "slot R3a",
        "network module O2",
    ]


def test_limits_of_the_record_office() -> None:
    """A controller draws 16 of 75 W from its slot; two ports of 25 Gb/s are 6.25 GB/s."""
    found = limits_in(sheet(case_of("f2", "n4")))
    assert found["slots.lanes.P1"].figure.value == 24
    assert found["slots.lanes.P1"].room.tolist() == [56]
    assert found["slots.power.R1b"].room.tolist() == [59]
    assert found["slots.power.R1a"].figure.value == 0
    network = found["slots.network.O1.net-25"]
    assert network.figure.value == 6.25
    assert np.ravel(network.bound)[0] == pytest.approx(16 * LANE / 2)
    assert not network.legal


def test_a_host_of_the_clinics_has_eight_fast_drives_beside_a_network_module() -> None:
    """N2: zone A holds eight bays of four lanes, 15.75 GB/s each; with O1 processor 1 gives 48
    lanes. Each processor has a network module, so that no drive sends across. All four slots are
    free, and R1a and R3a have two widths. O2 takes all that it shares with zone C."""
    case = case_of("f2", "n2")
    found = values(case)
    assert found["bay.A"] == pytest.approx(4 * LANE)
    assert (found["lanes_free.P1"], found["lanes_free.P2"]) == (32, 64)
    assert (found["free"], found["free_width"], found["far_drives"]) == (4, 2, 0)
    assert limits_in(sheet(case))["slots.link.module-2-or-zone-c"].room.tolist() == [0]


def test_drives_beyond_the_processor_with_the_network_send_across() -> None:
    """N2 without O2 and with eight drives in zone B: they are processor 2's, the network is
    processor 1's."""
    case = changed(case_of("f2", "n2"), O2="empty", B="N8", **{"B drives": "8 x fast-7680"})
    assert values(case)["far_drives"] == 8
    assert values(changed(case, O2="net-25"))["far_drives"] == 0
    sides = tables(case)["slots.sides"].rows
    assert [row[:5] for row in sides] == [
        ("processor 1", "1", "0", "0", "8"),
        ("processor 2", "0", "0", "0", "8"),
    ]


def test_half_width_bays_take_the_lanes_of_the_second_network_module() -> None:
    """Zone C with N8h: eight bays of two lanes, 7.88 GB/s each, use all 16 lanes that O2 could
    have; O2 is then no free slot."""
    case = changed(case_of("f2", "n2"), O2="empty", C="N8h")
    assert values(case)["bay.C"] == pytest.approx(2 * LANE)
    assert "network module O2" not in [row[0] for row in tables(case)["slots.free"].rows]
    assert values(case)["free"] == 4


def test_a_double_wide_card_takes_the_slot_below() -> None:
    """In R1a it leaves no room in R1b; it draws 75 W from the slot and the rest over a cable."""
    case = changed(case_of("f2", "n2"), R1a="accel-dw")
    found = values(case)
    assert (found["free"], found["free_width"]) == (2, 2)
    assert limits_in(sheet(case))["slots.power.R1a"].room.tolist() == [0]
    card = next(row for row in tables(case)["slots.cards"].rows if row[0] == "slot R1a")
    assert card[4:8] == ("x16 in x16", "5 in 5", "63.0", "both alike")


def test_eight_accelerators_share_two_uplinks() -> None:
    """N3: four cards of 16 lanes behind 32 lanes of a processor ask for twice what is there. Each
    moves 16 x 3.938 = 63.0 GB/s alone, and with the others 32 x 3.938 / 4 = 31.5. Processor 1
    gives 16 + 32 + 32 lanes, all it has."""
    case = case_of("l4", "n3")
    found, limits = values(case), limits_in(sheet(case))
    assert limits["slots.uplink.switch-1"].figure.value == 2
    assert limits["slots.uplink.switch-1"].margin.tolist() == [-1]
    assert not limits["slots.uplink.switch-1"].legal
    assert found["share.switch-1"] == pytest.approx(32 * LANE / 4)
    assert found["bandwidth"] == pytest.approx(8 * 16 * LANE + 2 * 16 * LANE / 2)
    assert (found["lanes_free.P1"], found["lanes_free.P2"], found["free"]) == (0, 32, 0)
    assert found["far_accelerators"] == 0


def test_two_accelerators_behind_an_uplink_do_not_wait() -> None:
    case = changed(case_of("l4", "n3"), X1="2 x accel-350")
    assert limits_in(sheet(case))["slots.uplink.switch-1"].figure.value == 1
    assert values(case)["share.switch-1"] == pytest.approx(16 * LANE)
    assert values(case)["free"] == 2


def test_the_college_and_the_branch_box() -> None:
    """N5 as wanted: a 75 W card fills the power of R1a; R2a stays free with its 16 lanes. N1: slot
    R1 stays free for a card of 25 W."""
    college = case_of("f1", "n5-wanted")
    assert limits_in(sheet(college))["slots.power.R1a"].room.tolist() == [0]
    assert [row[0] for row in tables(college)["slots.free"].rows] == ["slot R2a"]
    branch = tables(case_of("p1", "n1"))["slots.free"].rows
    assert [(row[0], row[7], row[8]) for row in branch] == [("slot R1", "25 W", "25 W slot card")]


def test_a_slot_without_its_processor_is_not_free() -> None:
    """The college owns one processor: R2a of the second is no free slot, and lanes of a processor
    that is not there limit nothing."""
    case = case_of("f1", "n5-owned")
    assert [row[0] for row in tables(case)["slots.free"].rows] == ["slot R1a"]
    assert "slots.lanes.P2" not in limits_in(sheet(case))


@pytest.mark.parametrize(("book", "build"), EVERY)
def test_what_is_not_decided_says_why(book: str, build: str) -> None:
    case = read(book, build)
    found = sheet(case)
    keys = [figure.key for figure in (*found.figures, *(limit.figure for limit in found.limits))]
    assert len(keys) == len(set(keys))
    assert all(key.startswith("slots.") for key in keys)
    for figure in found.figures:
        assert bool(np.isnan(figure.values).any()) == bool(figure.missing), figure.key
    for limit in found.limits:
        assert bool(np.isnan(limit.room).any()) == bool(limit.figure.missing), limit.figure.key
    for listing in listings(case):
        assert all(len(row) == len(listing.header) for row in listing.rows)


def test_a_book_without_generations_names_them() -> None:
    found = figures_in(sheet(case_by_others("t4", "big")))["slots.bandwidth.P2"]
    assert found.missing == ("parts.H16.generation", "places.R2b.generation")


def newer(case: Case, generation: str) -> Case:
    """Return the same builds where every slot, card and processor is of another generation."""
    book = case.book
    places = {
        name: place.model_copy(update={"generation": generation})
        if isinstance(place, Slot)
        else place
        for name, place in book.places.items()
    }
    parts = {
        name: part.model_copy(
            update={"generation" if isinstance(part, Card) else "lane_generation": generation}
        )
        for name, part in book.parts.items()
    }
    changed_book = book.model_copy(update={"places": places, "parts": parts})
    return Case(replace(case.frame, book=changed_book), case.codes, case.around)


def test_generation_6_is_told_by_both_conventions() -> None:
    """Four cards of 16 lanes and so on as in N3, 160 lanes in all: 8 GB/s a lane before flits,
    7.5625 after. The condition of each figure says which."""
    found = figures_in(sheet(newer(case_of("l4", "n3"), "PCIe 6.0")))
    assert found["slots.bandwidth"].value == pytest.approx(160 * 7.5625)
    assert found["slots.bandwidth_raw"].value == pytest.approx(160 * 8)
    assert "242" in found["slots.bandwidth"].condition
    assert "before flits" in found["slots.bandwidth_raw"].condition
    assert "slots.bandwidth_raw" not in figures_in(sheet(case_of("l4", "n3")))


@pytest.mark.parametrize("book", ["f2", "f1", "l4", "p1"])
@settings(max_examples=15)
@given(seed=st.integers(0, 10_000))
def test_many_builds_at_once_are_the_builds_one_by_one(book: str, seed: int) -> None:
    many = random_case(book, 4, seed)
    found = sheet(many)
    figures, limits = figures_in(found), limits_in(found)
    for build in range(many.size):
        one = sheet(alone(many, build))
        for key, figure in figures_in(one).items():
            row = np.broadcast_to(figures[key].values, 4)
            assert np.array_equal(np.ravel(figure.values)[0], row[build], equal_nan=True), key
        for key, limit in limits_in(one).items():
            row = np.broadcast_to(limits[key].room, 4)
            assert np.array_equal(limit.room[0], row[build], equal_nan=True), key


def lanes_counted(case: Case, build: int, places: list[str]) -> int:
    """Count lanes part by part, as one would over a parts list."""
    lanes = 0
    for choice, fitting in case.frame.fittings.items():
        if choice in case.codes and fitting.place in places:
            for name, count in fitting.options[case.codes[choice][build]].parts:
                part = case.book.parts[name]
                if isinstance(part, Card) and part.lanes:
                    lanes += count * part.lanes.known
                elif isinstance(part, Cage) and part.lanes_per_bay:
                    lanes += count * part.bays.known * part.lanes_per_bay.known
    return lanes


@settings(max_examples=20)
@given(seed=st.integers(0, 10_000))
def test_lanes_in_use_are_those_of_the_parts(seed: int) -> None:
    """Legal or not: processor 1 feeds riser 1, zone A and O1, processor 2 all else."""
    case = random_case("f2", 16, seed)
    limits = limits_in(sheet(case))
    for owner, places in (
        ("P1", ["O1", "R1a", "R1b", "A"]),
        ("P2", ["O2", "R3a", "R3b", "B", "C"]),
    ):
        used = [lanes_counted(case, build, places) for build in range(case.size)]
        assert np.array_equal(limits[f"slots.lanes.{owner}"].figure.values, used)


@settings(max_examples=20)
@given(seed=st.integers(0, 10_000))
def test_cards_of_both_processors_are_all_cards(seed: int) -> None:
    """Six slots, so that cards and free slots are never more."""
    found = {
        key: np.asarray(figure.values)
        for key, figure in figures_in(sheet(random_case("f2", 16, seed))).items()
    }
    both = found["slots.bandwidth.P1"] + found["slots.bandwidth.P2"]
    assert np.allclose(both, found["slots.bandwidth"])
    assert bool((found["slots.free"] + found["slots.cards"] <= 6).all())

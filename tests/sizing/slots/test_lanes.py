"""Laws of the formulas of lanes, over random links."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.sizing.slots.lanes import (
    NEWEST,
    bay_bandwidth,
    generation_number,
    lane_bandwidth,
    lane_bandwidth_raw,
    line_rate,
    link_bandwidth,
    oversubscription,
    share_of_uplink,
)

lanes = st.sampled_from([1, 2, 4, 8, 16])
generations = st.integers(1, NEWEST)


@given(lanes, generations, lanes, generations)
def test_a_link_is_no_better_than_either_end(
    lanes_a: int, generation_a: int, lanes_b: int, generation_b: int
) -> None:
    moved = float(link_bandwidth(lanes_a, generation_a, lanes_b, generation_b))
    alone = (
        float(link_bandwidth(lanes_a, generation_a, lanes_a, generation_a)),
        float(link_bandwidth(lanes_b, generation_b, lanes_b, generation_b)),
    )
    assert moved <= min(alone)
    assert moved == link_bandwidth(lanes_b, generation_b, lanes_a, generation_a)


@given(lanes, generations, lanes, generations)
def test_a_wider_or_newer_slot_is_never_slower(
    card_lanes: int, card_generation: int, slot_lanes: int, slot_generation: int
) -> None:
    before = float(link_bandwidth(card_lanes, card_generation, slot_lanes, slot_generation))
    assert link_bandwidth(card_lanes, card_generation, 2 * slot_lanes, slot_generation) >= before
    newer = min(slot_generation + 1, NEWEST)
    assert link_bandwidth(card_lanes, card_generation, slot_lanes, newer) >= before


@given(st.integers(1, 4), generations)
def test_each_generation_is_faster_than_the_last(step: int, generation: int) -> None:
    newer = min(generation + step, NEWEST)
    assert lane_bandwidth(newer) >= lane_bandwidth(generation)
    assert lane_bandwidth_raw(generation) >= lane_bandwidth(generation)


@given(st.floats(1e9, 1e12), st.integers(1, 16), st.floats(1e9, 1e12))
def test_shares_fit_into_the_uplink_and_into_the_slot(
    uplink: float, cards: int, link: float
) -> None:
    share = float(share_of_uplink(uplink, cards, link))
    assert share <= link
    assert share * cards <= uplink * (1 + 1e-12)
    assert share_of_uplink(uplink, cards + 1, link) <= share


@given(st.integers(0, 128), st.integers(1, 64))
def test_more_lanes_behind_a_link_fill_it_more(behind: int, uplink: int) -> None:
    ratio = oversubscription(behind, uplink)
    assert (ratio <= 1) == (behind <= uplink)
    assert oversubscription(behind + 1, uplink) > ratio


@pytest.mark.parametrize(
    ("name", "number"), [("PCIe 5.0", 5), ("PCIe 4", 4), ("PCIe 6.0", 6), ("PCIe 10.0", None)]
)
def test_a_generation_is_read_from_its_name(name: str, number: int | None) -> None:
    found = generation_number(name)
    assert np.isnan(found) if number is None else found == number


def test_what_is_not_known_is_not_decided() -> None:
    assert np.isnan(generation_number(None))
    assert np.isnan(generation_number("a bus of our own"))
    for undecided in (
        lane_bandwidth(NEWEST + 1),
        lane_bandwidth(np.nan),
        lane_bandwidth_raw(0),
        link_bandwidth(np.nan, 5, 16, 5),
        link_bandwidth(8, 5, 16, np.nan),
        oversubscription(16, 0),
        share_of_uplink(1e9, 0, 1e9),
        line_rate(2, np.nan),
        float(bay_bandwidth(4, np.nan)),
    ):
        assert np.isnan(undecided)


def test_arrays_give_what_numbers_give() -> None:
    found = np.asarray(link_bandwidth(np.array([8, 16]), np.array([4, 5]), 16, 5))
    assert found.tolist() == [link_bandwidth(8, 4, 16, 5), link_bandwidth(16, 5, 16, 5)]

"""Ways to reach a capacity, against the book's counts and sizes."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.sizing.memory.listings import listings
from baywright.sizing.memory.ways import ways_to
from tests.sizing.builds import case_by_others, changed
from tests.sizing.cases import case_of


def test_the_record_office_reaches_a_terabyte_in_three_ways() -> None:
    """1,024 GB over two processors are 512 each: 8 x 64, 16 x 32 or 4 x 128; 96 and 16 GB modules
    do not divide it in an allowed number. Full channels come first: 8 x 64 at 5,600 MT/s, then
    16 x 32 at 4,800; four of eight channels come last. 16 modules of 310 cost 4,960."""
    table = {each.key: each for each in listings(case_of("f2", "n4"))}["memory.ways"]
    assert table.rows == (
        ("8 x 64 GB module", "16", "1,024", "5,600", "716.8", "1", "4,960", "16"),
        ("16 x 32 GB module", "32", "1,024", "4,800", "614.4", "1", "5,120", "0"),
        ("4 x 128 GB module", "8", "1,024", "5,600", "358.4", "1", "6,240", "24"),
    )


def test_a_capacity_that_no_way_meets_exactly_is_met_by_more() -> None:
    """A host of the clinics needs 420 x 12 x 1.08 / 3 + 32 = 1,846.4 GB. No allowed number of
    modules is that; 16 x 64 GB on each processor is the cheapest that is enough."""
    case = case_of("f2", "n2")
    needed = 420 * 12 * 1.08 / 3 + 32
    assert needed == pytest.approx(1846.4)
    assert ways_to(case, needed, needed).of_processor == ()
    found = ways_to(case, needed)
    assert found.of_processor[int(np.argmin(found.price))] == "16 x 64 GB module"
    assert bool((found.capacity >= needed).all())


def test_one_processor_has_half_the_ways_to_itself() -> None:
    case = changed(case_of("f2", "n4"), P2="empty", M2="empty")
    alone = ways_to(case, 512, 512)
    assert set(alone.of_processor) == {"8 x 64 GB module", "16 x 32 GB module", "4 x 128 GB module"}
    assert alone.free.tolist() == [8, 0, 12]


def test_without_a_processor_there_is_no_way() -> None:
    case = changed(case_of("f2", "n4"), P1="empty", P2="empty", M1="empty", M2="empty")
    assert ways_to(case, 0).of_processor == ()


def test_every_count_and_size_of_the_book_is_a_way() -> None:
    """Five sizes in seven numbers on each processor of the general host."""
    found = ways_to(case_of("f2", "n4"), 0)
    assert len(found.of_processor) == len(set(found.of_processor)) == 5 * 7


def test_banks_alike_are_told_once() -> None:
    """Two banks of six beside each processor: 2, 4 or 6 in one or both, 2 to 12 modules in steps
    of two, of 32 or 64 GB; the 256 GB module does not ship yet."""
    found = ways_to(case_by_others("t4", "big"), 0)
    assert len(found.of_processor) == len(set(found.of_processor)) == 2 * 6


@given(st.integers(0, 5000), st.integers(0, 5000))
def test_ways_keep_to_what_was_asked_and_are_in_order(least: int, more: int) -> None:
    found = ways_to(case_of("f2", "n4"), least, least + more)
    assert bool(((found.capacity >= least) & (found.capacity <= least + more)).all())
    keys = list(zip(-found.balanced, -found.bandwidth, found.price, strict=True))
    assert keys == sorted(keys)

"""Pools of hosts: the sums by hand, and what has no answer."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.sizing.pool import (
    cores_of_guests,
    guests_of_host,
    hosts_in_rack,
    least_hosts,
    racks_at_site,
    raw_of_copies,
    share_of_host,
    units_taken,
)

amounts = st.fractions(min_value=Fraction(1, 10), max_value=1000, max_denominator=100)


@given(amounts, amounts, st.integers(0, 3))
def test_the_least_number_is_enough_and_one_fewer_is_not(
    demand: Fraction, each: Fraction, lost: int
) -> None:
    hosts = least_hosts(demand, each, lost)
    assert hosts is not None
    assert share_of_host(demand, hosts, lost) <= each
    if hosts - 1 > lost:
        assert share_of_host(demand, hosts - 1, lost) > each


def test_a_host_that_keeps_all_for_itself_is_never_enough() -> None:
    assert least_hosts(Fraction(10), Fraction(32), 1, Fraction(32)) is None
    assert least_hosts(Fraction(0), Fraction(0), 1) == 2


def test_what_cannot_be_asked_is_refused() -> None:
    with pytest.raises(ValueError, match="no host is left"):
        share_of_host(Fraction(1), 1, 1)
    with pytest.raises(ValueError, match="share a core"):
        cores_of_guests(Fraction(1), Fraction(1), Fraction(0))
    with pytest.raises(ValueError, match="filled"):
        raw_of_copies(Fraction(1), 3, Fraction(0))
    with pytest.raises(ValueError, match="bears some host"):
        racks_at_site(4, 2, 0)


def test_hosts_are_dealt_out_evenly() -> None:
    """7 over 2 sites: 4 at the fullest; in 2 racks each: 2; a rack that bears 3 makes 2 racks."""
    assert hosts_in_rack(7, 2, 1) == 4
    assert hosts_in_rack(7, 2, 2) == 2
    assert racks_at_site(7, 2, 3) == 2
    assert units_taken(7, 2, 1) == 14


@given(st.integers(1, 60), st.integers(1, 9), st.integers(0, 2), st.integers(1, 12))
def test_equal_guests_are_packed_as_a_search_packs_them(
    guests: int, hosts: int, lost: int, room: int
) -> None:
    """Room for so many guests in each of the hosts left is enough exactly when one by one all
    find a place."""
    left = hosts
    free = [room] * left
    for _ in range(guests):
        at = max(range(left), key=lambda host: free[host])
        free[at] -= 1
    assert (min(free) >= 0) == (guests_of_host(guests, hosts + lost, lost) <= room)

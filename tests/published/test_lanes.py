"""Lanes and links against numbers in print and what machines report of themselves.

How each value was seen: R read in a stored copy of the source, L read in a file of a public
package, C recomputed from the formula.
"""

from __future__ import annotations

import math

import pytest

from baywright.sizing.equation import Floats
from baywright.sizing.slots.lanes import (
    lane_bandwidth,
    lane_bandwidth_raw,
    line_rate,
    link_bandwidth,
)

PER_LANE = [(1, 250.0), (2, 500.0), (3, 984.615), (4, 1969.231), (5, 3938.462)]


@pytest.mark.parametrize(("generation", "megabytes"), PER_LANE)
def test_a_lane_of_generations_1_to_5(generation: int, megabytes: float) -> None:
    """MB/s of one lane: PCIe Base Specification, as a macro of the Linux kernel computes it (L,
    C). To the digits printed."""
    for of_lane in (lane_bandwidth, lane_bandwidth_raw):
        assert of_lane(generation) / 1e6 == pytest.approx(megabytes, abs=5e-4)


@pytest.mark.parametrize(
    ("generation", "raw", "with_flits"), [(6, 8000.0, 7562.5), (7, 16000.0, 15125.0)]
)
def test_a_lane_of_flits_by_both_conventions(
    generation: int, raw: float, with_flits: float
) -> None:
    """MB/s of one lane. The Linux kernel counts 64 GT/s without overhead (R; generation 7 C); the
    library hwloc takes 242 of 256 bytes (R). Exact."""
    assert lane_bandwidth_raw(generation) / 1e6 == raw
    assert lane_bandwidth(generation) / 1e6 == with_flits


def test_a_link_of_generation_6_and_16_lanes() -> None:
    """128 GB/s in one direction before flits, in print (R). Of the 256 bytes of a flit 236 are
    packets, 6 belong to the data link, 8 are a check sum and 6 correct errors (R): ours takes
    off the last two."""
    assert 16 * lane_bandwidth_raw(6) / 1e9 == 128.0
    assert 16 * lane_bandwidth(6) / 1e9 == 128.0 * (236 + 6) / 256


TOPOLOGIES = [(3, 16, 15.753846), (3, 4, 3.938462), (4, 16, 31.507692)]
"""Generation, lanes and GB/s of links in topologies that hwloc saved on real machines: the first
two in its own tests (R), the third in another public repository (R)."""


@pytest.mark.parametrize(("generation", "lanes", "gigabytes"), TOPOLOGIES)
def test_links_of_real_machines(generation: int, lanes: int, gigabytes: float) -> None:
    """To the six decimals of the file."""
    moved = link_bandwidth(lanes, generation, lanes, generation) / 1e9
    assert moved == pytest.approx(gigabytes, abs=5e-7)


REPORTED = [
    *((1, 4, "8.000"), (1, 8, "16.000"), (1, 16, "32.000"), (2, 1, "4.000"), (2, 4, "16.000")),
    *((3, 1, "7.876"), (3, 4, "31.504"), (3, 8, "63.008"), (3, 16, "126.016")),
    *((4, 4, "63.012"), (4, 8, "126.024"), (4, 16, "252.048")),
    *((5, 2, "63.014"), (5, 4, "126.028"), (5, 8, "252.056"), (5, 16, "504.112")),
]
"""Generation, lanes and Gb/s as Linux reports links of real machines when it starts; lines of
such reports on public mailing lists and in issues (R). It cuts each lane to whole Mb/s."""


def reported(moved: Floats, lanes: int) -> str:
    """Write a bandwidth in B/s as Linux reports it."""
    megabits = math.floor(float(moved) * 8 / 1e6 / lanes + 1e-9) * lanes
    return f"{megabits // 1000}.{megabits % 1000:03d}"


@pytest.mark.parametrize(("generation", "lanes", "gigabits"), REPORTED)
def test_links_as_linux_reports_them(generation: int, lanes: int, gigabits: str) -> None:
    """Exact, cut in the same way."""
    assert reported(link_bandwidth(lanes, generation, lanes, generation), lanes) == gigabits


LIMITED = [
    ((4, 4), (3, 4), "31.504"),
    ((4, 16), (4, 8), "126.024"),
    ((4, 16), (3, 8), "63.008"),
    ((4, 16), (3, 16), "126.016"),
    ((5, 16), (4, 16), "252.048"),
    ((5, 8), (5, 2), "63.014"),
    ((3, 4), (2, 4), "16.000"),
    ((5, 16), (1, 4), "8.000"),
]
"""What a device is capable of and what the slot limits it to, generation and lanes, and Gb/s left:
lines of the same kind of report, such as "31.504 Gb/s available PCIe bandwidth, limited by 8.0
GT/s PCIe x4 link (capable of 63.012 Gb/s with 16.0 GT/s PCIe x4 link)" (R)."""


@pytest.mark.parametrize(("card", "slot", "gigabits"), LIMITED)
def test_the_narrower_and_the_older_end_set_the_link(
    card: tuple[int, int], slot: tuple[int, int], gigabits: str
) -> None:
    """Exact, cut in the same way, and the same from either end."""
    (new, wide), (old, narrow) = card, slot
    lanes = min(wide, narrow)
    assert reported(link_bandwidth(wide, new, narrow, old), lanes) == gigabits
    assert reported(link_bandwidth(narrow, old, wide, new), lanes) == gigabits


@pytest.mark.parametrize(
    ("ports", "gigabits", "gigabytes"), [(1, 800, 100.0), (1, 100, 12.5), (2, 25, 6.25)]
)
def test_line_rate_of_network_ports(ports: int, gigabits: float, gigabytes: float) -> None:
    """A port of 800 Gb/s needs roughly 100 GB/s of the slot, in print (R); the others by division
    (C). Exact."""
    assert line_rate(ports, gigabits * 1e9) / 1e9 == gigabytes

"""Lanes: what one carries by generation, what a link carries, and what sharing leaves."""

from __future__ import annotations

import re

import numpy as np

from baywright.sizing.equation import Floats, Reals, equation, within

NEWEST = 7
"""Newest generation of PCI Express whose rate is known here."""

_TRANSFERS = np.array([2.5, 5.0, 8.0, 16.0, 32.0, 64.0, 128.0]) * 1e9
"""Transfers a second and bits a transfer of one lane, by generation."""

_CODING = np.array([8 / 10] * 2 + [128 / 130] * 3 + [1.0] * 2)
"""Share of the bits that line coding leaves."""

_FLITS = 242 / 256
"""Share of the bytes that flits leave: 8 of 256 are a check sum and 6 correct errors."""

_NAME = re.compile(r"PCIe ([1-9])(?:\.0)?")


def generation_number(name: str | None) -> float:
    """Return the number of a generation, or not-a-number for a name that is none.

    >>> generation_number("PCIe 5.0"), generation_number("PCIe 4"), generation_number("other")
    (5.0, 4.0, nan)
    """
    found = _NAME.fullmatch(name) if name else None
    return float(found.group(1)) if found else np.nan


@equation(
    "C1",
    "B_lane = R k / 8; k = 8/10, 128/130, 242/256 for generations 1-2, 3-5, 6-7",
    source="PCI Express Base Specification, as hwloc computes it: line coding, and from "
    "generation 6 on flits of 256 bytes with 242 that carry packets",
    valid="generations 1 to 7, one direction, headers of packets not taken off",
    outside="not decided",
)
def lane_bandwidth(generation: Floats) -> Floats:
    """Return what one lane carries in one direction, flits taken off from generation 6 on.

    Args:
        generation: number of the generation.

    Returns:
        Bandwidth [B/s].

    >>> round(lane_bandwidth(5) / 1e6, 3), lane_bandwidth(6) / 1e6
    (3938.462, 7562.5)
    """
    flits = np.where(np.greater_equal(generation, 6), _FLITS, 1.0)
    known = np.asarray(lane_bandwidth_raw(generation)) * flits
    return float(known) if known.ndim == 0 else known


@equation(
    "C2",
    "B_lane = R k / 8; k = 8/10, 128/130, 1 for generations 1-2, 3-5, 6-7",
    source="PCI Express Base Specification 6.1, section 1.2, Table 1-1, as the Linux kernel "
    "computes it: generation 6 has no line coding",
    valid="generations 1 to 7, one direction",
    outside="not decided",
)
def lane_bandwidth_raw(generation: Floats) -> Floats:
    """Return what one lane carries in one direction, flits not taken off.

    Args:
        generation: number of the generation.

    Returns:
        Bandwidth [B/s].

    >>> lane_bandwidth_raw(6) / 1e6
    8000.0
    """
    number = np.asarray(generation, np.float64)
    known = np.isin(number, np.arange(1, NEWEST + 1))
    index = np.where(known, number, 1).astype(int) - 1
    return within((_TRANSFERS * _CODING / 8)[index], known)


@equation(
    "C3",
    "B = min(n_card, n_slot) B_lane(min(g_card, g_slot))",
    source="PCI Express Base Specification: both ends of a link agree on the width and the "
    "generation that both have",
    valid="widths of 0 and above",
    outside="not decided",
)
def link_bandwidth(
    card_lanes: Floats, card_generation: Floats, slot_lanes: Floats, slot_generation: Floats
) -> Floats:
    """Return what a card moves through its slot in one direction.

    Args:
        card_lanes: lanes of the card.
        card_generation: its generation.
        slot_lanes: lanes of the slot.
        slot_generation: generation of the slot.

    Returns:
        Bandwidth [B/s], flits taken off from generation 6 on.

    >>> round(link_bandwidth(8, 4, 16, 5) / 1e9, 3)
    15.754
    """
    width = np.minimum(card_lanes, slot_lanes)
    lane = lane_bandwidth(np.minimum(card_generation, slot_generation))
    return within(np.multiply(width, lane), np.greater_equal(width, 0))


@equation(
    "C4",
    "r = sum n_i / n_uplink",
    source="definition",
    valid="an uplink of one lane and more",
    outside="not decided",
)
def oversubscription(behind: Floats, uplink: Floats) -> Floats:
    """Return how many times over the lanes behind a shared link fill it.

    Args:
        behind: lanes that cards or bays use behind it.
        uplink: lanes of the link.

    Returns:
        Ratio [1]: up to 1 none waits for another.

    >>> oversubscription(64, 32)
    2.0
    """
    there = np.greater_equal(uplink, 1)
    return within(np.divide(behind, np.where(there, uplink, 1.0)), there)


@equation(
    "C5",
    "B_each = min(B_link, B_uplink / n)",
    source="common practice, no source: cards that are alike share a link evenly",
    valid="one card and more",
    outside="not decided",
    estimate=True,
)
def share_of_uplink(uplink: Floats, cards: Floats, link: Floats) -> Floats:
    """Return what each of several cards behind a shared link moves when all are busy.

    Args:
        uplink: bandwidth of the shared link [B/s].
        cards: cards behind it.
        link: bandwidth of one card through its slot [B/s].

    Returns:
        Bandwidth of each [B/s].

    >>> share_of_uplink(126e9, 4, 63e9) / 1e9
    31.5
    """
    some = np.greater_equal(cards, 1)
    return within(np.minimum(link, np.divide(uplink, np.where(some, cards, 1.0))), some)


@equation(
    "C6",
    "B = n R / 8",
    source="definition; what framing takes is not taken off",
    valid="rates of 0 and above",
    outside="not decided",
)
def line_rate(ports: Floats, speed: Floats) -> Floats:
    """Return what all ports of a network card move in one direction.

    Args:
        ports: ports.
        speed: rate of one port [bit/s].

    Returns:
        Rate [B/s].

    >>> line_rate(2, 25e9) / 1e9
    6.25
    """
    return within(np.multiply(ports, np.divide(speed, 8.0)), np.greater_equal(speed, 0))


@equation(
    "C7",
    "B_bay = n_bay B_lane",
    source="PCI Express Base Specification: a drive has the lanes of its bay",
    valid="generations 1 to 7",
    outside="not decided",
)
def bay_bandwidth(lanes: Floats, generation: Floats) -> Reals:
    """Return what the lanes of one bay carry in one direction.

    Args:
        lanes: lanes of each bay.
        generation: generation of the lanes.

    Returns:
        Bandwidth [B/s]; a drive may be slower.

    >>> round(float(bay_bandwidth(4, 5)) / 1e9, 3)
    15.754
    """
    return np.asarray(np.multiply(lanes, lane_bandwidth(generation)), np.float64)

"""Links: what lanes and ports carry. Gb/s on a label is not data: coding takes a share."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from baywright.sizing.equation import Floats, equation, plain, within
from baywright.sizing.slots.lanes import lane_bandwidth

BITS = 8
"""Bits of a byte."""


@dataclass(frozen=True, slots=True)
class Coding:
    """A line code: of so many bits on the line, so many are data.

    Args:
        data: bits of data.
        line: bits on the line for them.
        source: where it is laid down.
    """

    data: int
    line: int
    source: str


_SATA = "Serial ATA; T10 SAS: 8b/10b up to 12 Gb/s"
_SAS4 = "T10 SAS-4: 128b/150b, error correction included"
_USB = "USB 3.2 specification: 8b/10b at 5 Gb/s, 128b/132b above"

DRIVE_LINES: Mapping[float, Coding] = MappingProxyType(
    {
        1.5e9: Coding(8, 10, _SATA),
        3e9: Coding(8, 10, _SATA),
        6e9: Coding(8, 10, _SATA),
        12e9: Coding(8, 10, _SATA),
        22.5e9: Coding(128, 150, _SAS4),
    }
)
"""Codes of SATA and SAS lanes by signalling rate [b/s]."""

USB_LINES: Mapping[float, Coding] = MappingProxyType(
    {
        5e9: Coding(8, 10, _USB),
        10e9: Coding(128, 132, _USB),
        20e9: Coding(128, 132, _USB),
    }
)
"""Codes of USB ports by signalling rate [b/s]; 480 Mb/s has packets in place of a code."""

NEWEST_LANES = 6
"""Newest generation of PCI Express that drives and controllers are counted with."""

_USB_2_SIGNALS = 480e6
_USB_2_BULK = 13 * 512 * 8000.0


def _coded(signalling: float, coding: Coding | None) -> float:
    return signalling * coding.data / coding.line / BITS if coding else float("nan")


@equation(
    "S1",
    "rate = signalling x data bits / line bits / 8",
    source="Serial ATA; T10 SAS and SAS-4",
    valid="1.5, 3, 6, 12 and 22.5 Gb/s",
    outside="not decided: no line code is known for another rate",
)
def drive_lane_rate(signalling: float) -> float:
    """Return the data that one SATA or SAS lane carries each way.

    Args:
        signalling: rate on the line [b/s].

    Returns:
        Data [B/s]; not-a-number for a rate without a known code.

    >>> drive_lane_rate(12e9)
    1200000000.0
    """
    return _coded(signalling, DRIVE_LINES.get(signalling))


@equation(
    "S2",
    "rate = lanes x signalling x data bits / line bits / 8",
    source="PCI Express Base Specification",
    valid="generations 1 to 6; packet headers are not taken off",
    outside="not decided",
)
def lane_rate(generation: float, lanes: float = 1) -> float:
    """Return the data that PCI Express lanes carry each way.

    Args:
        generation: 1 to 6; generation 6 is counted with 242 of 256 bytes of a flit.
        lanes: number of lanes, zero or more.

    Returns:
        Data [B/s]; not-a-number for an unknown generation.

    Raises:
        ValueError: for a negative number of lanes.

    >>> round(lane_rate(4, 8) / 1e9, 3)
    15.754
    """
    if lanes < 0:
        raise ValueError(f"{lanes:g} lanes cannot be; give zero or more.")
    counted = generation <= NEWEST_LANES
    return lanes * float(lane_bandwidth(generation)) if counted else float("nan")


@equation(
    "S3",
    "rate = signalling x data bits / line bits / 8; at 480 Mb/s 13 packets of 512 B each 125 us",
    source="USB 3.2 specification; USB 2.0 specification, bulk transfers",
    valid="0.48, 5, 10 and 20 Gb/s",
    outside="not decided: no line code is known for another rate",
)
def usb_rate(signalling: float) -> float:
    """Return the most data that a USB port carries; in practice it is less.

    Args:
        signalling: rate on the line [b/s].

    Returns:
        Data [B/s]; not-a-number for a rate without a known code.

    >>> usb_rate(5e9)
    500000000.0
    """
    if signalling == _USB_2_SIGNALS:
        return _USB_2_BULK
    return _coded(signalling, USB_LINES.get(signalling))


@equation(
    "S4",
    "oversubscription = rate of all behind the link / rate of the link",
    source="common practice, no source",
    valid="a link with a rate above zero",
    outside="not decided",
)
def oversubscription(behind: Floats, link: Floats) -> Floats:
    """Return how often a link would be filled by all that lies behind it.

    Args:
        behind: what all parts behind the link deliver together [B/s].
        link: what the link carries [B/s].

    Returns:
        Ratio; above 1 the parts wait for the link when all are busy. Zero where nothing lies
        behind, whatever the link.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.divide(behind, link)
    known = within(ratio, np.asarray(link) > 0)
    return plain(np.where(np.equal(behind, 0), 0.0, known))

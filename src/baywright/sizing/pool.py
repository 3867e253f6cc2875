"""A pool of equal hosts: what each has to hold so that those left carry the whole workload.

Numbers are exact fractions in the canonical unit of what they count.
"""

from __future__ import annotations

import math
from fractions import Fraction

from baywright.sizing.equation import equation

TITLE = "Pools of hosts"
"""What the formulas are about, on the page of all formulas."""

_COUNTING = "counting"
_PRACTICE = "common practice, no source"


@equation("H1", "D(t) = D (1 + s)^t", source="compound growth")
def grown(demand: Fraction, share: Fraction, years: int) -> Fraction:
    """Return what a demand grows to.

    Args:
        demand: the demand today, in any unit.
        share: growth in a year, such as 1/5 for 20 %.
        years: years, 0 or more.

    >>> grown(Fraction(100), Fraction(1, 5), 2)
    Fraction(144, 1)
    """
    return demand * (1 + share) ** years


@equation("H2", "C = n v / r", source=_PRACTICE, valid="r above 0", outside="refused")
def cores_of_guests(guests: Fraction, virtual: Fraction, ratio: Fraction) -> Fraction:
    """Return the cores that virtual machines take together.

    Args:
        guests: number n of virtual machines.
        virtual: virtual cores v of each.
        ratio: virtual cores r that share a core.

    Raises:
        ValueError: for a ratio that is not above 0.

    >>> cores_of_guests(Fraction(420), Fraction(5, 2), Fraction(4))
    Fraction(525, 2)
    """
    if ratio <= 0:
        raise ValueError("some virtual cores share a core")
    return guests * virtual / ratio


@equation("H3", "M = n m (1 + o)", source=_PRACTICE)
def memory_of_guests(guests: Fraction, each: Fraction, overhead: Fraction) -> Fraction:
    """Return the memory that virtual machines take together, in the unit of ``each``.

    Args:
        guests: number n of virtual machines.
        each: memory m of each.
        overhead: share o on top of it.

    >>> memory_of_guests(Fraction(420), Fraction(12), Fraction(2, 25))
    Fraction(27216, 5)
    """
    return guests * each * (1 + overhead)


@equation("H4", "raw = D k / q", source=_PRACTICE, valid="q above 0", outside="refused")
def raw_of_copies(data: Fraction, copies: int, fill: Fraction) -> Fraction:
    """Return the capacity of all drives that hold data in copies.

    Args:
        data: data D, one copy counted.
        copies: copies k of it.
        fill: share q of the drives that may be filled.

    Raises:
        ValueError: for a fill that is not above 0.

    >>> raw_of_copies(Fraction(378, 10), 3, Fraction(3, 4))
    Fraction(756, 5)
    """
    if fill <= 0:
        raise ValueError("drives are filled to some share")
    return data * copies / fill


@equation("H5", "x = D / (H - f) + b", source=_COUNTING, valid="H above f", outside="refused")
def share_of_host(
    demand: Fraction, hosts: int, lost: int, kept: Fraction = Fraction(0)
) -> Fraction:
    """Return what each host has to hold so that the hosts left carry the demand.

    Args:
        demand: demand D of all together.
        hosts: hosts H.
        lost: hosts f that may fail.
        kept: what each host keeps for itself b.

    Raises:
        ValueError: when no host is left.

    >>> share_of_host(Fraction(525, 2), 4, 1)
    Fraction(175, 2)
    """
    if hosts <= lost:
        raise ValueError("no host is left")
    return demand / (hosts - lost) + kept


@equation(
    "H6",
    "H = f + ceil(D / (x - b))",
    source=_COUNTING,
    valid="x above b",
    outside="no number is enough",
)
def least_hosts(
    demand: Fraction, each: Fraction, lost: int, kept: Fraction = Fraction(0)
) -> int | None:
    """Return the least number of hosts for a demand, or ``None`` when no number is enough.

    Args:
        demand: demand D of all together.
        each: what a host has x.
        lost: hosts f that may fail.
        kept: what each host keeps for itself b.

    >>> least_hosts(Fraction(525, 2), Fraction(96), 1)
    4
    """
    if demand <= 0:
        return lost + 1
    return lost + math.ceil(demand / (each - kept)) if each > kept else None


@equation("H7", "n = ceil(ceil(H / s) / r)", source=_COUNTING)
def hosts_in_rack(hosts: int, sites: int, racks: int) -> int:
    """Return the hosts in the fullest rack when they are dealt out evenly.

    Args:
        hosts: hosts H.
        sites: sites s, 1 or more.
        racks: racks r at each site, 1 or more.

    >>> hosts_in_rack(5, 2, 1)
    3
    """
    return math.ceil(Fraction(math.ceil(Fraction(hosts, sites)), racks))


@equation(
    "H8",
    "R = ceil(ceil(H / s) / n)",
    source=_COUNTING,
    valid="n above 0",
    outside="refused",
)
def racks_at_site(hosts: int, sites: int, in_rack: int) -> int:
    """Return the racks that the fullest site takes.

    Args:
        hosts: hosts H.
        sites: sites s, 1 or more.
        in_rack: hosts n that a rack bears, 1 or more.

    Raises:
        ValueError: when a rack bears none.

    >>> racks_at_site(10, 2, 4)
    2
    """
    if in_rack < 1:
        raise ValueError("a rack bears some host")
    return math.ceil(Fraction(math.ceil(Fraction(hosts, sites)), in_rack))


@equation("H9", "U = u ceil(H / b)", source=_COUNTING)
def units_taken(hosts: int, units: int, beside: int) -> int:
    """Return the rack units of some hosts.

    Args:
        hosts: hosts H.
        units: rack units u of a host, or of a tray.
        beside: hosts b side by side in a tray.

    >>> units_taken(5, 1, 2)
    3
    """
    return units * math.ceil(Fraction(hosts, beside))


@equation(
    "H10",
    "n = ceil(G / (H - f))",
    source="pigeonhole principle: the least fullest host of equal guests on equal hosts",
    valid="H above f",
    outside="refused",
)
def guests_of_host(guests: int, hosts: int, lost: int) -> int:
    """Return the equal guests that the fullest host holds once some hosts failed.

    Args:
        guests: guests G, none of them split.
        hosts: hosts H.
        lost: hosts f that may fail.

    Raises:
        ValueError: when no host is left.

    >>> guests_of_host(420, 9, 1)
    53
    """
    if hosts <= lost:
        raise ValueError("no host is left")
    return -(-guests // (hosts - lost))

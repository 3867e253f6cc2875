"""Demands: what a workload takes of all hosts together, and how that came about."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from baywright.facts.fact import Fact
from baywright.facts.need import Need
from baywright.sizing.pool import (
    cores_of_guests,
    grown,
    guests_of_host,
    least_hosts,
    memory_of_guests,
    raw_of_copies,
    share_of_host,
)
from baywright.units import DIMENSIONS, Quantity, number

Resource = Literal["cores", "memory", "raw", "usable", "accelerators", "network"]


@dataclass(frozen=True, slots=True)
class Demand:
    """An amount of one resource that all hosts have to hold together.

    Args:
        resource: what it is an amount of.
        total: the amount, in the canonical unit of its dimension.
        dimension: its dimension, or empty for a plain number.
        lost: hosts that may fail while the others hold all of it.
        said: how it came about, without a full stop.
        kept: what each host keeps for itself beside its share.
        whole: whether only whole numbers of it can be had.
        guests: virtual machines that are part of it; none of them is split over hosts.
        guest: what each of them takes.
    """

    resource: Resource
    total: Fraction
    dimension: str
    lost: int
    said: str
    kept: Fraction = Fraction(0)
    whole: bool = False
    guests: int = 0
    guest: Fraction = Fraction(0)

    def of_host(self, hosts: int) -> Fraction:
        """Return what each of some hosts has to hold."""
        loose = self.total - self.guests * self.guest
        share = share_of_host(loose, hosts, self.lost, self.kept)
        share += guests_of_host(self.guests, hosts, self.lost) * self.guest
        return Fraction(math.ceil(share)) if self.whole else share

    @property
    def of_any(self) -> Fraction:
        """What a host has to hold however many there are: what it keeps, and one guest."""
        return self.kept + (self.guest if self.guests else Fraction(0))

    def least_hosts(self, each: Fraction) -> int | None:
        """Return the least number of hosts that hold so much each, or ``None``."""
        hosts = least_hosts(self.total, each, self.lost, self.kept)
        if hosts is None or each < self.of_any:
            return None
        # Guests are whole, so that a few hosts more may be needed than amounts alone say.
        while self.of_host(hosts) > each:
            if hosts - self.lost > max(self.guests, 1) and each == self.of_any:
                return None
            hosts += 1
        return hosts


def demands(need: Need) -> tuple[Demand, ...]:
    """Return what a need takes, growth included; what it does not speak of is left out."""
    found = (_cores(need), _memory(need), _storage(need), _accelerators(need), _network(need))
    return tuple(demand for demand in found if demand is not None)


def lost_hosts(need: Need) -> int:
    """Return how many hosts may fail."""
    return need.survive.hosts.known if need.survive.hosts else 0


@dataclass(frozen=True, slots=True)
class _Term:
    """A part of a demand: its amount, and how it is written."""

    amount: Fraction
    said: str


def _joined(
    need: Need,
    resource: Resource,
    dimension: str,
    terms: list[_Term],
    kept: Fraction = Fraction(0),
    guest: Fraction = Fraction(0),
) -> Demand | None:
    """Return the sum of some terms, grown; nothing without terms.

    Args:
        need: the need.
        resource: what it is a demand of.
        dimension: its dimension.
        terms: its parts, that of the guests among them.
        kept: what each host keeps for itself.
        guest: what each guest takes, where guests are part of it.
    """
    if not terms and not kept:
        return None
    total = sum((term.amount for term in terms), Fraction(0))
    said = " + ".join(term.said for term in terms) or "nothing"
    total, said = _with_growth(need, total, said)
    count, exact = _guests(need) if guest else (0, Fraction(0))
    total += (count - exact) * guest
    return Demand(
        resource, total, dimension, lost_hosts(need), said, kept, guests=count, guest=guest
    )


def _guests(need: Need) -> tuple[int, Fraction]:
    """Return the virtual machines after growth, whole and exact."""
    guests = need.demand.guests
    exact, _ = _with_growth(need, Fraction(guests.count.known if guests else 0), "")
    return math.ceil(exact), exact


def _with_growth(need: Need, total: Fraction, said: str) -> tuple[Fraction, str]:
    growth = need.growth
    if growth is None:
        return total, said
    share, years = growth.share.known, growth.years.known
    factor = number(grown(Fraction(1), share, years), 3)
    inner = f"({said})" if " + " in said else said
    return grown(total, share, years), f"{inner} × {factor}"


def _cores(need: Need) -> Demand | None:
    demand, terms, guest = need.demand, list[_Term](), Fraction(0)
    ratio = _number(demand.virtual_cores_per_core, Fraction(1))
    if demand.guests and demand.guests.cores:
        count, each = demand.guests.count.known, demand.guests.cores.known
        shared = f" / {number(ratio)}" if ratio != 1 else ""
        said = f"{number(count)} × {number(each)}{shared}"
        terms.append(_Term(cores_of_guests(Fraction(count), each, ratio), said))
        guest = cores_of_guests(Fraction(1), each, ratio)
    if demand.users and demand.users.cores:
        terms.append(_each(demand.users.count.known, demand.users.cores.known, number))
    if demand.cores:
        terms.append(_Term(Fraction(demand.cores.known), number(demand.cores.known)))
    return _joined(need, "cores", "", terms, guest=guest)


def _memory(need: Need) -> Demand | None:
    demand, terms, guest = need.demand, list[_Term](), Fraction(0)
    overhead = _number(demand.memory_overhead)
    if demand.guests and demand.guests.memory:
        count, each = demand.guests.count.known, _canonical(demand.guests.memory)
        extra = f" × {number(1 + overhead)}" if overhead else ""
        said = f"{number(count)} × {shown(each, 'memory')}{extra}"
        terms.append(_Term(memory_of_guests(Fraction(count), each, overhead), said))
        guest = memory_of_guests(Fraction(1), each, overhead)
    if demand.users and demand.users.memory:
        each = _canonical(demand.users.memory)
        terms.append(_each(demand.users.count.known, each, _in_unit("memory")))
    if demand.memory:
        each = _canonical(demand.memory)
        terms.append(_Term(each, shown(each, "memory")))
    kept = _canonical(demand.memory_kept_back) if demand.memory_kept_back else Fraction(0)
    return _joined(need, "memory", "memory", terms, kept, guest)


def _data(need: Need) -> list[_Term]:
    demand, terms = need.demand, list[_Term]()
    for each in (demand.guests, demand.users):
        if each is not None and each.storage:
            held = _canonical(each.storage)
            terms.append(_each(each.count.known, held, _in_unit("capacity")))
    if demand.capacity:
        held = _canonical(demand.capacity)
        terms.append(_Term(held, shown(held, "capacity")))
    return terms


def data_of(need: Need) -> Fraction:
    """Return the data of a need, one copy counted and growth included [B]."""
    total = sum((term.amount for term in _data(need)), Fraction(0))
    return _with_growth(need, total, "")[0]


def _storage(need: Need) -> Demand | None:
    """Return the capacity of all drives with copies, or the space of arrays without."""
    data = _joined(need, "usable", "capacity", _data(need))
    if data is None or need.demand.copies is None:
        return data
    copies, fill = need.demand.copies.known, _number(need.demand.fill, Fraction(1))
    restored = bool(need.demand.restored and need.demand.restored.known)
    said = f"{_bracketed(data.said)} × {copies}"
    said += f" / {number(fill * 100)} %" if fill != 1 else ""
    lost = data.lost if restored else 0
    return Demand("raw", raw_of_copies(data.total, copies, fill), "capacity", lost, said)


def _accelerators(need: Need) -> Demand | None:
    asked = need.demand.accelerators
    if asked is None:
        return None
    count = asked.count.known
    return Demand("accelerators", Fraction(count), "", lost_hosts(need), number(count), whole=True)


def _network(need: Need) -> Demand | None:
    demand, terms = need.demand, list[_Term]()
    if demand.users and demand.users.network:
        each = _canonical(demand.users.network)
        terms.append(_each(demand.users.count.known, each, _in_unit("data_rate")))
    if demand.network:
        each = _canonical(demand.network)
        terms.append(_Term(each, shown(each, "data_rate")))
    return _joined(need, "network", "data_rate", terms)


def assumptions(need: Need) -> Iterator[str]:
    """Yield, as sentences, what was taken for granted where the need could be read otherwise."""
    lost, demand = lost_hosts(need), need.demand
    if lost:
        yield (
            f"With {lost} of the machines failed, the others carry all cores, memory, network "
            "and accelerators that are asked for."
        )
    if demand.guests:
        yield (
            "Virtual machines are whole and dealt out evenly: each runs on one machine, and none "
            "holds more than its share rounded up."
        )
    if demand.copies and not (demand.restored and demand.restored.known):
        yield (
            "Copies lie over the drives of all machines; the share that is not filled is room to "
            "make a lost copy again."
        )
    if demand.copies and demand.restored and demand.restored.known:
        yield "After a loss every copy is made again on the machines left."
    if demand.drive_failures is not None:
        yield (
            "All drives inside are of one model, and those behind one controller, or behind none, "
            "are one array."
        )
    if need.growth:
        yield "Growth is compound, and holds for all amounts but accelerators."
    if need.survive.feeds is None and len(need.site.feeds) > 1:
        yield "One feed may fail, since the site has several."
    if need.racks is None and need.site.rack:
        yield "There are as many racks alike as it takes."


def _each(count: int, each: Fraction, say: Callable[[Fraction], str]) -> _Term:
    return _Term(count * each, f"{number(count)} × {say(each)}")


def _in_unit(dimension: str) -> Callable[[Fraction], str]:
    return lambda value: shown(value, dimension)


def _bracketed(said: str) -> str:
    return f"({said})" if " + " in said else said


def shown(value: Fraction, dimension: str) -> str:
    """Return an amount in the unit people say it in, exactly or to three decimals."""
    unit = {"capacity": "GB", "data_rate": "Gb/s", "memory": "GB"}[dimension]
    held = Quantity(value, DIMENSIONS[dimension].canonical, dimension).to(unit)
    if held >= 10_000 and unit == "GB" and dimension == "capacity":
        held, unit = held / 1000, "TB"
    return f"{number(held, None if (held * 1000).denominator == 1 else 3)} {unit}"


def _canonical(fact: Fact[Quantity]) -> Fraction:
    return fact.known.canonical


def _number(fact: Fact[int] | Fact[Fraction] | None, otherwise: Fraction = Fraction(0)) -> Fraction:
    return otherwise if fact is None else Fraction(fact.known)

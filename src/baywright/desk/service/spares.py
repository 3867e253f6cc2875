"""Spares for a fleet: the stock of each depot, a kit for each site, failures and visits."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from baywright.desk.service.fleet import Machines
from baywright.desk.service.loads import first
from baywright.facts.fact import Fact
from baywright.facts.site import Upkeep
from baywright.sizing.amounts import ratio
from baywright.sizing.availability.spares import (
    cover,
    lead_time_demand,
    stock_for,
    visits_with_work,
)
from baywright.sizing.availability.stock import DAYS_A_YEAR, kept_of, rates_missing


@dataclass(frozen=True, slots=True)
class Line:
    """A kind of part that is kept.

    Args:
        book: name of the machine it belongs to; the same part of two books is kept twice.
        part: what it is.
        count: pieces in service.
        yearly: share of them that fails in a year [1]; not-a-number where nobody has stated it.
        lead: time until a spare is replaced [d].
        level: odds wanted that a spare is there [1].
        price: price of one, not-a-number where it has none.
        currency: currency of the price.
    """

    book: str
    part: str
    count: float
    yearly: float
    lead: float
    level: float
    price: float
    currency: str

    @property
    def failures(self) -> float:
        """Pieces that fail in a year."""
        return self.count * self.yearly

    @property
    def demand(self) -> float:
        """Failures to expect while a spare is being replaced."""
        return first(lead_time_demand(self.count, self.yearly, self.lead / DAYS_A_YEAR))

    @property
    def stock(self) -> float:
        """Spares that suffice with the odds wanted; not-a-number where that is not decided."""
        return first(stock_for(self.demand, self.level))

    @property
    def suffices(self) -> float:
        """Odds that the stock suffices [1]."""
        return first(cover(self.stock, self.demand))


@dataclass(frozen=True, slots=True)
class Kit:
    """The spares that lie at each of some sites.

    Args:
        build: what the build is called.
        depot: the depot that fills it up.
        sites: sites that have one.
        machines: machines at a site, the most.
        lines: what is in it.
    """

    build: str
    depot: str
    sites: int
    machines: int
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Depot:
    """The stock of one depot.

    Args:
        name: its name.
        machines: machines it serves.
        sites: sites they stand at.
        lines: what is kept.
        failures: parts that fail in a year, whole machines not counted twice.
        visits: visits in a year.
    """

    name: str
    machines: int
    sites: int
    lines: tuple[Line, ...]
    failures: float
    visits: float


@dataclass(frozen=True, slots=True)
class Spares:
    """Spares for a fleet.

    Args:
        depots: the stock of each depot.
        kits: the kits of sites; none where nobody said which sites there are.
        every: interval between visits [d], or ``None`` where each failure is a visit.
        missing: facts that a stock depends on.
    """

    depots: tuple[Depot, ...]
    kits: tuple[Kit, ...]
    every: float | None
    missing: tuple[str, ...]


def spares_of(fleet: Sequence[Machines], every: float | None = None) -> Spares:
    """Return the spares for a fleet.

    Args:
        fleet: the machines.
        every: interval at which each site is visited [d], or ``None`` for a visit a failure.
    """
    names = dict.fromkeys(each.depot for each in fleet)
    return Spares(
        tuple(_depot(name, [m for m in fleet if m.depot == name], every) for name in names),
        tuple(_kit(each) for each in fleet if each.sites_said),
        every,
        tuple(dict.fromkeys(_missing(fleet))),
    )


def _missing(fleet: Iterable[Machines]) -> Iterator[str]:
    for each in fleet:
        book = each.case.book.book.id
        yield from (f"{book}: {path}" for path in rates_missing(each.case))


def _depot(name: str, fleet: Sequence[Machines], every: float | None) -> Depot:
    pooled: dict[tuple[str, str, float, float], Line] = {}
    for each in fleet:
        for line in _lines(each, each.count):
            key = (line.book, line.part, line.lead, line.level)
            so_far = pooled.get(key)
            pooled[key] = replace(line, count=line.count + so_far.count) if so_far else line
    return Depot(
        name,
        sum(each.count for each in fleet),
        sum(each.sites for each in fleet),
        tuple(pooled.values()),
        math.fsum(each.count * _failures(each) for each in fleet),
        math.fsum(_visits(each, every) for each in fleet),
    )


def _lines(machines: Machines, count: int) -> Iterator[Line]:
    """Yield what is kept for so many machines."""
    about = machines.case.book.book
    upkeep = _for(machines.upkeep, count)
    level = ratio(upkeep.service_level)
    for kept in kept_of(machines.case, upkeep):
        pieces = first(kept.count)
        if pieces > 0:
            yield Line(
                str(about.name),
                kept.name,
                pieces,
                kept.yearly,
                kept.lead,
                level,
                kept.price,
                str(about.currency),
            )


def _for(upkeep: Upkeep, count: int) -> Upkeep:
    return upkeep.model_copy(update={"machines": Fact(count, str(count))})


def _failures(machines: Machines) -> float:
    """Return the parts of one machine that fail in a year; a whole machine is none of them."""
    parts = replace(machines, upkeep=machines.upkeep.model_copy(update={"unit_failure_rate": None}))
    return math.fsum(line.failures for line in _lines(parts, 1))


def _visits(machines: Machines, every: float | None) -> float:
    yearly = machines.count * _failures(machines)
    if every is None:
        return yearly
    return first(visits_with_work(machines.sites, yearly / machines.sites, every / DAYS_A_YEAR))


def _kit(machines: Machines) -> Kit:
    at_each = math.ceil(machines.count / machines.sites)
    lines = tuple(_lines(machines, at_each))
    return Kit(machines.name, machines.depot, machines.sites, at_each, lines)

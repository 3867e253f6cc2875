"""Spares in words: tables by depot, kits of sites, failures and visits."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baywright.answers.wording import Rows
from baywright.desk.service.spares import Depot, Kit, Line, Spares
from baywright.facts.cautions import CAUTIONS, PLANNING_AID, Caution
from baywright.laws.wording import counted, listed
from baywright.sizing.availability.spares import stock_for, visits_with_work
from baywright.sizing.equation import equation_of

HEADS = (
    "part",
    "in service",
    "fail in a year",
    "lead time, d",
    "demand in that time",
    "spares",
    "odds that they suffice",
)


@dataclass(frozen=True, slots=True)
class Stock:
    """A table of what is kept, with what is said below it."""

    title: str
    table: Rows
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SparesSheet:
    """Spares in words.

    Args:
        title: for how many machines.
        cautions: what has to be said before the numbers are used.
        stocks: the tables.
        notes: how the numbers came about, and what they depend on.
        aid: who decides.
    """

    title: str
    cautions: tuple[Caution, ...]
    stocks: tuple[Stock, ...]
    notes: tuple[str, ...]
    aid: str = PLANNING_AID


def spares_sheet(spares: Spares) -> SparesSheet:
    """Return spares in words."""
    machines = sum(depot.machines for depot in spares.depots)
    return SparesSheet(
        f"Spares for {counted(machines, 'machine')} from {counted(len(spares.depots), 'depot')}",
        (CAUTIONS["estimate"],),
        (*(_depot(depot, spares) for depot in spares.depots), *map(_kit, spares.kits)),
        tuple(_notes(spares)),
    )


def _depot(depot: Depot, spares: Spares) -> Stock:
    named = "The depot" if depot.name == "depot" else f"Depot {depot.name}"
    machines, sites = counted(depot.machines, "machine"), counted(depot.sites, "site")
    return Stock(
        f"{named}: {machines} at {sites}",
        Rows(HEADS, tuple(_rows(depot.lines))),
        (*_totals(depot.lines), _work(depot, spares)),
    )


def _rows(lines: Sequence[Line]) -> Iterator[tuple[str, ...]]:
    several = len({line.book for line in lines}) > 1
    for line in lines:
        yield (
            f"{line.book}: {line.part}" if several else line.part,
            f"{line.count:,.0f}",
            _number(line.failures, 2),
            f"{line.lead:g}",
            _number(line.demand, 4),
            _number(line.stock, 0),
            _percent(line.suffices),
        )


def _totals(lines: Sequence[Line]) -> Iterator[str]:
    """Yield the pieces in stock, and what those that have a price of their own cost."""
    pieces = math.fsum(line.stock for line in lines)
    if math.isnan(pieces):
        yield "How many pieces that is in all is not decided."
        return
    yield f"In all {_number(pieces, 0)} pieces, for {_levels(lines)} each kind of part by itself."
    for currency in dict.fromkeys(line.currency for line in lines):
        priced = [
            line.stock * line.price
            for line in lines
            if line.currency == currency and math.isfinite(line.price) and line.stock
        ]
        unpriced = sorted(
            {line.part for line in lines if math.isnan(line.price) and line.stock > 0}
        )
        left = f"; without {listed(unpriced)}, which have no list price" if unpriced else ""
        yield f"List price {_number(math.fsum(priced), 2)} {currency}{left}."


def _levels(lines: Sequence[Line]) -> str:
    return listed([f"{level * 100:g} %" for level in dict.fromkeys(line.level for line in lines)])


def _work(depot: Depot, spares: Spares) -> str:
    if math.isnan(depot.failures):
        return "How many parts fail in a year is not decided."
    failures = _number(depot.failures, 2)
    if spares.every is None:
        return f"{failures} parts fail in a year; each is a visit."
    number = equation_of(visits_with_work).number
    return (
        f"{failures} parts fail in a year. Of visits every {spares.every:g} d to each site, "
        f"{_number(depot.visits, 2)} in a year find one (formula {number})."
    )


def _kit(kit: Kit) -> Stock:
    lines = [line for line in kit.lines if line.stock != 0]
    title = (
        f"Kit of each of {counted(kit.sites, 'site')} with up to "
        f"{counted(kit.machines, 'machine')}: {kit.build}"
    )
    said = () if lines else ("No part is kept there: without one the odds are met.",)
    return Stock(title, Rows(HEADS, tuple(_rows(lines))), said)


def _notes(spares: Spares) -> Iterator[str]:
    behind = equation_of(stock_for)
    yield (
        "Demand is Poisson with the failures expected in the lead time; the stock is the least "
        f"that suffices with the odds wanted (formula {behind.number}: {behind.text}). Failures "
        "are taken as independent, and failed parts as replaced."
    )
    if spares.kits:
        yield "A kit is filled up from its depot within the lead time stated."
    if spares.missing:
        yield f"Not decided, for want of {listed(spares.missing)}."


def _number(value: float, digits: int) -> str:
    return f"{value:,.{digits}f}" if math.isfinite(value) else "not decided"


def _percent(share: float) -> str:
    return f"{share * 100:.3f} %" if math.isfinite(share) else "not decided"

"""The stock of spares for a fleet of equal builds: figures and the table by part."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from baywright.facts.parts import Boot, Cage, Kit, Part
from baywright.facts.site import Upkeep
from baywright.sizing.amounts import amount, ratio
from baywright.sizing.availability.spares import cover, lead_time_demand, stock_for
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats, Reals
from baywright.sizing.figure import Figure, Input, Listing

DAYS_A_YEAR = 365.0

WHOLE = "whole machine"
BOARD = "board"


@dataclass(frozen=True, slots=True)
class Kept:
    """A kind of part that is kept as a spare.

    Args:
        name: what it is.
        count: how many all machines have in service, for each build.
        yearly: failures of one in a year [1].
        lead: time until a spare is replaced [d].
        price: price of one, not-a-number where it has none.
    """

    name: str
    count: Reals
    yearly: float
    lead: float
    price: float

    @property
    def demand(self) -> Floats:
        """Failures to expect while a spare is being replaced."""
        demand = lead_time_demand(self.count, self.yearly, self.lead / DAYS_A_YEAR)
        return np.where(self.count > 0, demand, 0.0)

    def stock(self, level: float) -> Floats:
        """Spares that cover it with some odds."""
        return stock_for(self.demand, level)


def figures(case: Case) -> Iterator[Figure]:
    """Yield how many spares a stock needs, and their price; nothing where nobody keeps one."""
    upkeep = case.site.upkeep
    if upkeep is None or upkeep.machines is None:
        return
    level, kept = ratio(upkeep.service_level), tuple(kept_of(case, upkeep))
    stocks = [np.asarray(each.stock(level)) for each in kept]
    spares = Figure(
        "availability.spares",
        "spares in the stock",
        np.sum(stocks, axis=0),
        "",
        f"each kind of part by itself, {_level(upkeep)}",
        stock_for,
        _inputs(case, upkeep),
        (*_site_missing(upkeep), *rates_missing(case)),
    )
    yield spares
    yield replace(
        spares,
        key="availability.spares-price",
        name="list price of the spare parts, boards and whole machines not counted",
        values=_priced(kept, stocks),
        unit=case.book.book.currency,
        missing=(*spares.missing, *_prices_missing(case)),
    )


def _priced(kept: Iterable[Kept], stocks: Iterable[Reals]) -> Floats:
    """Add up list prices; boards and whole machines have none of their own."""
    priced = [
        np.where(np.equal(stock, 0), 0.0, stock * each.price)
        for stock, each in zip(stocks, kept, strict=True)
        if each.name not in (BOARD, WHOLE)
    ]
    return np.asarray(np.sum(priced, axis=0))


def _prices_missing(case: Case) -> tuple[str, ...]:
    parts = {name: case.book.parts[name] for name in case.fitted}
    return tuple(
        f"parts.{name}.price"
        for name, part in parts.items()
        if keeps(part) and np.isnan(_price(part))
    )


def listing(case: Case) -> Iterator[Listing]:
    """Yield the stock of each kind of part for a fleet of one build."""
    upkeep = case.site.upkeep
    if upkeep is None or upkeep.machines is None:
        return
    rows = tuple(_row(each, ratio(upkeep.service_level)) for each in kept_of(case, upkeep))
    header = (
        "part",
        "in service",
        "fail in a year",
        "lead time, d",
        "demand in that time",
        "spares",
        "odds that they suffice",
        "odds that one lies there when one fails",
    )
    yield Listing(
        "availability.spares",
        f"Spares for {_level(upkeep)}",
        header,
        tuple(row for row in rows if row[1] != "0"),
        "Demand is Poisson with the failures expected in the lead time. The stock is the least "
        "that suffices with the odds wanted, for each kind of part by itself.",
        stock_for,
    )


def kept_of(case: Case, upkeep: Upkeep) -> Iterator[Kept]:
    """Yield every kind of part that is kept, and the whole machine where it has a rate."""
    machines = float(upkeep.machines.known) if upkeep.machines is not None else np.nan
    lead = amount(upkeep.lead_time, "d")
    whole = np.full(case.size, machines)
    chassis = case.book.chassis
    yield Kept(BOARD, whole, ratio(chassis.failure_rate), lead, np.nan)
    for name in case.fitted:
        part = case.book.parts[name]
        if keeps(part):
            count = machines * pieces(part) * case.numbers[name]
            yield Kept(part.name, count, ratio(part.failure_rate), lead, _price(part))
    if upkeep.unit_failure_rate is not None:
        unit = upkeep.unit_lead_time or upkeep.lead_time
        yield Kept(WHOLE, whole, ratio(upkeep.unit_failure_rate), amount(unit, "d"), np.nan)


def keeps(part: Part) -> bool:
    """Say whether a part wears or fails on its own; kits and cages are kept only with a rate."""
    return part.failure_rate is not None or not isinstance(part, Kit | Cage)


def pieces(part: Part) -> float:
    """Return how many pieces fail one by one: a pair of boot cards has two."""
    return float(part.media.known) if isinstance(part, Boot) and part.media is not None else 1.0


def _price(part: Part) -> float:
    if part.price is None or part.price.value is None:
        return np.nan
    return float(part.price.value.canonical) / pieces(part)


def _row(kept: Kept, level: float) -> tuple[str, ...]:
    stock = float(np.ravel(kept.stock(level))[0])
    demand = float(np.ravel(kept.demand)[0])
    return (
        kept.name,
        f"{float(np.ravel(kept.count)[0]):,.0f}",
        _percent(kept.yearly, 2),
        f"{kept.lead:g}",
        _number(demand, 4),
        _number(stock, 0),
        _percent(float(cover(stock, demand)), 3),
        _percent(float(cover(stock - 1, demand)), 3),
    )


def _number(value: float, digits: int) -> str:
    return f"{value:,.{digits}f}" if np.isfinite(value) else "not decided"


def _percent(share: float, digits: int) -> str:
    return f"{share * 100:.{digits}f} %" if np.isfinite(share) else "not decided"


def _level(upkeep: Upkeep) -> str:
    level, machines = upkeep.service_level, upkeep.machines
    odds = level.text if level is not None else "odds nobody has stated"
    return f"{odds} over {machines.text if machines is not None else '?'} machines"


def rates_missing(case: Case) -> tuple[str, ...]:
    """Return the paths of yearly failure rates that the book lacks, for parts that are kept."""
    board = case.book.chassis.failure_rate
    parts = tuple(
        f"parts.{name}.failure_rate"
        for name in case.fitted
        if keeps(case.book.parts[name]) and np.isnan(ratio(case.book.parts[name].failure_rate))
    )
    return (*(() if board is not None else ("chassis.failure_rate",)), *parts)


def _site_missing(upkeep: Upkeep) -> tuple[str, ...]:
    return tuple(
        f"site.upkeep.{name}"
        for name in ("lead_time", "service_level")
        if getattr(upkeep, name) is None
    )


def _inputs(case: Case, upkeep: Upkeep) -> tuple[Input, ...]:
    facts = {
        "machines": upkeep.machines,
        "lead time": upkeep.lead_time,
        "lead time of a whole machine": upkeep.unit_lead_time,
        "whole machines replaced in a year": upkeep.unit_failure_rate,
        "odds wanted": upkeep.service_level,
    }
    cite = case.book.cite
    return tuple(
        Input(name, fact.text, cite(fact)) for name, fact in facts.items() if fact is not None
    )

"""Availability: how often builds stop, what stops them, and what to keep in stock."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import numpy as np

from baywright.sizing.amounts import amount, conditions, ratio
from baywright.sizing.availability import cuts, stock
from baywright.sizing.availability.blocks import Block, lacking, odds_down, singles
from baywright.sizing.availability.functions import (
    absent,
    always_needed,
    machine,
    service,
    spare_of,
)
from baywright.sizing.availability.repair import (
    HOURS_A_YEAR,
    any_down,
    down_time,
    failure_rate,
    mean_time_to_failure,
    unavailability,
    yearly_failures,
)
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Input, Limit, Listing, Sheet
from baywright.sizing.power.bays import bays_of
from baywright.sizing.subject import Subject


def sheet(case: Case) -> Sheet:
    """Return the figures and limits of availability.

    Args:
        case: the builds.
    """
    always = always_needed(case)
    runs, serves = machine(case, always), service(case, always)
    machine_down = _down(case, "availability.down-time", "down time of the machine", runs)
    service_down = _down(case, "availability.service-down-time", "down time of its service", serves)
    figures = (
        machine_down,
        service_down,
        _stops(case, runs),
        _failures(case),
        _supplies(case),
        _singles(case, runs),
        *stock.figures(case),
    )
    upkeep = case.site.upkeep
    most = upkeep.down_time_most if upkeep else None
    limits = () if most is None else (_most_down(case, service_down, amount(most, "h")),)
    return Sheet(figures, limits, ("estimate", "redundancy"))


def listings(case: Case) -> Iterable[Listing]:
    """Return the tables about one build: what stops it alone, in pairs, and the spares.

    Args:
        case: one build.
    """
    return (*cuts.listings(case), *stock.listing(case))


def _with_repair(case: Case) -> Callable[[Floats], Floats]:
    hours = _repair(case)
    return lambda yearly: unavailability(failure_rate(yearly), hours)


def _repair(case: Case) -> float:
    upkeep = case.site.upkeep
    return amount(upkeep.repair if upkeep else None, "h")


def _down(case: Case, key: str, name: str, block: Block) -> Figure:
    return Figure(
        key,
        f"{name} in a year",
        down_time(odds_down(block, _with_repair(case))),
        "h",
        conditions(case, "at peak", f"each part repaired after {_repair_text(case)}"),
        by=down_time,
        inputs=_repair_input(case),
        missing=(*_repair_missing(case), *_missing(case, block)),
        outside=absent(case),
    )


def _stops(case: Case, block: Block) -> Figure:
    return Figure(
        "availability.year",
        "odds that the machine stops within a year if nothing is repaired",
        odds_down(block, cuts.in_a_year),
        "",
        conditions(case, "at peak"),
        by=any_down,
        missing=_missing(case, block),
        outside=absent(case),
    )


def _failures(case: Case) -> Figure:
    """Count failures of every part that has a rate or should have one."""
    rates = {
        name: ratio(part.failure_rate) * stock.pieces(part)
        for name, part in case.book.parts.items()
        if stock.keeps(part)
    }
    board = ratio(case.book.chassis.failure_rate)
    return Figure(
        "availability.failures",
        "parts that fail in a year",
        yearly_failures(board, case.weighed(lambda name, _: rates.get(name, 0.0))),
        "",
        "of one machine, feeds and network not counted",
        by=yearly_failures,
        missing=stock.rates_missing(case),
    )


def _supplies(case: Case) -> Figure:
    bays = bays_of(case)
    yearly = [ratio(model.supply.failure_rate) for model in bays.models]
    rate = failure_rate(bays.of_strongest(np.asarray(each) for each in yearly))
    lacks = tuple(
        f"parts.{model.name}.failure_rate"
        for model, each in zip(bays.models, yearly, strict=True)
        if np.isnan(each)
    )
    time = mean_time_to_failure(spare_of(case, bays), bays.count, rate, _repair(case))
    return Figure(
        "availability.supplies",
        "mean time until the supplies no longer carry the peak",
        np.divide(time, HOURS_A_YEAR),
        "years",
        conditions(case, "at peak", f"repaired after {_repair_text(case)}", "feeds not counted"),
        by=mean_time_to_failure,
        inputs=_repair_input(case),
        missing=(*_repair_missing(case), *bays.missing, *lacks),
        outside=_outside(case),
    )


def _outside(case: Case) -> str:
    """A mean time needs supplies, and one is enough to have one."""
    return absent(case) if "supplies" in absent(case) else ""


def _singles(case: Case, block: Block) -> Figure:
    return Figure(
        "availability.single-points",
        "single parts whose failure stops the machine",
        np.broadcast_to(singles(block), _shape(case, block)),
        "",
        conditions(case, "at peak", "feeds not counted"),
        missing=bays_of(case).missing,
        outside=absent(case),
    )


def _shape(case: Case, block: Block) -> tuple[int, ...]:
    return np.broadcast_shapes(np.shape(singles(block)), (case.size,))


def _most_down(case: Case, figure: Figure, most: float) -> Limit:
    upkeep = case.site.upkeep
    facts = case.cite(upkeep.down_time_most) if upkeep else ()
    breaks = "The service is down for longer than the site can bear."
    return Limit(figure, most, "most", breaks, legal=False, facts=facts)


def _missing(case: Case, block: Block) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*bays_of(case).missing, *lacking(block))))


def _repair_missing(case: Case) -> tuple[str, ...]:
    return ("site.upkeep.repair",) if np.isnan(_repair(case)) else ()


def _repair_text(case: Case) -> str:
    upkeep = case.site.upkeep
    repair = upkeep.repair if upkeep else None
    return repair.text if repair is not None else "a time nobody has stated"


def _repair_input(case: Case) -> tuple[Input, ...]:
    upkeep = case.site.upkeep
    if upkeep is None or upkeep.repair is None:
        return ()
    text = upkeep.repair.text
    return (Input("from failure to a healthy part", text, case.cite(upkeep.repair)),)


SUBJECT = Subject("availability", "Availability and spares", sheet, listings)

"""What a battery in front of the machine means for each build: figures and limits."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from baywright.facts.site import Ups
from baywright.sizing.amounts import amount, conditions, ratio
from baywright.sizing.case import Case
from baywright.sizing.energy.battery import (
    energy_needed,
    energy_needed_of_rating,
    ride_through,
    ride_through_of_rating,
    usable_energy,
)
from baywright.sizing.energy.intake import Intake
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Input, Limit

MINUTES = 60.0


def figures(case: Case, ups: Ups, peak: Intake) -> Iterator[Figure]:
    """Yield the energy that reaches the machine, how long it lasts, and what it should be.

    Args:
        case: the builds.
        ups: the battery.
        peak: what the builds take in at peak.
    """
    yield Figure(
        "energy.battery",
        "energy of the aged battery that reaches the machine",
        _usable(ups),
        "Wh",
        by=usable_energy,
        inputs=inputs(case, ups),
        missing=_stated(ups, "energy", "aged"),
    )
    yield time_carried(case, ups, peak)
    yield Figure(
        "energy.battery-needed",
        "energy the battery needs when new",
        _needed(ups, peak.watts),
        "Wh",
        conditions(case, "at peak", *_rate(ups)),
        by=energy_needed_of_rating if _by_rate(ups) else energy_needed,
        inputs=(*inputs(case, ups), *peak.inputs),
        missing=(*_stated(ups, "ride_through", "aged", *_rated(ups)), *peak.missing),
        outside=_outside(ups),
    )


def limits(case: Case, ups: Ups, peak: Intake) -> Iterator[Limit]:
    """Yield the limits of the battery; one that the site does not ask for is left out."""
    cite = case.book.cite
    if ups.ride_through is not None:
        yield Limit(
            time_carried(case, ups, peak),
            amount(ups.ride_through, "min"),
            "least",
            "The machine loses power before the dip is over.",
            legal=False,
            facts=cite(ups.ride_through),
        )
    if ups.power_most is not None:
        yield Limit(
            Figure(
                "energy.ups-load",
                "power taken from the battery",
                peak.watts,
                "W",
                conditions(case, "at peak"),
                inputs=peak.inputs,
                missing=peak.missing,
            ),
            amount(ups.power_most, "W"),
            "most",
            "The inverter of the battery is overloaded and switches off.",
            legal=False,
            facts=cite(ups.power_most),
        )


def time_carried(case: Case, ups: Ups, peak: Intake) -> Figure:
    """Return how long the battery carries each build."""
    energy = _usable(ups)
    if _by_rate(ups):
        time = ride_through_of_rating(
            energy, peak.watts, ratio(ups.peukert), amount(ups.rated_time, "h")
        )
    else:
        time = ride_through(energy, peak.watts)
    return Figure(
        "energy.ride-through",
        "time the aged battery carries the machine",
        np.multiply(time, MINUTES),
        "min",
        conditions(case, "at peak", *_rate(ups)),
        by=ride_through_of_rating if _by_rate(ups) else ride_through,
        inputs=(*inputs(case, ups), *peak.inputs),
        missing=(*_stated(ups, "energy", "aged", *_rated(ups)), *peak.missing),
        outside=_outside(ups),
    )


def inputs(case: Case, ups: Ups) -> tuple[Input, ...]:
    """Return what the site says of its battery."""
    facts = {
        "energy when new": ups.energy,
        "share that an aged battery holds": ups.aged,
        "share that reaches the machine": ups.to_load,
        "time to carry": ups.ride_through,
        "Peukert exponent": ups.peukert,
        "discharge time of the rating": ups.rated_time,
    }
    cite = case.book.cite
    return tuple(
        Input(name, fact.text, cite(fact)) for name, fact in facts.items() if fact is not None
    )


def _usable(ups: Ups) -> Floats:
    return usable_energy(amount(ups.energy, "Wh"), ratio(ups.aged), ratio(ups.to_load))


def _needed(ups: Ups, watts: Floats) -> Floats:
    time, aged, to_load = amount(ups.ride_through, "h"), ratio(ups.aged), ratio(ups.to_load)
    if not _by_rate(ups):
        return energy_needed(watts, time, aged, to_load)
    exponent, rated = ratio(ups.peukert), amount(ups.rated_time, "h")
    return energy_needed_of_rating(watts, time, aged, to_load, exponent, rated)


def _by_rate(ups: Ups) -> bool:
    return ups.peukert is not None


def _outside(ups: Ups) -> str:
    return "a Peukert exponent is 1 or more" if ratio(ups.peukert) < 1 else ""


def _rated(ups: Ups) -> tuple[str, ...]:
    return ("peukert", "rated_time") if _by_rate(ups) else ()


def _rate(ups: Ups) -> tuple[str, ...]:
    return () if _by_rate(ups) else ("the rate of discharge not counted",)


def _stated(ups: Ups, *fields: str) -> tuple[str, ...]:
    """Return the paths of the fields that nobody has stated."""
    every = ("to_load", *fields)
    return tuple(f"site.ups.{name}" for name in every if _unknown(getattr(ups, name)))


def _unknown(fact: object) -> bool:
    return fact is None or getattr(fact, "value", None) is None

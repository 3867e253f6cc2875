"""A year of each build: energy and cost, and what another supply would save."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from baywright.facts.parts import Supply
from baywright.facts.places import Supplies
from baywright.sizing.amounts import amount, conditions, ratio
from baywright.sizing.case import Case
from baywright.sizing.energy.demand import energy_cost, part_load, payback, yearly_energy
from baywright.sizing.energy.intake import Intake
from baywright.sizing.equation import Floats, Reals
from baywright.sizing.figure import Figure, Input, Listing
from baywright.sizing.power.bays import bays_of
from baywright.sizing.power.draw import draw
from baywright.sizing.power.flow import flow
from baywright.sizing.power.sharing import carried


def figures(case: Case, idle: Intake, peak: Intake) -> Iterator[Figure]:
    """Yield energy and cost of a year.

    Args:
        case: the builds.
        idle: what they take in at idle.
        peak: what they take in at peak.
    """
    energy = energy_of(case)
    missing = (*_day_missing(case), *idle.missing, *peak.missing)
    whole = _is_whole_day(case)
    inputs = (*_inputs(case), *idle.inputs, *peak.inputs)
    outside = "" if whole else "the hours of site.day do not add up to 24"
    condition = conditions(case, "each day as site.day")
    yield Figure(
        "energy.year",
        "energy of a year",
        energy,
        "kWh",
        condition,
        yearly_energy,
        inputs,
        missing,
        outside,
    )
    yield Figure(
        "energy.cost",
        "energy cost of a year",
        energy_cost(energy, price_of(case)),
        case.book.book.currency,
        condition,
        energy_cost,
        inputs,
        (*missing, *_tariff_missing(case)),
        outside,
    )


def energy_of(case: Case) -> Floats:
    """Return the energy of a year of each build [kWh], not-a-number where it is not decided."""
    hours = np.array([amount(each.hours, "h") for each in case.site.day])
    return yearly_energy(powers_of(case), hours) if hours.size else np.nan


def powers_of(case: Case) -> Reals:
    """Return what each build takes in, for each stretch of the day [W]."""
    bays = bays_of(case)
    idle, peak = draw(case, "idle"), draw(case, "peak")
    shares = [ratio(each.load) for each in case.site.day]
    return np.array([flow(bays, part_load(idle, peak, share)).watts for share in shares])


def price_of(case: Case) -> float:
    """Return the price of one kWh, not-a-number where nobody said."""
    tariff = case.site.tariff
    if tariff is None or tariff.price.value is None:
        return np.nan
    return float(tariff.price.value.canonical) / amount(tariff.per, "kWh")


def day_listing(case: Case) -> Iterator[Listing]:
    """Yield the stretches of the day of one build."""
    rows = [
        (
            each.load.text,
            each.hours.text,
            _text(watts, 1),
            _text(yearly_energy(np.array([watts]), np.array([24.0])) * hours / 24, 1),
        )
        for each, watts in zip(case.site.day, np.reshape(powers_of(case), (-1,)), strict=False)
        for hours in (amount(each.hours, "h"),)
    ]
    if rows:
        header = ("load, from idle to peak", "hours of a day", "taken in, W", "a year, kWh")
        yield Listing(
            "energy.day", "Energy of a year by load", header, tuple(rows), by=yearly_energy
        )


def supply_listing(case: Case) -> Iterator[Listing]:
    """Yield what each supply that could carry one build costs in a year, and its payback."""
    places = case.book.places_of(Supplies)
    if len(places) != 1:
        return
    (choice,) = case.frame.at(next(iter(places)))
    rows = [row for other in _alternatives(case, choice) if (row := _compared(case, other, choice))]
    if len(rows) > 1:
        money = case.book.book.currency
        header = (
            "supplies",
            "redundant",
            "energy of a year, kWh",
            f"cost of a year, {money}",
            f"dearer than fitted, {money}",
            "paid for after, years",
        )
        yield Listing(
            "energy.supplies",
            "What other supplies would save",
            header,
            tuple(rows),
            "List prices and the day of the site; the same number of supplies, all sharing the "
            f"load. Redundant {conditions(case, 'at peak')}. Simple payback, no interest.",
            payback,
        )


def _alternatives(case: Case, choice: str) -> Iterator[Case]:
    """Yield the build with as many of each model of supply that carries it as legal."""
    options = case.frame.options(choice)
    fitted = options[int(case.codes[choice][0])].count
    for code, option in enumerate(options):
        if option.count == fitted and option.part is not None:
            other = replace(case, codes={**case.codes, choice: np.full(case.size, code)})
            if _carries(other, redundant=False):
                yield other


def _carries(case: Case, *, redundant: bool) -> bool:
    bays = bays_of(case)
    sharing = bays.redundant if redundant else bays.legal
    return bool(np.all(carried(bays.rating, sharing) >= np.subtract(draw(case, "peak"), 1e-6)))


def _compared(case: Case, other: Case, choice: str) -> tuple[str, ...] | None:
    energy = energy_of(other)
    if not np.all(np.isfinite(energy)):
        return None
    saving = energy_cost(np.subtract(energy_of(case), energy), price_of(case))
    extra = _price(other) - _price(case)
    cost = energy_cost(energy, price_of(case))
    (option,) = other.options(choice)
    same = np.array_equal(other.codes[choice], case.codes[choice])
    return (
        option.label,
        "yes" if _carries(other, redundant=True) else "no",
        _text(energy, 1),
        _text(cost, 2),
        "fitted" if same else _text(extra, 2),
        "" if same else _years(payback(extra, saving)),
    )


def _price(case: Case) -> Floats:
    return case.weighed(
        lambda name, part: (
            0.0
            if not isinstance(part, Supply)
            else float(part.price.value.canonical)
            if part.price is not None and part.price.value is not None
            else np.nan
        )
    )


def _years(time: Floats) -> str:
    value = float(np.ravel(time)[0])
    return "never" if value == np.inf else _text(value, 1)


def _text(values: Floats, digits: int) -> str:
    value = float(np.ravel(values)[0])
    return f"{value:,.{digits}f}" if np.isfinite(value) else "not decided"


def _is_whole_day(case: Case) -> bool:
    hours = sum(amount(each.hours, "h") for each in case.site.day)
    return not case.site.day or bool(np.isclose(hours, 24.0))


def _day_missing(case: Case) -> tuple[str, ...]:
    return () if case.site.day else ("site.day",)


def _tariff_missing(case: Case) -> tuple[str, ...]:
    return () if np.isfinite(price_of(case)) else ("site.tariff",)


def _inputs(case: Case) -> tuple[Input, ...]:
    cite, tariff = case.book.cite, case.site.tariff
    day = tuple(
        Input("load over the day", f"{each.load.text} for {each.hours.text}", cite(each.load))
        for each in case.site.day
    )
    if tariff is None:
        return day
    text = f"{tariff.price.text} per {tariff.per.text}"
    return (*day, Input("tariff", text, cite(tariff.price, tariff.per)))

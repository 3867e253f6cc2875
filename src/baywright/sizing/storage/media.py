"""Media: backups to removable cartridges."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from baywright.facts.parts import Media
from baywright.facts.places import PlacePort, Position
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Input, Limit
from baywright.sizing.storage.backup import cartridges, copying_time
from baywright.sizing.storage.keeping import HOUR
from baywright.sizing.storage.links import usb_rate
from baywright.sizing.storage.stated import (
    all_inputs,
    all_missing,
    asked_most,
    fitted,
    lacking,
    number,
    of_site,
    quoted,
    rate,
)

_NO_UNIT = "a build without a unit takes no backups to cartridges"


def of_backups(case: Case) -> Iterator[Figure | Limit]:
    """Yield how long a backup takes and how many cartridges it needs, where there is a unit."""
    units = fitted(case, Media)
    if not units:
        return
    size = of_site(case, "workload.backup", "data of one backup", "B")
    window = of_site(case, "workload.backup_window", "time a backup may take", "h")
    outside = "" if case.counted("media").all() else _NO_UNIT
    hours = Figure(
        "storage.backup",
        "time of one backup, or of its restore",
        _hours(case, units, size.value),
        "h",
        "to the unit in the machine, at the rate of the unit or of its port, whichever is less",
        copying_time,
        (
            *size.inputs,
            *quoted(units, case, "rate", "rate of the unit"),
            *_port_inputs(case, units),
        ),
        size.missing + lacking(units, case, "rate"),
        outside,
    )
    yield asked_most(hours, window, 1.0, "The backup is not done within its window.")
    kept = of_site(case, "workload.backups_kept", "backups kept")
    yield Figure(
        "storage.cartridges",
        "cartridges that keep the backups",
        _counts(case, units, size.value, kept.value),
        "",
        "full backups, each on one cartridge where it fits",
        cartridges,
        (*all_inputs(size, kept), *quoted(units, case, "capacity", "capacity of a cartridge")),
        all_missing(size, kept) + lacking(units, case, "capacity"),
        outside,
    )


def _hours(case: Case, units: dict[str, Media], size: float) -> Reals:
    hours = np.full(case.size, np.nan)
    for place, position in case.book.places_of(Position).items():
        port = port_rate(case, position)
        unit = case.looked_up(place, lambda option: _rate(units, option.part))
        there = case.looked_up(place, lambda option: float(option.part in units)) > 0
        hours = np.where(there, np.divide(copying_time(size, unit, port), HOUR), hours)
    return hours


def _rate(units: dict[str, Media], part: str | None) -> float:
    return rate(units[part].rate, "B/s") if part in units else math.nan


def port_rate(case: Case, position: Position) -> Reals:
    """Return what the port of a place carries in each build [B/s]; without limit if none is."""
    rates = [_carried(port) for port in position.ports]
    which = case.first_that_holds(port.when for port in position.ports)
    return np.array([*rates, math.inf])[which]


def _carried(port: PlacePort) -> float:
    if port.rate is not None:
        return rate(port.rate, "B/s")
    return usb_rate(number(port.speed, "b/s")) if port.type == "usb" else math.nan


def _port_inputs(case: Case, units: dict[str, Media]) -> Iterator[Input]:
    """Yield the ports that some build uses for a unit."""
    for place, position in case.book.places_of(Position).items():
        there = case.looked_up(place, lambda option: float(option.part in units)) > 0
        which = case.first_that_holds(port.when for port in position.ports)
        for code in np.unique(which[there & (which >= 0)]):
            port = position.ports[code]
            fact = port.rate or port.speed
            yield Input(f"{port.type} port", fact.text, case.cite(fact))


def _counts(case: Case, units: dict[str, Media], size: float, kept: float) -> Reals:
    counts = np.full(case.size, np.nan)
    for name, unit in units.items():
        capacity = number(unit.capacity, "B")
        if not math.isnan(size * kept * capacity):
            number_of = cartridges(int(kept), size, capacity)
            counts = np.where(case.has(name), number_of, counts)
    return counts

"""Keeping: rebuilds, odds of loss and wear of the drives of a build."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from baywright.facts.parts import Boot, Drive, Part
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats, Reals
from baywright.sizing.figure import Figure, Limit
from baywright.sizing.storage.groups import Group
from baywright.sizing.storage.loss import (
    HOURS_A_YEAR,
    hourly_rate,
    odds_of_unreadable,
    odds_within,
    rebuild_time,
    time_to_loss,
)
from baywright.sizing.storage.space import spares
from baywright.sizing.storage.stated import (
    all_inputs,
    all_missing,
    asked_least,
    fitted,
    lacking,
    number,
    of_site,
    quoted,
    rate,
)
from baywright.sizing.storage.wear import years_of_writing

HOUR = 3600.0


def rebuild_rate(case: Case, drive: Drive) -> float:
    """Return the rate at which a drive is written full again [B/s]: the site's, or its own."""
    said = of_site(case, "upkeep.rebuild_rate", "rate of a rebuild", "B/s")
    return float(np.fmin(said.value or np.nan, rate(drive.write_rate, "B/s")))


def rebuild_hours(case: Case, drive: Drive, load: float = 0.0) -> float:
    """Return how long a rebuild of one drive takes under a share of other load [h]."""
    found = rebuild_time(number(drive.capacity, "B"), rebuild_rate(case, drive), load)
    return float(found) / HOUR


def _unknown_rebuild(case: Case, drives: dict[str, Drive]) -> tuple[str, ...]:
    said = of_site(case, "upkeep.rebuild_rate", "rate of a rebuild", "B/s")
    rates = () if said.known else lacking(drives, case, "write_rate")
    return rates + lacking(drives, case, "capacity")


def of_rebuilds(case: Case) -> Iterator[Figure]:
    """Yield how long the slowest rebuild of a build takes."""
    drives = fitted(case, Drive)
    hours = np.zeros(case.size)
    for name, drive in drives.items():
        hours = np.maximum(hours, np.where(case.has(name), rebuild_hours(case, drive), 0.0))
    said = of_site(case, "upkeep.rebuild_rate", "rate of a rebuild", "B/s")
    yield Figure(
        "storage.rebuild",
        "rebuild of one drive, the slowest",
        hours,
        "h",
        "without other load",
        rebuild_time,
        (*said.inputs, *quoted(drives, case, "write_rate", "rate of writing")),
        _unknown_rebuild(case, drives),
    )


def of_losses(case: Case, groups: list[Group]) -> Iterator[Figure]:
    """Yield the odds that the most usable arrays lose data in a year."""
    failures = of_site(case, "workload.failures", "failures to survive")
    repair = of_site(case, "upkeep.repair", "time to a healthy part", "h")
    drives = fitted(case, Drive)
    missing = (
        *all_missing(failures, repair),
        *lacking(drives, case, "failure_rate"),
        *_unknown_rebuild(case, drives),
    )
    inputs = (
        *all_inputs(failures, repair),
        *quoted(drives, case, "failure_rate", "share of drives that fail in a year"),
    )
    unreadable = quoted(drives, case, "unreadable", "unreadable sectors for each bit")
    condition = "the arrays of the most usable space, one repair at a time, no other load"
    yield Figure(
        "storage.loss",
        "odds of loss in a year, failed drives alone",
        _odds(case, groups, failures.value, repair.value, sectors=False) * 100,
        "%",
        condition,
        time_to_loss,
        inputs,
        missing,
    )
    yield Figure(
        "storage.loss_unreadable",
        "odds of loss in a year, with unreadable sectors",
        _odds(case, groups, failures.value, repair.value, sectors=True) * 100,
        "%",
        f"{condition}; a sector that no check can restore counts as loss",
        time_to_loss,
        (*inputs, *unreadable),
        missing + lacking(drives, case, "unreadable"),
    )


def _odds(
    case: Case, groups: list[Group], failures: float, repair: float, *, sectors: bool
) -> Reals:
    if np.isnan(failures):
        return np.full(case.size, np.nan)
    kept = np.ones(case.size)
    for group in groups:
        used = np.maximum(group.counts - spares(case), 0)
        hours = np.asarray(
            loss_hours(case, group.drive, used, int(failures), repair, sectors=sectors)
        )
        odds = np.where(used > failures, odds_within(HOURS_A_YEAR, np.maximum(hours, 1e-9)), 1.0)
        kept *= np.where(used > 0, 1 - odds, 1.0)
    return 1 - kept


def loss_hours(
    case: Case, drive: Drive, drives: Floats, survives: int, repair: float, *, sectors: bool
) -> Floats:
    """Return the mean time until an array of some drives loses data [h].

    A spare is there at once, any other drive after the time the site states.
    """
    down = (0.0 if spares(case) else repair) + rebuild_hours(case, drive)
    spoilt: Floats = 0.0
    if sectors:
        read = np.subtract(drives, survives) * number(drive.capacity, "B")
        spoilt = odds_of_unreadable(np.maximum(read, 0), number(drive.unreadable))
    fails = hourly_rate(number(drive.failure_rate))
    with np.errstate(divide="ignore", invalid="ignore"):
        return time_to_loss(drives, survives, fails, np.divide(1.0, down), unreadable=spoilt)


def of_wear(case: Case) -> Iterator[Figure | Limit]:
    """Yield how long flash lasts, and the medium the machine starts from."""
    years = of_site(case, "upkeep.years", "years the machine is kept", "years")
    if any(_wears(drive) for drive in fitted(case, Drive).values()):
        yield asked_least(_drive_wear(case), years, 1.0, "Drives have to be replaced before that.")
    if fitted(case, Boot):
        yield asked_least(_boot_wear(case), years, 1.0, "Boot media have to be replaced before.")


def _wears(part: Part) -> bool:
    return isinstance(part, Drive) and (part.wears is None or part.wears.known)


def _endurance(part: Part) -> float:
    return number(part.endurance, "TBW") if isinstance(part, Drive) else math.nan


def _drive_wear(case: Case) -> Figure:
    written = of_site(case, "workload.written", "written each day", "B")
    grown = of_site(case, "workload.write_amplification", "data written for each datum")
    flash = [name for name, drive in fitted(case, Drive).items() if _wears(drive)]
    endurance = case.weighed(lambda name, part: _endurance(part) if name in flash else 0.0)
    worn = case.weighed(lambda name, _: float(name in flash))
    with np.errstate(invalid="ignore"):
        share = worn / case.counted("drive")
    lasts = years_of_writing(endurance * 1e12, written.value * share, grown.value)
    return Figure(
        "storage.wear",
        "years until the drives are written out",
        lasts,
        "years",
        "writes spread evenly over all drives inside",
        years_of_writing,
        (*all_inputs(written, grown), *quoted(flash, case, "endurance", "endurance")),
        all_missing(written, grown) + lacking(flash, case, "endurance"),
        "" if worn.all() else "a build without drives that wear is not written out",
    )


def _boot_wear(case: Case) -> Figure:
    written = of_site(case, "workload.boot_written", "written to it each day", "B")
    media = fitted(case, Boot)
    lasts, there = np.full(case.size, np.inf), np.zeros(case.size, bool)
    for name, medium in media.items():
        years = years_of_writing(number(medium.endurance, "TBW") * 1e12, written.value)
        lasts = np.where(case.has(name), np.minimum(lasts, years), lasts)
        there |= case.has(name)
    return Figure(
        "storage.boot_wear",
        "years until the boot medium is written out",
        np.where(there, lasts, np.nan),
        "years",
        "each medium of a mirror takes every write",
        years_of_writing,
        (*written.inputs, *quoted(media, case, "endurance", "endurance of one")),
        written.missing + lacking(media, case, "endurance"),
        "" if there.all() else "a build without a boot medium starts from its drives",
    )

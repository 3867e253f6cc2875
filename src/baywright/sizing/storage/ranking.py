"""Ranking: every layout of the drives of one build, the most usable first."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from baywright.laws.wording import counted
from baywright.sizing.case import Case
from baywright.sizing.figure import Listing
from baywright.sizing.storage.groups import Group
from baywright.sizing.storage.keeping import rebuild_hours
from baywright.sizing.storage.levels import (
    TB,
    TIB,
    Layout,
    layouts,
    usable_mirrored,
    usable_with_checks,
)
from baywright.sizing.storage.loss import (
    HOURS_A_YEAR,
    hourly_rate,
    odds_of_unreadable,
    odds_within,
    time_to_loss_of_groups,
)
from baywright.sizing.storage.paths import io_of, moved, slowed_by_bays, uplink
from baywright.sizing.storage.space import spares
from baywright.sizing.storage.stated import number, of_site, rate
from baywright.sizing.storage.traffic import (
    drive_time,
    mixed_io,
    response_one_queue,
    throughput,
    utilisation,
)

HEADER = (
    "layout",
    "usable, TB",
    "usable, TiB",
    "drives lost to safety",
    "reads, 1/s",
    "writes, 1/s",
    "mix, 1/s",
    "busy, %",
    "response, ms",
    "reading, GB/s",
    "writing, GB/s",
    "rebuild, h",
    "odds of loss a year, %",
    "with unreadable sectors, %",
)

_NOTE = (
    "Small I/O at random without a cache, in the read-modify-write form; the I/O of the site is "
    "spread evenly over all drives, and the response is that of a drive. Repairs one at a time, "
    "a spare at once and any other drive after the time the site states; the rebuild shares its "
    "drives with the load. Failures are taken as independent: beyond one failure survived the "
    "odds can be off by a factor of two or more."
)


@dataclass(frozen=True, slots=True)
class Rated:
    """A layout with its numbers; not-a-number where one is not decided.

    Args:
        layout: the layout.
        usable: space [B].
        reads: small reads each second [1/s].
        writes: small writes each second [1/s].
        mix: small I/O of the site's mix each second [1/s].
        busy: share of its time that it is busy with the site's I/O.
        response: mean time of an I/O [s].
        reading: data read each second [B/s].
        writing: data written each second [B/s].
        rebuild: rebuild of one drive under that load [h].
        loss: odds of loss in a year, failed drives alone.
        loss_unreadable: the same with unreadable sectors.
    """

    layout: Layout
    usable: float
    reads: float
    writes: float
    mix: float
    busy: float
    response: float
    reading: float
    writing: float
    rebuild: float
    loss: float
    loss_unreadable: float


def of_layouts(case: Case, groups: list[Group]) -> Iterator[Listing]:
    """Yield the layouts of each group of drives, for one build."""
    failures = of_site(case, "workload.failures", "failures to survive")
    survives = int(failures.value) if failures.known else 0
    asked = f"surviving {counted(survives, 'failure')}" if survives else "safe or not"
    for group in groups:
        drives = int(group.counts[0])
        place = f"behind {group.slot}" if group.slot else "without a controller"
        found = ranked(case, group, survives)
        yield Listing(
            f"storage.layouts.{group.slot or 'direct'}.{group.name}",
            f"{drives} x {group.drive.name} {place}: layouts {asked}",
            HEADER,
            tuple(_row(each) for each in found),
            _NOTE if found else "No layout of the list survives that with so many drives.",
            time_to_loss_of_groups,
        )


def ranked(case: Case, group: Group, survives: int) -> list[Rated]:
    """Return the layouts of a group of drives, the most usable first, then the safest."""
    drives = int(group.counts[0])
    every = {
        layout
        for kept in {spares(case), spares(case) + 1}
        for layout in layouts(drives, kept, survives)
    }
    return sorted((rated(case, group, each) for each in every), key=_order)


def _order(of: Rated) -> tuple[float, bool, float, str]:
    odds = of.loss_unreadable if not math.isnan(of.loss_unreadable) else of.loss
    return (-of.usable, math.isnan(odds), 0.0 if math.isnan(odds) else odds, _name(of.layout))


def rated(case: Case, group: Group, layout: Layout) -> Rated:
    """Return what one layout gives, in the surroundings of a case of one build."""
    level, drive = layout.level, group.drive
    reads, writes = rate(drive.reads, "IO/s"), rate(drive.writes, "IO/s")
    most = float(io_of(case, group.slot)[0]) if group.slot else math.inf

    def of_mix(share: float) -> float:
        busy = drive_time(share, reads, writes, level.reads, level.writes)
        return float(mixed_io(layout.drives, busy, most))

    share = of_site(case, "workload.reads", "share of reads").value
    mix = of_mix(share)
    wanted = of_site(case, "workload.io_rate", "I/O wanted", "IO/s").value
    part = float(group.counts[0] / case.counted("drive")[0])
    busy = float(utilisation(wanted * part, mix))
    service = float(np.divide(share, reads) + np.divide(1 - share, writes))
    load = 0.0 if math.isnan(busy) else busy
    links = _links(case, group.slot)
    reading = rate(drive.read_rate, "B/s") / float(np.maximum(1.0, slowed_by_bays(case, group)))
    return Rated(
        layout,
        usable=_usable(layout, number(drive.capacity, "B")),
        reads=of_mix(1.0),
        writes=of_mix(0.0),
        mix=mix,
        busy=busy,
        response=float(response_one_queue(service, busy)),
        reading=float(throughput(layout.data_drives, reading, *links)),
        writing=float(throughput(layout.data_drives, rate(drive.write_rate, "B/s"), *links)),
        rebuild=rebuild_hours(case, drive, load),
        loss=_odds(case, group, layout, load, sectors=False),
        loss_unreadable=_odds(case, group, layout, load, sectors=True),
    )


def _links(case: Case, slot: str | None) -> tuple[float, ...]:
    return (float(uplink(case, slot)[0]), float(moved(case, slot)[0])) if slot else ()


def _usable(layout: Layout, capacity: float) -> float:
    level = layout.level
    if level.copies > 1:
        return float(usable_mirrored(layout.drives, level.copies, capacity))
    return float(usable_with_checks(layout.drives, layout.groups, level.checks, capacity))


def _odds(case: Case, group: Group, layout: Layout, load: float, *, sectors: bool) -> float:
    """Return the odds that a layout loses data in a year."""
    drive, level = group.drive, layout.level
    repair = of_site(case, "upkeep.repair", "time to a healthy part", "h").value
    down = (0.0 if layout.spares else repair) + rebuild_hours(case, drive, load)
    read = (layout.size - level.survives) * number(drive.capacity, "B")
    spoilt = float(odds_of_unreadable(read, number(drive.unreadable))) if sectors else 0.0
    fails = float(hourly_rate(number(drive.failure_rate)))
    if level.survives == 0:
        # Nothing is ever rebuilt from checks, so neither repairs nor sectors come into it.
        down, spoilt = 1.0, 0.0
    if math.isnan(down + spoilt + fails) or down <= 0 or fails <= 0:
        return math.nan
    mean = time_to_loss_of_groups(
        layout.groups, layout.size, level.survives, fails, 1 / down, unreadable=spoilt
    )
    return float(odds_within(HOURS_A_YEAR, mean))


def _name(layout: Layout) -> str:
    shape = f"{layout.groups} x {layout.size}" if layout.groups > 1 else f"{layout.size}"
    spare = f" + {layout.spares} spare" if layout.spares else ""
    return f"{layout.level.name} of {shape}{spare}"


def _row(of: Rated) -> tuple[str, ...]:
    lost = of.layout.drives + of.layout.spares - of.layout.data_drives
    return (
        _name(of.layout),
        _text(of.usable / TB, 2),
        _text(of.usable / TIB, 2),
        _text(lost, 0),
        *(_text(each, 0) for each in (of.reads, of.writes, of.mix)),
        _text(of.busy * 100, 1),
        "near saturation"
        if of.busy > 0 and math.isnan(of.response)
        else _text(of.response * 1e3, 2),
        _text(of.reading / 1e9, 2),
        _text(of.writing / 1e9, 2),
        _text(of.rebuild, 1),
        _odds_text(of.loss),
        _odds_text(of.loss_unreadable),
    )


def _text(value: float, digits: int) -> str:
    return "not decided" if math.isnan(value) else f"{value:,.{digits}f}"


def _odds_text(odds: float) -> str:
    return "not decided" if math.isnan(odds) else f"{odds * 100:.2g}"

"""Builds and a site to ask sizing with: every part in some build, a site that says all."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from baywright.desk.opening import Opened
from baywright.engines.contract import Assumptions, Possible
from baywright.facts.book import Book
from baywright.facts.site import Site
from baywright.files.books import Texts, site_from
from baywright.laws.builds import parts_list
from baywright.laws.machine import Machine
from baywright.sizing.case import Case, Surroundings

_SITE: Mapping[str, Texts] = {
    "altitude": "0 m",
    "inlet": "25 °C",
    "feeds": {
        "A": {"current": "32 A", "continuous": "80 %", "leakage_most": "30 mA", "cord": "16 A"}
    },
    "ups": {"energy": "5 MJ", "to_load": "90 %", "aged": "80 %", "ride_through": "5 min"},
    "room": {"heat_most": "20 kW", "noise_most": "80 dB(A)", "volume": "60 m³", "rise": "5 K"},
    "rack": {
        "units": "40",
        "mass_most": "600 kg",
        "mass_empty": "120 kg",
        "centre_height": "900 mm",
        "centre_depth": "500 mm",
        "width": "600 mm",
        "depth": "1000 mm",
        "setback": "100 mm",
        "mounted_at": "800 mm",
        "floor_most": "1500 kg",
        "depth_free": "1000 mm",
        "rails": "720 mm",
    },
    "lift": {
        "horizontal": "400 mm", "vertical": "700 mm", "travel": "500 mm", "coupling": "good"
    },
    "workload": {
        "reads": "70 %",
        "io_size": "4 kB",
        "io_rate": "1000 IO/s",
        "data": "1 TB",
        "written": "1 TB",
        "write_amplification": "2",
        "boot_written": "10 GB",
        "backup": "1 TB",
        "backup_window": "8 h",
        "backups_kept": "1",
        "failures": "1",
        "spares": "0",
    },
    "upkeep": {
        "repair": "24 h",
        "rebuild_rate": "100 MB/s",
        "years": "5 years",
        "machines": "10",
        "lead_time": "14 d",
        "unit_failure_rate": "1 %",
        "service_level": "99 %",
        "network_failure_rate": "1 %",
        "feed_failure_rate": "1 %",
        "down_time_most": "8 h",
    },
}  # fmt: skip
"""A site that states about everything, so that what stays open is the book's. Values of no machine:
only whether a figure can be computed is read from the result."""


def full_site(book: Book) -> Site:
    """Return a site that states all that a figure may ask of it, at a voltage of the book."""
    line = next(iter(book.power.lines.values()), None)
    volts = {"voltage": line.volts_to.text} if line and line.volts_to.value is not None else {}
    price = {"tariff": {"price": f"1 {book.book.currency}", "per": "1 kWh"}}
    return site_from({**_SITE, **volts, **price})


def covering(opened: Opened, machine: Machine) -> list[Mapping[str, int]]:
    """Return legal builds that together have every part that some legal build has.

    Args:
        opened: the book, whose engines find them.
        machine: the compiled book.
    """
    prover, limit = opened.panel.prover, opened.panel.limit
    builds: list[Mapping[str, int]] = []
    seen: set[str] = set()
    for part in machine.book.parts:
        if part in seen:
            continue
        for choice, indexes in _with(machine, part):
            found = prover.prove(machine.space, Assumptions({choice: indexes}), limit)
            if isinstance(found, Possible):
                builds.append(found.values)
                seen |= parts_list(machine, found.values).keys()
                break
    return builds


def _with(machine: Machine, part: str) -> list[tuple[str, frozenset[int]]]:
    """Return by choice the values that put a part into the machine."""
    found = []
    for name, fitting in machine.frame.fittings.items():
        indexes = frozenset(
            at
            for at, option in enumerate(fitting.options)
            if any(each == part for each, _ in option.parts)
        )
        if indexes and not fitting.derived:
            found.append((name, indexes))
    return found


def case_for(machine: Machine, builds: list[Mapping[str, int]], site: Site) -> Case:
    """Return builds as sizing reads them."""
    codes = {
        name: np.array([build[name] for build in builds], np.intp)
        for name, fitting in machine.frame.fittings.items()
        if not fitting.derived
    }
    return Case(machine.frame, codes, Surroundings.of(site))

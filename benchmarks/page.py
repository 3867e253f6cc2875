"""The page of measurements, docs/benchmarks.md: what was wanted, what was measured, and on what."""

from __future__ import annotations

import datetime
import os
import platform
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path

from benchmarks.tables import Finding, Table, Wanted, markdown, wanted_table

PAGE = Path(__file__).parents[1] / "docs" / "benchmarks.md"

SPACES = (
    "The spaces: two-socket is a synthetic platform in a file beside the repository, f2 and l4 are "
    "books of the demo, all others are drawn with a seed by `benchmarks/platforms.py`."
)

LIBRARIES = ("clingo", "ortools", "numpy", "numba", "python-constraint2")


def write(findings: Sequence[Finding], load: float) -> None:
    """Write the page.

    Args:
        findings: everything measured, in order.
        load: processes that were waiting for a processor when the run began.
    """
    PAGE.write_text(page(findings, load), encoding="utf-8")


def page(findings: Sequence[Finding], load: float) -> str:
    """Return the page."""
    figures = [each for each in findings if isinstance(each, Wanted)]
    tables = [each for each in findings if isinstance(each, Table)]
    day = datetime.datetime.now(datetime.UTC).date().isoformat()
    made = (
        f"Measured on {day} in one run, with `make bench NAMES=--table`, which writes this page. "
        "Answers of different engines are compared in the run, and one that differs ends it."
    )
    parts = ["# Benchmarks", "", made, "", machine(load), "", SPACES, ""]
    for table in [wanted_table(figures)] * bool(figures) + tables:
        parts += [markdown(table), ""]
    return "\n".join(parts)


def machine(load: float) -> str:
    """Return what the measurements were made on, in a sentence or two."""
    memory = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 1e9
    libraries = ", ".join(f"{name} {version(name)}" for name in LIBRARIES)
    return (
        f"The machine: {os.cpu_count()} cores ({platform.machine()}, {platform.system()}), "
        f"{memory:.0f} GB of memory, Python {platform.python_version()}, {libraries}. When the run "
        f"began, the load of the machine was {load:.1f}; other work on it lengthens every time."
    )

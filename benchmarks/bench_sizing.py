"""Sizing: all figures and limits of many builds at once, and the page of one build."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable, Iterator
from functools import partial

import numpy as np

from baywright.desk.random_builds import Draw, random_builds
from baywright.desk.size.sized import size
from baywright.facts.site import Site
from baywright.files.books import bundled_books, read_build, site_from
from baywright.sizing.case import Case, Surroundings
from baywright.sizing.registry import SUBJECTS
from baywright.sizing.sizes import margins, sizes
from benchmarks.grounds import opened
from benchmarks.tables import Finding, Table, Wanted

BUILDS = 1_000
RUNS = 5


def findings() -> Iterator[Finding]:
    """Yield what sizing takes, in all and by subject."""
    case = _drawn(BUILDS)
    figures, limits = sizes(case), margins(case)
    whole = _least(lambda: (sizes(case), margins(case)))
    yield Wanted(f"{BUILDS:,} builds of f2 sized", whole, 2.0, None, "s")
    taken = ((each.title, _least(partial(each.sheet, case))) for each in SUBJECTS)
    rows = [(title, f"{seconds * 1000:.1f}") for title, seconds in taken]
    yield Table(
        f"Sizing {BUILDS:,} builds of f2, in milliseconds",
        ("subject", "least"),
        (*rows, ("all, with margins", f"{whole * 1000:.1f}")),
        f"Legal builds drawn at random, {len(figures)} figures and {len(limits)} limits of each, "
        f"230 V, 1,200 m, air taken in at 25 °C; least of {RUNS} runs.",
    )
    yield _page()


def _drawn(number: int) -> Case:
    held = opened("f2")
    drawn = random_builds(held, Draw(number, seed=1)).builds
    frame = held.machine.frame
    names = [name for name, fitting in frame.fittings.items() if not fitting.derived]
    codes = {name: np.array([build.values[name] for build in drawn]) for name in names}
    return Case(frame, codes, Surroundings.of(_site()))


def _site() -> Site:
    return site_from({"voltage": "230 V", "altitude": "1200 m", "inlet": "25 °C"})


def _least(work: Callable[[], object]) -> float:
    return min(_seconds(work) for _ in range(RUNS))


def _seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def _page() -> Table:
    held = opened("f2")
    build = read_build(bundled_books()["f2"] / "builds" / "n4.yaml")
    taken = [_seconds(lambda: size(held, build, build.site)) for _ in range(RUNS)]
    row = ("n4", f"{statistics.median(taken) * 1000:.0f}", f"{max(taken) * 1000:.0f}")
    return Table(
        "The page of limits of one build, in milliseconds",
        ("build", "median", "most"),
        (row,),
        "Whether it is legal, every figure and limit, five sweeps and all tables.",
    )

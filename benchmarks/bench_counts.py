"""Exact numbers of builds, with and without the budget, before and after a choice."""

from __future__ import annotations

import math
import statistics
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from baywright.engines.contract import NOTHING, Assumptions
from baywright.engines.diagram import Diagram
from baywright.space import Space
from benchmarks.apart import apart
from benchmarks.grounds import SET_FOR, Ground, diagram, grounds, note, slack, states
from benchmarks.tables import Finding, Table, Wanted, milliseconds, timed

CAP = 30.0
"""Seconds that a first count may take, with what it takes to start a process and load the space."""

QUICK = 3.0
"""Seconds below which a count is asked for more than once or twice."""

STATES = 6

KNOWN = {
    "two-socket": (
        232_659_900_397_918_257_259_391_350_359_573_342_834,
        291_722_052_167_726_649_731_880_933_411_319_069_440,
    )
}
"""Counts with and without the budget that stand in a note beside the file; each was found by two
engines that are no part of this program."""


@dataclass(frozen=True, slots=True)
class Counted:
    """What counting one space took, in seconds; empty where the cap was reached.

    Args:
        cold: first counts of an engine that has the compiled space and nothing else.
        after: counts after choices.
        free: counts without the budget.
        values: counts of all values of all choices at once.
        builds: the number of builds.
        free_builds: the number without the budget.
    """

    cold: list[float]
    after: list[float]
    free: list[float]
    values: list[float]
    builds: int
    free_builds: int


def findings() -> Iterator[Finding]:
    """Yield the table, and the figures that were set."""
    found = {ground.name: _counted(ground) for ground in grounds()}
    yield Table(
        "Exact counts, in milliseconds",
        ("space", "builds", "cold", "after a choice", "most", "without budget", "all values"),
        tuple(_row(name, counted) for name, counted in found.items()),
        "Medians, of all values the least; cold is the first count of a compiled space in a "
        f"process of its own, given up after {CAP:g} s. Counts equal those that are known; where a "
        f"count takes less than {QUICK:g} s, those for the values of one choice add up to the "
        "whole. All values: the builds that have each value of each choice, told at once. "
        f"{note()}",
    )
    for name, counted in found.items():
        yield from _figures(name, counted)


def _counted(ground: Ground) -> Counted:
    space = ground.space
    budget = {ground.budget} if ground.budget else set(diagram().describe(space).budget)
    without = space.without(budget)
    free_builds = diagram().count(without)
    free = [_seconds(without, NOTHING) for _ in range(5)]
    cold = _cold(ground)
    quick = bool(cold) and max(cold) < QUICK
    builds = diagram().count(space) if cold else 0
    given = states(space, STATES if quick else 2, most=2) if cold else []
    after = [_seconds(space, each) for each in given]
    values = [timed(diagram().count_values, space)[0] for _ in range(3)] if quick else []
    _check(ground, builds, free_builds, quick)
    return Counted(cold, after, free, values, builds, free_builds)


def _cold(ground: Ground) -> list[float]:
    """Return the seconds of first counts, each in a process of its own, or nothing at the cap."""
    found: list[float] = []
    with tempfile.TemporaryDirectory() as folder:
        Diagram(folder=Path(folder)).describe(ground.space)
        while len(found) < 3 and max(found, default=0.0) < QUICK:
            seconds = apart("count", ground.name, folder, CAP)
            if seconds is None:
                return []
            found += seconds
    return found


def _seconds(space: Space, given: Assumptions) -> float:
    return timed(diagram().count, space, given)[0]


def _check(ground: Ground, builds: int, free_builds: int, quick: bool) -> None:  # noqa: FBT001
    if ground.name in KNOWN and KNOWN[ground.name] != (builds, free_builds):
        raise RuntimeError(f"the counts of {ground.name} are not those that are known")
    if quick:
        space = ground.space
        own = (choice for choice in space.choices if choice.size > 1 and not choice.derived)
        split = min(own, key=lambda choice: choice.size)
        parts = (Assumptions({split.name: frozenset({v})}) for v in range(split.size))
        if sum(diagram().count(space, part) for part in parts) != builds:
            raise RuntimeError(f"the counts of {ground.name} do not add up")


def _row(name: str, found: Counted) -> tuple[str, ...]:
    late = "not finished"
    return (
        name,
        f"{found.builds:.3e}" if found.builds else f"{found.free_builds:.3e} (no budget)",
        milliseconds(statistics.median(found.cold)) if found.cold else late,
        milliseconds(statistics.median(found.after)) if found.after else late,
        milliseconds(max(found.after)) if found.after else late,
        milliseconds(statistics.median(found.free)),
        milliseconds(min(found.values)) if found.values else late,
    )


def _figures(name: str, found: Counted) -> Iterator[Wanted]:
    cold = statistics.median(found.cold) if found.cold else math.inf
    yield Wanted(f"count with the budget, cold, {name}", cold, 3 * slack(name), 0.5, "s")
    if name in SET_FOR:
        after, free = statistics.median(found.after), statistics.median(found.free) * 1000
        yield Wanted(f"count after a choice, {name}", after, 0.5, None, "s")
        yield Wanted(f"count without the budget, {name}", free, 50, 5, "ms")

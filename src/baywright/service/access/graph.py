"""The and-or graph of access: barriers, the ways past them, and the jobs behind them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

Ways: TypeAlias = tuple[frozenset[str], ...]
"""Ways in: of one of them, every barrier has to be off. No way at all is never in."""

FREE: Ways = (frozenset(),)
"""The ways of what lies behind nothing."""


@dataclass(frozen=True, slots=True)
class Barrier:
    """Something that is stopped, pulled, opened, taken off or waited for on the way in.

    Args:
        ways: what has to be off before it, one way of several.
        out: time to take it off [s].
        back: time to put it back [s].
        longest: longest it may be off while the machine runs [s], or ``None`` for any time. What
            may not be off at all while it runs has the stop among its ways.
        silent: whether nothing is done when it is put back, as after a wait.
    """

    ways: Ways
    out: Fraction
    back: Fraction
    longest: Fraction | None = None
    silent: bool = False


@dataclass(frozen=True, slots=True)
class Job:
    """Work on a number of parts alike.

    Args:
        ways: what has to be off for it, one way of several.
        time: time for one of them [s].
        number: how many of them.
    """

    ways: Ways
    time: Fraction
    number: int = 1


@dataclass(frozen=True, slots=True)
class Graph:
    """All that has to be known to find a plan.

    Args:
        barriers: by name, in the order in which equal plans take them.
        jobs: by name.
        power: name of the barrier that is off while the machine is.
    """

    barriers: Mapping[str, Barrier]
    jobs: Mapping[str, Job]
    power: str = "power"


def is_open(ways: Ways, off: Iterable[str]) -> bool:
    """Say whether one of some ways is open when some barriers are off."""
    held = frozenset(off)
    return any(way <= held for way in ways)


def both(first: Ways, second: Ways) -> Ways:
    """Return the ways to what lies behind two things at once.

    >>> both((frozenset("a"), frozenset("b")), (frozenset("c"),)) == (
    ...     frozenset("ac"),
    ...     frozenset("bc"),
    ... )
    True
    """
    return tuple(dict.fromkeys(one | other for one in first for other in second))


def reachable(graph: Graph, *, running: bool = False) -> frozenset[str]:
    """Return the barriers that can come off at all, or while the machine runs.

    How long they may be off then is left out of account.
    """
    off: frozenset[str] = frozenset()
    while True:
        found = {
            name
            for name, barrier in graph.barriers.items()
            if is_open(barrier.ways, off) and not (running and name == graph.power)
        }
        if found <= off:
            return off
        off |= found


def relevant(graph: Graph) -> frozenset[str]:
    """Return the barriers that lie on some way to some job, from the outside in."""
    waiting = [name for job in graph.jobs.values() for way in job.ways for name in way]
    found: set[str] = set()
    while waiting:
        name = waiting.pop()
        if name not in found and name in graph.barriers:
            found.add(name)
            waiting += [other for way in graph.barriers[name].ways for other in way]
    return frozenset(found)


def needed_by_all(graph: Graph) -> dict[str, frozenset[str]]:
    """Return, for each barrier and each job, the barriers that are off for it whatever the way.

    Names of jobs stand behind ``job: ``. What no way leads to needs every barrier.
    """
    everything = frozenset(graph.barriers)
    behind = {name: barrier.ways for name, barrier in graph.barriers.items()}
    behind |= {f"job: {name}": job.ways for name, job in graph.jobs.items()}
    found = dict.fromkeys(behind, everything)
    while True:
        closer = {name: _on_all(ways, found, everything) for name, ways in behind.items()}
        if closer == found:
            return found
        found = closer


def _on_all(
    ways: Ways, found: Mapping[str, frozenset[str]], everything: frozenset[str]
) -> frozenset[str]:
    whole = (way.union(*(found.get(name, everything) for name in way)) for way in ways)
    return everything.intersection(*whole) if ways else everything

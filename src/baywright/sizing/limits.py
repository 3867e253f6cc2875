"""Limits: which is the nearest, and which breaks first as one thing rises or falls."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from baywright.sizing.case import Case, Swept
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Limit, Sheet
from baywright.sizing.registry import SUBJECTS
from baywright.sizing.subject import Subject

STEPS = 256
"""Steps of one round; four rounds find a crossing to a part in four billion of the sweep."""

ROUNDS = 4


@dataclass(frozen=True, slots=True)
class Sweep:
    """One thing about the surroundings that changes while all else stays.

    Args:
        name: what changes and which way, such as ``altitude rises``.
        what: the one thing of the surroundings.
        unit: its unit.
        start: where it starts when the site does not say.
        end: where it ends.
    """

    name: str
    what: Swept
    unit: str
    start: float | None
    end: float


SWEEPS = (
    Sweep("load rises", "extra", "W", 0.0, 20_000.0),
    Sweep("altitude rises", "altitude", "m", 0.0, 11_000.0),
    Sweep("inlet temperature rises", "inlet", "°C", 15.0, 75.0),
    Sweep("voltage falls", "volts", "V", None, 40.0),
    Sweep("voltage rises", "volts", "V", None, 500.0),
)
"""What may change. The voltage starts from that of the site, or is left out."""


@dataclass(frozen=True, slots=True)
class Crossing:
    """Where a limit is passed.

    Args:
        limit: the limit, as it is before anything changes.
        sweep: what changes.
        at: the first value past the limit, in the unit of the sweep.
        known: false where the limit is only no longer decided from there on.
    """

    limit: Limit
    sweep: Sweep
    at: float
    known: bool


def sheets(case: Case) -> Mapping[str, Sheet]:
    """Return what every subject of sizing says, by its name."""
    return MappingProxyType({subject.name: subject.sheet(case) for subject in SUBJECTS})


def nearest_first(limits: Iterable[Limit]) -> list[Limit]:
    """Return limits of one build, the least margin first; those not decided come last."""
    return sorted(limits, key=lambda limit: (np.isnan(_margin(limit)), _margin(limit)))


def _margin(limit: Limit) -> float:
    return float(np.ravel(limit.margin)[0])


def first_to_break(case: Case, sweep: Sweep) -> list[Crossing]:
    """Return the limits that a build passes along a sweep, the first to break first.

    Limits that are passed or not decided at the start are left out; so is a sweep whose start
    nobody said. A limit that is passed and holds again within a step of the sweep can be missed.

    Args:
        case: one build.
        sweep: what changes.
    """
    start = _start(case, sweep)
    if start is None or start == sweep.end:
        return []
    crossings = [each for subject in SUBJECTS for each in _of_subject(subject, case, sweep, start)]
    return sorted(crossings, key=lambda crossing: abs(crossing.at - start))


def _of_subject(subject: Subject, case: Case, sweep: Sweep, start: float) -> Iterator[Crossing]:
    whole = np.linspace(start, sweep.end, STEPS + 1)
    passed = {
        key: found
        for key, rooms in _rooms(subject, case, sweep, whole).items()
        if (found := _bracket(whole, rooms)) is not None
    }
    if not passed:
        return
    for _ in range(ROUNDS - 1):
        passed = _narrowed(subject, case, sweep, passed)
    limits = {limit.figure.key: limit for limit in subject.sheet(case).limits}
    for key, found in passed.items():
        yield Crossing(limits[key], sweep, found.after, found.known)


def _start(case: Case, sweep: Sweep) -> float | None:
    said = getattr(case.around, sweep.what)
    start = sweep.start if said is None else float(said)
    rises = sweep.name.endswith("rises")
    return start if start is None or (start < sweep.end) == rises else sweep.end


def _rooms(subject: Subject, case: Case, sweep: Sweep, values: Reals) -> dict[str, Reals]:
    """Return what is left of each limit of a subject at each value of a sweep."""
    limits = subject.sheet(case.amid(case.around.changed(sweep.what, values))).limits
    return {limit.figure.key: np.broadcast_to(limit.room, values.shape) for limit in limits}


@dataclass(frozen=True, slots=True)
class _Bracket:
    """A limit holds before and is passed, or no longer decided, after."""

    before: float
    after: float
    known: bool


def _bracket(values: Reals, rooms: Reals) -> _Bracket | None:
    holds = rooms >= 0
    if not holds[0] or holds.all():
        return None
    first = int(np.argmin(holds))
    return _Bracket(float(values[first - 1]), float(values[first]), bool(np.isfinite(rooms[first])))


def _narrowed(
    subject: Subject, case: Case, sweep: Sweep, brackets: Mapping[str, _Bracket]
) -> dict[str, _Bracket]:
    """Look again between the ends of every bracket, all of them in one go."""
    grids = {
        key: np.linspace(found.before, found.after, STEPS + 1) for key, found in brackets.items()
    }
    rooms = _rooms(subject, case, sweep, np.concatenate(list(grids.values())))
    narrowed = {}
    for position, (key, grid) in enumerate(grids.items()):
        mine = rooms[key][position * grid.size : (position + 1) * grid.size]
        narrowed[key] = _bracket(grid, mine) or brackets[key]
    return narrowed

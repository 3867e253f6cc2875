"""Sizing a build: its figures, its limits, what breaks first, and which unknown facts matter."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from baywright.answers.verdicts import Verdict
from baywright.desk.judging import judge_build
from baywright.desk.opening import Opened
from baywright.facts.build import Build
from baywright.facts.references import check_build
from baywright.facts.site import Site
from baywright.laws.builds import codes_of
from baywright.laws.machine import Machine
from baywright.problems import Problems
from baywright.sizing.case import Case, Surroundings
from baywright.sizing.figure import Limit, Listing, Sheet
from baywright.sizing.limits import SWEEPS, Crossing, Sweep, first_to_break, nearest_first, sheets
from baywright.sizing.registry import SUBJECTS


@dataclass(frozen=True, slots=True)
class Dependence:
    """An unknown fact that a limit depends on.

    Args:
        path: the fact.
        outcomes: for each value it could have, the limits that come out otherwise than with the
            first value, with what is left of each in words of its unit.
    """

    path: str
    outcomes: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True)
class Sized:
    """A build with its figures and limits at one site.

    Args:
        build: the build as written.
        case: the same as sizing reads it.
        verdict: whether it is legal there, whatever else it must have.
        sheets: figures and limits by subject.
        limits: all limits, the least margin first.
        breaks: for each thing that can change, the limits passed along it, first to break first.
        listings: tables by subject.
        unstated: places of which the build says nothing; they are taken as empty.
        depends: unknown facts that change a limit.
    """

    build: Build
    case: Case
    verdict: Verdict
    sheets: Mapping[str, Sheet]
    limits: tuple[Limit, ...]
    breaks: tuple[tuple[Sweep, tuple[Crossing, ...]], ...]
    listings: Mapping[str, tuple[Listing, ...]]
    unstated: tuple[str, ...]
    depends: tuple[Dependence, ...]


def size(opened: Opened, build: Build, site: Site) -> Sized:
    """Size a build.

    Args:
        opened: the book, opened for the altitude and inlet of the site.
        build: the build.
        site: where it stands; ``build.site`` is not read.

    Raises:
        Problems: for what the build names and the book does not have.
    """
    there = build.model_copy(update={"site": site})
    problems = check_build(there, opened.book)
    if problems:
        raise Problems(problems)
    worlds = opened.in_worlds(lambda machine: sheets(case_of(machine, there)))
    world, found = worlds[0]
    case = case_of(world.machine, there)
    return Sized(
        there,
        case,
        judge_build(opened, there.model_copy(update={"must": []}), nearby=0).verdict,
        found,
        tuple(nearest_first(limit for sheet in found.values() for limit in sheet.limits)),
        tuple((sweep, tuple(first_to_break(case, sweep))) for sweep in SWEEPS),
        {subject.name: tuple(subject.listings(case)) for subject in SUBJECTS},
        tuple(name for name in opened.book.places if name not in build.places),
        tuple(_depends([(each.given, _limits(sheet)) for each, sheet in worlds])),
    )


def case_of(machine: Machine, build: Build) -> Case:
    """Return a build as sizing reads it, at its own site."""
    codes = {name: np.array([code]) for name, code in codes_of(machine, build).items()}
    return Case(machine.frame, codes, Surroundings.of(build.site))


def _limits(found: Mapping[str, Sheet]) -> dict[str, Limit]:
    return {limit.figure.key: limit for sheet in found.values() for limit in sheet.limits}


def _depends(
    worlds: list[tuple[Mapping[str, str], dict[str, Limit]]],
) -> Iterator[Dependence]:
    """Yield each unknown fact that changes what is left of a limit, all others as at first."""
    given, first = worlds[0]
    for path in given:
        outcomes = tuple(
            (other[path], tuple(_changed(first, limits)))
            for other, limits in worlds
            if all(other[each] == given[each] for each in given if each != path)
        )
        if any(changed for _, changed in outcomes):
            yield Dependence(path, outcomes)


def _changed(first: Mapping[str, Limit], other: Mapping[str, Limit]) -> Iterator[str]:
    for key, limit in other.items():
        before, after = first[key].room, limit.room
        if not np.allclose(before, after, equal_nan=True):
            unit = limit.figure.unit
            yield f"{limit.figure.name}: {float(np.ravel(after)[0]):,.4g} {unit} left"

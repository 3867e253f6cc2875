"""Faults: what can be behind what is seen, what to check next, and the whole decision tree."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from baywright.desk.opening import Opened
from baywright.desk.service.faults_minutes import Efforts, efforts_of
from baywright.desk.service.losing import graph_in
from baywright.facts.access import CORDS, POWER
from baywright.facts.build import Build
from baywright.facts.faults import NO_POWER, STOPPED
from baywright.facts.references import check_build
from baywright.facts.site import Site
from baywright.laws.machine import Machine
from baywright.problems import Problems
from baywright.service.faults.checks import (
    Check,
    cases_of,
    check_of_look,
    check_of_swap,
    known_signs,
    ranked,
    telling,
)
from baywright.service.faults.classes import Classes, classes_of, seen_by
from baywright.service.faults.found import Fault, faults_of
from baywright.service.faults.naming import nothing_else, observations_of
from baywright.service.faults.search import Look, Solution, Task, solve
from baywright.service.faults.signs import OUTSIDE, Faults, Sign, Way, signs_of, there
from baywright.service.faults.suspects import Explained, Observation, Suspect, explain
from baywright.service.faults.tree import Node, tree_of
from baywright.service.losing.graph import Graph
from baywright.service.losing.items import RUNS, STARTS

Cover: TypeAlias = Literal["on", "off"]
Cords: TypeAlias = Literal["in", "out"]


@dataclass(frozen=True, slots=True)
class FaultRequest:
    """What is asked about faults, as typed.

    Args:
        seen: what is seen.
        not_seen: what is looked for and not seen.
        nothing_else: whether nothing else is seen of what can be seen as things stand.
        cover: whether covers are off already.
        cords: whether the machine is stopped and its cords are out already, covers off.
    """

    seen: tuple[str, ...] = ()
    not_seen: tuple[str, ...] = ()
    nothing_else: bool = False
    cover: Cover = "on"
    cords: Cords = "in"


@dataclass(frozen=True, slots=True)
class Tree:
    """A decision tree with what its numbers stand for.

    Args:
        faults: the faults, in the order in which the tree numbers them; one that can show a sign
            and need not stands there once with it and once without.
        ways: the ways of looking, likewise.
        root: the tree.
        solution: how good it is.
        left_out: suspects without a stated rate, which it leaves out.
    """

    faults: tuple[Fault, ...]
    ways: tuple[Way, ...]
    root: Node
    solution: Solution
    left_out: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True)
class Stage:
    """What is known after some ways of looking, with and without an optional part.

    Args:
        ways: the ways of looking.
        fitted: classes of single faults with the part.
        bare: classes without it.
    """

    ways: tuple[Way, ...]
    fitted: Classes
    bare: Classes


@dataclass(frozen=True, slots=True)
class Worth:
    """What the signs of an optional part are worth.

    Args:
        part: id or kind of the part.
        there: whether the build has it.
        stages: suspects left, after more and more ways of looking.
        fitted: the tree over all single faults with it, or ``None`` where no rate is stated.
        bare: that tree without it.
    """

    part: str
    there: bool
    stages: tuple[Stage, ...]
    fitted: Tree | None
    bare: Tree | None


@dataclass(frozen=True)
class Findings:
    """What is found in one world.

    Args:
        faults: everything that can be at fault.
        signs: everything that can be seen, the signs of optional parts included.
        fitted: ids and kinds of the parts of the build.
        opened: ways of looking for which everything is open already.
        observations: what is seen and what is not.
        explained: what can be behind it.
        efforts: what each check takes.
        checks: checks that tell something, the most a minute first.
        tree: what to do, whatever comes out, or ``None`` where it takes two faults or no rate is
            stated.
        worth: what optional parts are worth, where nothing is seen and nothing is open yet.
    """

    faults: tuple[Fault, ...]
    signs: tuple[Sign, ...]
    fitted: frozenset[str]
    opened: tuple[Way, ...]
    observations: tuple[Observation, ...]
    explained: Explained
    efforts: Efforts
    checks: tuple[Check, ...]
    tree: Tree | None
    worth: tuple[Worth, ...]

    @property
    def there(self) -> tuple[Sign, ...]:
        """The signs that the build has."""
        return there(self.signs, self.fitted)


@dataclass(frozen=True)
class Diagnosis:
    """Findings for each way the unknown facts of the book could be.

    Args:
        opened: the book.
        build: the build with the site that counts.
        asked: what was asked.
        worlds: what unknown facts are taken to be, and what is found then.
    """

    opened: Opened
    build: Build
    asked: FaultRequest
    worlds: tuple[tuple[Mapping[str, str], Findings], ...]


def diagnose(
    opened: Opened, build: Build, asked: FaultRequest, site: Site | None = None
) -> Diagnosis:
    """Say what can be behind what is seen of a build, and how to find out.

    Args:
        opened: the book.
        build: the build.
        asked: what is seen.
        site: where it stands; that of the build unless given.

    Raises:
        Problems: for what the book or the build does not have.
    """
    standing = build.model_copy(update={"site": site or build.site})
    problems = check_build(standing, opened.book)
    if problems:
        raise Problems(problems)
    worlds = opened.in_worlds(lambda machine: _found(machine, standing, asked))
    found = [each for _, each in worlds]
    same = all(_alike(each, found[0]) for each in found)
    held = [({}, found[0])] if same else [(world.given, each) for world, each in worlds]
    return Diagnosis(opened, standing, asked, tuple(held))


def _alike(one: Findings, other: Findings) -> bool:
    """Say whether two worlds come to the same; trees follow from what is compared."""
    return (one.faults, one.signs, one.explained, one.efforts, one.checks) == (
        other.faults, other.signs, other.explained, other.efforts, other.checks
    )  # fmt: skip


def _found(machine: Machine, build: Build, asked: FaultRequest) -> Findings:
    case, graph = graph_in(machine, build)
    faults = faults_of(graph.standing, {thing.id: thing.name for thing in graph.things})
    signs = signs_of(machine.book, faults, _perhaps(graph, machine, faults))
    fitted = _fitted(graph)
    seen_now = there(signs, fitted)
    ways = tuple(dict.fromkeys((OUTSIDE, *(sign.way for sign in signs))))
    opened = tuple(way for way in ways if _is_open(way, asked))
    observations = observations_of(signs, fitted, asked.seen, asked.not_seen)
    if asked.nothing_else:
        observations += nothing_else(seen_by(seen_now, opened), observations)
    explained = explain(faults, observations, seen_now)
    efforts = efforts_of(case, build, faults, signs, opened)
    known = known_signs(observations)
    unknown = [sign for sign in seen_now if sign.key not in known]
    return Findings(
        faults,
        signs,
        fitted,
        opened,
        observations,
        explained,
        efforts,
        _checks(explained.suspects, faults, unknown, efforts),
        _tree(explained.suspects, unknown, efforts),
        tuple(_worth(faults, signs, fitted, efforts)) if asked == FaultRequest() else (),
    )


def _fitted(graph: Graph) -> frozenset[str]:
    parts = {part for held in graph.standing.held.values() for part in held}
    return frozenset(parts | {graph.standing.part(part).kind for part in parts})


def _is_open(way: Way, asked: FaultRequest) -> bool:
    if way.by:
        return False
    off = {CORDS, POWER} & set(way.behind)
    return not way.behind or asked.cords == "out" or (asked.cover == "off" and not off)


def _perhaps(graph: Graph, machine: Machine, faults: Sequence[Fault]) -> dict[str, Faults]:
    """Return what can stop the machine or keep it from starting, by what is lost with it."""
    known = [fault.id for fault in faults if fault.id in graph.by_id]
    scenarios = graph.without((), *((fault,) for fault in known))
    found = {}
    for key, function in ((NO_POWER, STARTS), (STOPPED, RUNS)):
        before, *after = scenarios.holds(graph.function(function).node)
        gone = [fault for fault, holds in zip(known, after, strict=True) if before and not holds]
        found[key] = frozenset(gone)
    opening = {str(k) for k, each in machine.book.interlocks.items() if each.while_ == "running"}
    found[NO_POWER] |= opening & {fault.id for fault in faults}
    return found


def _checks(
    suspects: Sequence[Suspect],
    faults: Sequence[Fault],
    signs: Sequence[Sign],
    efforts: Efforts,
) -> tuple[Check, ...]:
    """Return the checks that tell suspects apart, given signs of which nothing is known."""
    used = telling(signs, suspects, efforts.look_times)
    cases = cases_of(suspects, used)
    suspected = {fault for each in suspects for fault in each.ids}
    looks = [
        check_of_look(cases, used, way, efforts.look_times[way])
        for way in dict.fromkeys(sign.way for sign in used)
    ]
    swaps = [
        check_of_swap(cases, fault, minutes)
        for fault in faults
        if fault.id in suspected and (minutes := efforts.minutes(fault.id)) is not None
    ]
    return ranked((*looks, *swaps))


def _tree(suspects: Sequence[Suspect], signs: Sequence[Sign], efforts: Efforts) -> Tree | None:
    """Return the tree over single faults that have odds, given signs still to be seen."""
    held = [each for each in suspects if len(each.faults) == 1]
    used = telling(signs, held, efforts.look_times)
    cases = cases_of(held, used)
    if not cases:
        return None
    faults = tuple(case.suspect.faults[0] for case in cases)
    ways = tuple(dict.fromkeys(sign.way for sign in used))
    task = Task(
        tuple(case.weight for case in cases),
        tuple(efforts.minutes(fault.id) for fault in faults),
        tuple(
            Look(
                efforts.look_times[way],
                tuple(case.outcome(seen_by(used, (way,))) for case in cases),
            )
            for way in ways
        ),
    )
    solution = solve(task)
    unrated = tuple(each.faults[0] for each in held if each.odds is None)
    return Tree(faults, ways, tree_of(solution), solution, unrated)


def _worth(
    faults: Sequence[Fault],
    signs: Sequence[Sign],
    fitted: frozenset[str],
    efforts: Efforts,
) -> Iterable[Worth]:
    """Yield what the signs of each optional part are worth; the faults are those of the build."""
    for part in dict.fromkeys(sign.needs for sign in signs if sign.needs):
        bare = there(signs, fitted - {part})
        full = there(signs, fitted | {part})
        everything = explain(faults, (), ()).suspects
        yield Worth(
            part,
            part in fitted,
            tuple(_stages(faults, full, bare, efforts)),
            _tree(everything, full, efforts),
            _tree(everything, bare, efforts),
        )


def _stages(
    faults: Sequence[Fault], full: Sequence[Sign], bare: Sequence[Sign], efforts: Efforts
) -> Iterable[Stage]:
    """Yield what is known from outside, then with one more way of looking after the other."""
    inside = [way for way in efforts.look_times if not way.outside]
    inside.sort(key=lambda way: efforts.look_times[way])
    for number in range(len(inside) + 1):
        ways = (OUTSIDE, *inside[:number])
        yield Stage(
            ways,
            classes_of(faults, seen_by(full, ways)),
            classes_of(faults, seen_by(bare, ways)),
        )

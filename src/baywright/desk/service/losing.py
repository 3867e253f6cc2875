"""What is lost with a thing: the graph of a build at its site, read after a loss."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from baywright.answers.verdicts import Verdict
from baywright.desk.judging import judge_build
from baywright.desk.opening import Opened
from baywright.desk.service.effects import Change, changes
from baywright.desk.service.loads import loads_of
from baywright.desk.service.repairs import Repair, repairs
from baywright.desk.size.sized import case_of
from baywright.facts.build import Build
from baywright.facts.references import check_build
from baywright.facts.site import Site
from baywright.laws.machine import Machine
from baywright.problems import Problems
from baywright.service.losing.cuts import Cuts
from baywright.service.losing.graph import Graph, graph_of, named
from baywright.service.losing.items import Function
from baywright.service.losing.losing import Lost, every_cut, lost_with, next_points
from baywright.service.losing.standing import Loads, Standing
from baywright.sizing.case import Case


@dataclass(frozen=True, slots=True)
class Outcome:
    """What is lost when unknown facts are so.

    Args:
        given: the facts, by path.
        sentences: what is gone then.
    """

    given: Mapping[str, str]
    sentences: tuple[str, ...]


@dataclass(frozen=True)
class Loss:
    """What is lost of a build with some things.

    Args:
        opened: the book.
        build: the build with the site that counts.
        verdict: whether it is legal there, whatever else it must have.
        graph: its things and functions.
        asked: what was asked for, as typed.
        lost: what is gone.
        changes: numbers of sizing before and after.
        next_points: things that would stop the machine now and would not have before.
        cuts: what ends each function of the machine with everything there.
        repairs: what it takes to bring each thing back.
        outcomes: what is gone for each way unknown facts could be, where that differs.
    """

    opened: Opened
    build: Build
    verdict: Verdict
    graph: Graph
    asked: tuple[str, ...]
    lost: Lost
    changes: tuple[Change, ...]
    next_points: tuple[str, ...]
    cuts: tuple[tuple[Function, Cuts], ...]
    repairs: tuple[Repair, ...]
    outcomes: tuple[Outcome, ...]


def lose(
    opened: Opened, build: Build, things: Iterable[str] = (), site: Site | None = None
) -> Loss:
    """Say what is lost of a build with some things.

    Args:
        opened: the book, opened for the altitude and inlet of the site.
        build: the build.
        things: ids of things, places, parts or feeds; none for the build as it stands.
        site: where it stands; that of the build unless given.

    Raises:
        Problems: for what the build names and the book does not have, and for a thing that is
            not in the build.
    """
    there = build.model_copy(update={"site": site or build.site})
    problems = check_build(there, opened.book)
    if problems:
        raise Problems(problems)
    asked = tuple(things)
    worlds = opened.in_worlds(lambda machine: _lost(machine, there, asked))
    case, graph, lost = worlds[0][1]
    return Loss(
        opened,
        there,
        judge_build(opened, there.model_copy(update={"must": []}), nearby=0).verdict,
        graph,
        asked,
        lost,
        tuple(changes(case, graph, lost)),
        next_points(graph, lost.things),
        every_cut(graph),
        tuple(repairs(case, graph, lost)),
        tuple(_outcomes([(world.given, found[2]) for world, found in worlds])),
    )


def graph_in(machine: Machine, build: Build) -> tuple[Case, Graph]:
    """Return a build as sizing reads it, and the graph of its functions."""
    case = case_of(machine, build)
    standing = Standing(machine.book, build, Loads())
    return case, graph_of(replace(standing, loads=loads_of(case, standing)))


def _lost(machine: Machine, build: Build, asked: tuple[str, ...]) -> tuple[Case, Graph, Lost]:
    case, graph = graph_in(machine, build)
    things = [thing for text in asked for thing in named(graph, text)]
    return case, graph, lost_with(graph, things)


def _outcomes(worlds: list[tuple[Mapping[str, str], Lost]]) -> Iterator[Outcome]:
    """Yield what is gone in each world, or nothing where that is the same in all."""
    found = [Outcome(given, tuple(_sentences(lost))) for given, lost in worlds]
    if len({outcome.sentences for outcome in found}) > 1:
        yield from found


def _sentences(lost: Lost) -> Iterator[str]:
    yield from (gone.function.lost for gone in lost.gone if not gone.covered)
    for gone in lost.never:
        yield f"Even with everything there: {gone.function.lost}"

"""Why there is no plan: what stands before each job, from the outside in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from baywright.service.access.acts import name_of
from baywright.service.access.circumstances import Doing
from baywright.service.access.graph import Graph, Job, is_open, reachable, relevant
from baywright.service.access.interior import Entrance, Interior
from baywright.service.access.plan import Refusal
from baywright.service.access.tasks import Task


def refusals(
    interior: Interior, graph: Graph, tasks: Sequence[Task], doing: Doing
) -> list[Refusal]:
    """Return what stands against each job that cannot be done.

    Where each could be done for itself, the times that something may be off stand against them.
    """
    within = reachable(graph)
    shut = [task for task in tasks if not is_open(task.job.ways, within)]
    found = [
        Refusal(name_of(interior.book, task, doing), tuple(_reasons(interior, graph, task, within)))
        for task in shut
    ]
    return found or [Refusal("all of it", tuple(_too_long(interior, graph)))]


def _reasons(interior: Interior, graph: Graph, task: Task, within: frozenset[str]) -> Iterator[str]:
    """Yield the reasons of a job, each once."""
    found = [task.blocked] if task.blocked else []
    found += task.off_first if interior.given.keep_running else ()
    for entrance in _before(interior, graph, task):
        if entrance.name not in within and is_open(entrance.ways, within):
            held = [entrance.blocked] if entrance.blocked else entrance.off_first
            found += [_of(entrance, reason) for reason in held]
    yield from dict.fromkeys(found)


def _before(interior: Interior, graph: Graph, task: Task) -> Iterator[Entrance]:
    """Yield what stands before a job on some way, the stop and the cords left out."""
    names = relevant(replace(graph, jobs={"": Job(task.ways, task.job.time)}))
    for name, entrance in interior.entrances.items():
        if name in names and entrance.sort not in ("power", "cords"):
            yield entrance


def _of(entrance: Entrance, reason: str) -> str:
    name = entrance.name
    return f"{name[:1].upper()}{name[1:]}: {reason[:1].lower()}{reason[1:]}"


def _too_long(interior: Interior, graph: Graph) -> Iterator[str]:
    for name, barrier in graph.barriers.items():
        if barrier.longest is not None and name in relevant(graph):
            limit = interior.book.air.cover_off
            text = limit.text if limit else f"{float(barrier.longest):g} s"
            yield f"While the machine runs, {name} may be off for {text}, and that is too short."


def why_off(interior: Interior, graph: Graph, tasks: Iterable[Task], doing: Doing) -> list[Refusal]:
    """Return, for each job that cannot be done while the machine runs, why it cannot."""
    within = reachable(graph, running=True)
    found = []
    for task in tasks:
        entrances = _before(interior, graph, task)
        acting = [e for e in entrances if e.name not in within and any(interior.acting(e.access))]
        reasons = [*task.off_first, *(_of(e, reason) for e in acting for reason in e.off_first)]
        if not is_open(task.job.ways, within) and reasons:
            found.append(Refusal(name_of(interior.book, task, doing), tuple(reasons)))
    return found

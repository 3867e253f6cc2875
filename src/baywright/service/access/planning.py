"""From a book and a build to the shortest safe plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from baywright.facts.access import POWER
from baywright.facts.book import Book
from baywright.service.access.acts import name_of
from baywright.service.access.circumstances import Circumstances, Doing
from baywright.service.access.graph import Graph
from baywright.service.access.interior import Interior
from baywright.service.access.moves import Least
from baywright.service.access.plan import Plan
from baywright.service.access.refusing import refusals, why_off
from baywright.service.access.search import shortest
from baywright.service.access.swaps import swap_facts
from baywright.service.access.targets import read_targets
from baywright.service.access.tasks import Task, tasks
from baywright.service.access.writing import Writer


def graph_of(interior: Interior, jobs: Sequence[Task]) -> Graph:
    """Return the and-or graph of a machine and the jobs in it."""
    barriers = {name: each.barrier for name, each in interior.entrances.items()}
    return Graph(barriers, {task.target.key: task.job for task in jobs}, POWER)


def plan(
    book: Book,
    given: Circumstances,
    places: Sequence[str],
    doing: Doing = "replace",
    least: Least = "time",
) -> Plan:
    """Return the shortest safe plan to change some parts, or why there is none.

    Args:
        book: the book.
        given: the build and what stands around the work.
        places: what is changed: places, PLACE:PART, labels of the log, or steps of access.
        doing: what is done with it.
        least: what the plan has least of.

    Raises:
        Problems: for what the book or the build does not have.
        OutOfStatesError: where too much is asked for at once.
    """
    interior = Interior(book, given)
    steps = [name for name, each in interior.entrances.items() if each.sort == "step"]
    targets = read_targets(book, given.places, places, doing, steps)
    jobs = tasks(interior, targets, doing)
    graph = graph_of(interior, jobs)
    names = tuple(name_of(book, task, doing) for task in jobs)
    moves = shortest(graph, least)
    if moves is None:
        return Plan(names, (), tuple(refusals(interior, graph, jobs, doing)))
    stopped = any(move.name == POWER for move in moves)
    swaps = [fact for task in jobs for fact in swap_facts(book, given, task, doing)]
    return Plan(
        names,
        tuple(Writer(interior, jobs, doing, moves).steps()),
        (),
        tuple(why_off(interior, graph, jobs, doing)) if stopped else (),
        tuple(dict.fromkeys(fact.says for fact in swaps)),
        tuple(dict.fromkeys(cited for fact in swaps for cited in fact.facts)),
        tuple(dict.fromkeys(_unstated(book, jobs))),
    )


def _unstated(book: Book, jobs: Sequence[Task]) -> Iterator[str]:
    """Yield the places of which a book says nothing that has to be off to reach them.

    A book that speaks of access leaves out what is reached from outside.
    """
    if book.service.access or book.service.order:
        return
    for task in jobs:
        place = book.places.get(task.target.place)
        if place is not None and not place.ways and place.inside is None:
            yield (
                f"The book does not say what has to be off or open to reach {place.name}: "
                "service.access and the ways of the place would."
            )

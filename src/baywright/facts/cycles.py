"""Whether places and parts lead back to themselves."""

from __future__ import annotations

import graphlib
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import TypeAlias

from baywright.facts.access import ways_to
from baywright.facts.book import Book
from baywright.facts.fact import mark_of
from baywright.problems import Problem

Edges: TypeAlias = Mapping[tuple[str, str], tuple[str, str]]
"""From one id to another: the words between the two, and the text that says so in the book."""


def check_cycles(book: Book) -> Iterator[Problem]:
    """Yield each cycle of places, of parts and of steps of access, named in full."""
    yield from _cycles(_places(book), "Take out one of these.")
    yield from _cycles(_parts(book), "Let none of these bring itself.")
    yield from _stuck(book)


def _stuck(book: Book) -> Iterator[Problem]:
    """Yield the steps of access that never come off, since every way leads back to them."""
    access = book.service.access
    stuck = set(access)
    while True:
        freed = {name for name in stuck if any(stuck.isdisjoint(w) for w in ways_to(access[name]))}
        if not freed:
            break
        stuck -= freed
    for name in access:
        if name in stuck:
            message = f"{name} never comes off: every way to it leads back to it."
            hint = "Let the outermost of them be behind nothing."
            yield Problem("cycle", message, mark_of(name), hint)


def _places(book: Book) -> Edges:
    edges = {}
    for name, place in book.places.items():
        neighbour = getattr(place, "neighbour", None)
        if neighbour in book.places:
            edges[name, neighbour] = "also takes", neighbour
        if place.inside in book.places:
            edges[name, place.inside] = "is inside", place.inside
    return edges


def _parts(book: Book) -> Edges:
    return {
        (name, brought): ("brings", brought)
        for name, part in book.parts.items()
        for brought in part.brings
        if brought in book.parts
    }


def _cycles(edges: Edges, hint: str) -> Iterator[Problem]:
    left = dict(edges)
    while True:
        cycle = _cycle(left)
        if not cycle:
            return
        steps = list(pairwise(cycle))
        message = cycle[0] + "".join(f" {left[step][0]} {step[1]}" for step in steps) + "."
        yield Problem("cycle", message, mark_of(left[steps[0]][1]), hint)
        del left[steps[-1]]


def _cycle(edges: Edges) -> list[str]:
    """Return the ids along one cycle, the first again at the end, or nothing."""
    graph: dict[str, set[str]] = {}
    for start, end in edges:
        graph.setdefault(start, set()).add(end)
    try:
        graphlib.TopologicalSorter(graph).prepare()
    except graphlib.CycleError as error:
        found: list[str] = error.args[1]
        return found[::-1]
    return []

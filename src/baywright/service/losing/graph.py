"""The graph of a machine as it stands: its things, and the functions that need them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from baywright.problems import Problems, problem, suggestion
from baywright.service.losing.items import Effect, Function, Item, Measure, Named, Open, Thing
from baywright.service.losing.nodes import Node, Scenarios, Up, every
from baywright.service.losing.registry import SUBSYSTEMS
from baywright.service.losing.standing import Standing, place_of

_SERVING = ("works", "reach", "card", "path", "fed")
"""Sorts of named nodes that say whether a thing is of use."""


@dataclass(frozen=True)
class Graph:
    """What a machine is made of and what each of its functions needs.

    Args:
        standing: the machine.
        things: everything that can be lost.
        functions: what it does, with what that needs in all.
        alone: by key of a function, what it needs beside the machine running.
        measures: numbers over what stands.
        opens: what is not decided.
        serving: by id of a thing, what it needs to be of use beside the machine running.
    """

    standing: Standing
    things: tuple[Thing, ...]
    functions: tuple[Function, ...]
    alone: Mapping[str, Node]
    measures: tuple[Measure, ...]
    opens: tuple[Open, ...]
    serving: Mapping[str, Node]

    @cached_property
    def ids(self) -> tuple[str, ...]:
        """Ids of all things."""
        return tuple(thing.id for thing in self.things)

    @cached_property
    def by_id(self) -> Mapping[str, Thing]:
        """Things by id."""
        return {thing.id: thing for thing in self.things}

    def without(self, *lost: Iterable[str]) -> Scenarios:
        """Return scenarios in which some things are lost."""
        return Scenarios.of(self.ids, *lost)

    def function(self, key: str) -> Function:
        """Return a function by its key."""
        return next(each for each in self.functions if each.key == key)


def graph_of(standing: Standing) -> Graph:
    """Return the graph of a machine as it stands.

    Args:
        standing: the book, the build and what sizing says of its load.
    """
    nodes: dict[str, Node] = {}
    items: list[Item] = []
    for subsystem in SUBSYSTEMS:
        for item in subsystem(standing, nodes):
            items.append(item)
            if isinstance(item, Thing):
                _new(nodes, item.id, Up(item.id))
            elif isinstance(item, Named):
                _new(nodes, item.key, item.node)
    functions = [item for item in items if isinstance(item, Function)]
    return Graph(
        standing,
        tuple(item for item in items if isinstance(item, Thing)),
        tuple(_served(each, nodes["machine starts"]) for each in _gravest_first(functions)),
        {each.key: each.node for each in functions},
        tuple(
            _summed(item, nodes["machine starts"]) for item in items if isinstance(item, Measure)
        ),
        tuple(item for item in items if isinstance(item, Open)),
        dict(_serving(nodes)),
    )


def _serving(nodes: Mapping[str, Node]) -> Iterator[tuple[str, Node]]:
    """Yield the things that something else can put out of reach, with what they need."""
    for key, node in nodes.items():
        sort, _, thing = key.partition(" ")
        if sort in _SERVING and isinstance(nodes.get(thing), Up):
            yield thing, node


def _new(nodes: dict[str, Node], key: str, node: Node) -> None:
    if key in nodes:
        raise ValueError(f"two things or nodes are called {key!r}")
    nodes[key] = node


def _gravest_first(functions: Sequence[Function]) -> list[Function]:
    order = list(Effect)
    return sorted(functions, key=lambda each: order.index(each.effect))


def _served(function: Function, starts: Node) -> Function:
    """What the machine serves also needs that the machine can run."""
    return replace(function, node=every(starts, function.node)) if function.served else function


def _summed(measure: Measure, starts: Node) -> Measure:
    if not measure.served:
        return measure
    inputs = tuple((every(starts, node), weight) for node, weight in measure.inputs)
    return replace(measure, inputs=inputs)


def named(graph: Graph, text: str) -> tuple[str, ...]:
    """Return the ids of the things that a text stands for.

    The id of a thing is that thing. The id of a place is all that is in it, the id of a part every
    one of that part, and what a place stands inside of, such as a riser, everything in it.

    Args:
        graph: the machine.
        text: as typed, such as ``R1b``, ``A.3``, ``feed B`` or ``C16``.

    Raises:
        Problems: for a text that stands for nothing in this build.
    """
    wanted = text.strip()
    for each in (wanted, wanted.replace(" ", ".")):
        if each in graph.by_id:
            return (each,)
    found = tuple(thing.id for thing in graph.things if _stands(graph, thing, wanted))
    if not found:
        raise _unknown(graph, wanted)
    return found


def _stands(graph: Graph, thing: Thing, text: str) -> bool:
    place = graph.standing.book.places.get(place_of(thing.id))
    inside = str(place.inside or "") if place is not None and thing.part else ""
    return text in (place_of(thing.id), thing.part, inside) or thing.id.startswith(f"{text}.")


def _unknown(graph: Graph, text: str) -> Problems:
    message = f"Nothing in this build is called {text!r}."
    hint = suggestion(text, (*graph.ids, *(thing.part for thing in graph.things if thing.part)))
    listing = "The command with --things lists everything that can be lost."
    return problem("no-thing", message, None, hint or listing)

"""The machine: what it needs to run on, and to start again without what is lost."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.facts.places import Bank, Socket
from baywright.service.losing.items import RUNS, STARTS, Effect, Function, Item, Named
from baywright.service.losing.nodes import Ground, Node, every
from baywright.service.losing.standing import Standing

FIRST = Ground(
    "processors.order",
    "Without its first processor the machine does not start: sockets are filled in the order the "
    "book lists them.",
)
PROCESSORS = Ground(
    "losing.processors",
    "A processor that fails stops the machine. Common practice, no source.",
)
MODULES = Ground(
    "losing.modules",
    "A memory module that fails stops the machine: the book states no mirroring. "
    "Common practice, no source.",
)


def machine(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield that the machine can start without what is lost, and that it ran on all the time."""
    first = next(iter(at.book.places_of(Socket)), None)
    works = [every(nodes[f"works {first}"], because=FIRST)] if first and at.held[first] else []
    starts = every(
        nodes["board works"], nodes["power works"], nodes["air works"], nodes["boot works"], *works
    )
    yield Named("machine starts", starts)
    processors = [nodes[name] for name in at.book.places_of(Socket) if at.held[name]]
    modules = [nodes[unit] for bank in at.book.places_of(Bank) for unit, _ in at.units(bank)]
    runs = every(starts, every(*processors, because=PROCESSORS), every(*modules, because=MODULES))
    yield Function(
        RUNS, "the machine runs on", runs, Effect.STOPS, "The machine stops.", served=False
    )
    gone = "It does not start again before a repair."
    yield Function(STARTS, "the machine can start again", starts, Effect.STOPS, gone, served=False)

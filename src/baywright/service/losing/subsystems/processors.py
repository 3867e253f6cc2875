"""Processors: which of them still work, given how many may run and in which sockets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.facts.parts import Processor
from baywright.facts.places import Bank, Socket
from baywright.laws.wording import listed
from baywright.service.losing.items import Item, Measure, Named, Thing
from baywright.service.losing.nodes import Enough, Ground, Node, every, some
from baywright.service.losing.standing import Standing


def processors(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield the processors, which of them work, and their cores."""
    fitted = [name for name in at.book.places_of(Socket) if at.held[name]]
    for name in fitted:
        part = at.held[name][0]
        yield Thing(name, f"{at.part(part).name}, {at.name(name)}", "processor", name, part)
    alive = [every(nodes[name], *_memory(at, nodes, name)) for name in fitted]
    for position, name in enumerate(at.book.places_of(Socket)):
        works = _works(at, alive, position) if position < len(fitted) else _absent(at, name)
        yield Named(f"works {name}", works)
    cores = [(nodes[f"works {name}"], _cores(at, name)) for name in fitted]
    if cores:
        yield Measure("cores", "cores", "", tuple(cores), _order(at))


def _memory(at: Standing, nodes: Mapping[str, Node], owner: str) -> Iterator[Node]:
    """Yield that a processor has memory, where any is fitted for it."""
    banks = [name for name, bank in at.book.places_of(Bank).items() if bank.owner == owner]
    own = [nodes[unit] for bank in banks for unit, _ in at.units(bank)]
    if own:
        sentence = f"{at.name(owner)} needs memory of its own: at least one module."
        yield some(*own, because=Ground("memory.owner", sentence, at.cite(*banks)))


def _works(at: Standing, alive: list[Enough], position: int) -> Node:
    """Return that a number of processors which is allowed stands, this one among them."""
    allowed = sorted(count.known for count in at.book.processors.counts)
    numbers = [n for n in allowed if position < n < len(alive)] + [len(alive)]
    others = [[a for i, a in enumerate(alive[:n]) if i != position] for n in dict.fromkeys(numbers)]
    return every(alive[position], some(*(every(*each) for each in others), because=_order(at)))


def _order(at: Standing) -> Ground:
    counts = at.book.processors.counts
    allowed = listed([str(count.known) for count in counts], "or")
    sentence = f"Sockets are filled in the order the book lists them, with {allowed} in all."
    return Ground("processors.order", sentence, at.cite(*counts))


def _absent(at: Standing, name: str) -> Node:
    return some(because=Ground("processors.absent", f"{at.name(name)} is not fitted."))


def _cores(at: Standing, name: str) -> float:
    part = at.part(at.held[name][0])
    return float(part.cores.known) if isinstance(part, Processor) else 0.0

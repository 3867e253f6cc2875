"""Memory: the modules of each processor, and how much of them is left."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.facts.parts import MemoryModule
from baywright.facts.places import Bank
from baywright.service.losing.items import Item, Measure, Named, Thing
from baywright.service.losing.nodes import Ground, Node, every
from baywright.service.losing.standing import Standing, label_of


def modules(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield each memory module."""
    for place in at.book.places_of(Bank):
        for unit, part in at.units(place):
            socket = label_of(unit)
            where = f"socket {socket}, {at.name(place)}" if socket else at.name(place)
            yield Thing(unit, f"{at.part(part).name} in {where}", "memory", unit, part)


def capacity(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield the memory that processors still reach, in all and by processor."""
    by_owner: dict[str, list[tuple[Node, float]]] = {}
    sizes = []
    for place, bank in at.book.places_of(Bank).items():
        for unit, name in at.units(place):
            module = at.part(name)
            if isinstance(module, MemoryModule):
                node = every(nodes[f"works {bank.owner}"], nodes[unit])
                yield Named(f"reach {unit}", node)
                size = float(module.size.known.to("GB"))
                by_owner.setdefault(str(bank.owner), []).append((node, size))
                sizes.append(module.size)
    sentence = "Memory works only with its processor."
    because = Ground("memory.owner", sentence, at.cite(*dict.fromkeys(sizes)))
    every_one = tuple(each for own in by_owner.values() for each in own)
    if every_one:
        yield Measure("memory", "memory", "GB", every_one, because)
    for owner, own in by_owner.items() if len(by_owner) > 1 else ():
        yield Measure(f"memory.{owner}", f"memory of {at.name(owner)}", "GB", tuple(own), because)

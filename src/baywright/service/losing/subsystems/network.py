"""The network: ports that hang on one chip fail together."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

from baywright.facts.parts import Network
from baywright.facts.places import Slot
from baywright.laws.wording import capitalised
from baywright.service.losing.items import Effect, Function, Item, Measure, Named, Thing
from baywright.service.losing.nodes import Ground, Node, at_least, every, some
from baywright.service.losing.standing import Standing


def network(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield chips and ports of network modules, each path, and what is left of them."""
    chips: list[Node] = []
    ports: list[tuple[Node, float]] = []
    for unit, card in _cards(at):
        for item in _module(at, nodes, unit, card):
            yield item
            if isinstance(item, Named) and ".chip." in item.key:
                chips.append(item.node)
            elif isinstance(item, Named):
                ports.append((item.node, _speed(card)))
    yield from _together(chips, ports)


def _part(at: Standing, unit: str) -> Network:
    return dict(_cards(at))[unit]


def _cards(at: Standing) -> Iterator[tuple[str, Network]]:
    for place in at.book.places_of(Slot):
        for unit, name in at.units(place):
            part = at.part(name)
            if isinstance(part, Network):
                yield unit, part


def _module(at: Standing, nodes: Mapping[str, Node], unit: str, card: Network) -> Iterator[Item]:
    number = _chips(card)
    for chip in range(1, number + 1):
        thing = f"{unit}.chip.{chip}"
        yield Thing(thing, f"network chip {chip} of {unit}", "chip", unit)
        yield Named(f"path {thing}", every(nodes[f"card {unit}"], nodes[thing]))
    total = _ports(card)
    for port in range(1, total + 1):
        yield from _port(at, nodes, unit, port, 1 + (port - 1) * number // total)
    if not total:
        # The book does not say how many ports it has: its chips stand for them.
        chips = [nodes[f"path {unit}.chip.{chip + 1}"] for chip in range(number)]
        yield Named(f"path {unit}", every(*chips))
        gone = f"The network over {unit} is out of reach."
        found = Function(f"network.{unit}", f"network over {unit}", every(*chips), Effect.OUT, gone)
        yield replace(found, covered="network")


def _port(
    at: Standing, nodes: Mapping[str, Node], unit: str, port: int, chip: int
) -> Iterator[Item]:
    thing, name = f"{unit}.port.{port}", f"port {port} of {unit}"
    yield Thing(thing, name, "port", unit)
    sentence = f"{capitalised(name)} hangs on chip {chip}; the ports of one chip fail together."
    because = Ground(f"losing.chip/{unit}", sentence, at.cite(_part(at, unit).chips))
    chip_stands = every(nodes[f"{unit}.chip.{chip}"], because=because)
    path = every(nodes[f"card {unit}"], chip_stands, nodes[thing])
    yield Named(f"path {thing}", path)
    gone = f"Network {name} is out of reach."
    found = Function(f"network.{thing}", f"network {name}", path, Effect.OUT, gone)
    yield replace(found, covered="network")


def _together(chips: list[Node], ports: list[tuple[Node, float]]) -> Iterator[Item]:
    if not ports:
        return
    paths = [node for node, _ in ports]
    gone = "No network connection is left."
    yield Function("network", "any network connection", some(*paths), Effect.OUT, gone)
    if len(chips) > 1:
        node = at_least(2, chips)
        bare = "The network hangs on one chip: no other is left."
        yield Function("network.chips", "network over two chips", node, Effect.BARE, bare)
    because = Ground("losing.ports", "Each port needs its chip, its module and its processor.")
    each = tuple((node, 1.0) for node in paths)
    yield Measure("network.ports", "network connections", "", each, because)
    if not any(math.isnan(speed) for _, speed in ports):
        yield Measure("network.rate", "network ports together", "Gb/s", tuple(ports), because)


def _chips(card: Network) -> int:
    # A module that does not say how many chips it has is taken to have one: the safe side.
    return card.chips.value if card.chips is not None and card.chips.value else 1


def _ports(card: Network) -> int:
    return sum(port.count.known for port in card.ports)


def _speed(card: Network) -> float:
    speed = card.speed.value if card.speed is not None else None
    return math.nan if speed is None else float(speed.to("Gb/s"))

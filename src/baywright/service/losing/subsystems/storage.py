"""Storage: how each drive is reached through cage, cable and controller, or over lanes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.facts.parts import Cage, Controller, Drive
from baywright.facts.places import Slot
from baywright.service.losing.items import Effect, Function, Item, Measure, Named, Open, Thing
from baywright.service.losing.nodes import Ground, Node, every
from baywright.service.losing.standing import Standing


def storage(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield cages, cables and drives, the path to each drive, and how many are reached."""
    reached: list[tuple[Node, float]] = []
    space: list[tuple[Node, float]] = []
    for place in at.book.places:
        drives = tuple(_drives(at, place))
        cage = at.cage(place)
        if cage is not None:
            yield from _cage(at, nodes, place, cage)
        elif drives:
            yield Named(f"path {place}", nodes.get(f"lanes {place}", nodes["board works"]))
        for unit, name, drive in drives:
            yield Thing(unit, f"{drive.name} in {unit}", "drive", unit, name)
            node = every(nodes[f"path {place}"], nodes[unit])
            yield Named(f"reach {unit}", node)
            reached.append((node, 1.0))
            space.append((node, float(drive.capacity.known.to("TB"))))
    yield from _reached(reached, space)


def _drives(at: Standing, place: str) -> Iterator[tuple[str, str, Drive]]:
    for unit, name in at.units(place):
        part = at.part(name)
        if isinstance(part, Drive):
            yield unit, name, part


def _reached(reached: list[tuple[Node, float]], space: list[tuple[Node, float]]) -> Iterator[Item]:
    if reached:
        because = Ground(
            "losing.drives", "A drive is reached through its cage and what drives that."
        )
        yield Measure("drives", "drives reached", "", tuple(reached), because)
        yield Measure("drives.raw", "raw capacity reached", "TB", tuple(space), because)


def _cage(at: Standing, nodes: Mapping[str, Node], place: str, cage: Cage) -> Iterator[Item]:
    """Yield a cage, and what has to stand before its drives are reached."""
    name = at.name(place)
    yield Thing(place, f"{cage.name} in {name}", "cage", place, str(at.held[place][0]))
    if cage.connectors is not None:
        yield Thing(f"{place}.cable", f"cable from {name} to its controller", "cable", place)
        slot = at.cable(place)
        if not slot or f"card {slot}" not in nodes:
            yield Open(f"which controller drives {name}", (f"places.{place}.controller",))
            behind: Node = nodes["board works"]
        else:
            because = Ground(
                f"controllers.reach/{place}",
                f"{name} is cabled to {at.name(slot)}.",
                at.cite(*_reaching(at, place, slot)),
            )
            behind = every(nodes[f"{place}.cable"], nodes[f"card {slot}"], because=because)
    elif cage.board_lanes is not None:
        yield Thing(f"{place}.connector", f"on-board connector of {name}", "connector", place)
        because = Ground(
            "losing.connector",
            f"{name} uses an on-board connector of {cage.board_lanes.text} lanes.",
            at.cite(cage.board_lanes),
        )
        behind = every(nodes["board works"], nodes[f"{place}.connector"], because=because)
    else:
        behind = nodes[f"lanes {place}"] if cage.lanes_per_bay else nodes["board works"]
    yield Named(
        f"path {place}", every(every(nodes[place], because=_backplane(at, place, cage)), behind)
    )


def _reaching(at: Standing, place: str, slot: str) -> Iterator[str]:
    """Yield where the book says that the cables of a zone reach a slot."""
    zone = at.book.places[place]
    yield from (each for each in getattr(zone, "controllers", ()) if each == slot)


def _backplane(at: Standing, place: str, cage: Cage) -> Ground:
    sentence = f"All drives in {at.name(place)} stand on the backplane of its cage."
    return Ground(f"zones.shared/{place}", sentence, at.cite(cage.bays))


def external(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield the enclosures that controllers reach outside, each behind those before it."""
    for place in at.book.places_of(Slot):
        for unit, name in at.units(place):
            card = at.part(name)
            if isinstance(card, Controller) and card.external is not None:
                for chain in range(1, card.external.chains.known + 1):
                    yield from _chain(at, nodes, unit, card, chain)


def _chain(
    at: Standing, nodes: Mapping[str, Node], unit: str, card: Controller, chain: int
) -> Iterator[Item]:
    if card.external is None:
        return
    facts = at.cite(card.external.chains, card.external.enclosures, card.external.drives)
    sentence = (
        "An enclosure is reached through those before it on its chain; a way back is not stated."
    )
    behind: Node = nodes[f"card {unit}"]
    for number in range(1, card.external.enclosures.known + 1):
        thing = f"{unit}.chain.{chain}.enclosure.{number}"
        named = f"enclosure {number} on chain {chain} of {unit}"
        yield Thing(thing, named, "enclosure", unit)
        behind = every(behind, nodes[thing], because=Ground("losing.chain", sentence, facts))
        drives = card.external.drives.text
        gone = f"The {named} is out of reach, with up to {drives} drives where it is fitted."
        yield Function(f"external.{thing}", named, behind, Effect.OUT, gone)

"""Slots, the lanes that feed them, and the cards in them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.facts.parts import Accelerator, Controller, Network
from baywright.facts.places import Slot, Zone
from baywright.service.losing.items import Effect, Function, Item, Measure, Named, Thing
from baywright.service.losing.nodes import Ground, Node, every
from baywright.service.losing.standing import Standing, label_of


def lanes(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield the links from processors, and the lanes at each slot and zone."""
    for name, link in at.book.links.items():
        if any(_uses_lanes(at, str(place)) for place in link.feeds):
            named = f"lanes {name} of {at.name(str(link.owner))}"
            yield Thing(f"link.{name}", named, "link")
    for place, model in at.book.places.items():
        if isinstance(model, Slot | Zone):
            yield Named(f"lanes {place}", _lanes(at, nodes, place, str(model.owner or "")))


def _uses_lanes(at: Standing, place: str) -> bool:
    """Say whether what is in a place uses lanes; drives behind a controller use none."""
    cage = at.cage(place)
    return bool(at.held[place]) and (cage is None or cage.lanes_per_bay is not None)


def _lanes(at: Standing, nodes: Mapping[str, Node], place: str, owner: str) -> Node:
    """Return that the lanes of a place work: its links, and the processors behind them."""
    needed: list[Node] = [nodes["board works"]]
    for name, link in at.book.links.items():
        if place in link.feeds and f"link.{name}" in nodes:
            sentence = f"{at.name(place)} hangs on the lanes {name} of {at.name(str(link.owner))}."
            because = Ground(f"lanes.shared/{name}", sentence, at.cite(link.lanes))
            behind = () if link.owner == owner else (nodes[f"works {link.owner}"],)
            needed.append(every(nodes[f"link.{name}"], *behind, because=because))
    if owner:
        sentence = f"{at.name(place)} works only with {at.name(owner)}."
        law = "slots" if isinstance(at.book.places[place], Slot) else "zones"
        facts = at.cite(getattr(at.book.places[place], "owner", None))
        because = Ground(f"{law}.owner/{place}", sentence, facts)
        needed.append(every(nodes[f"works {owner}"], because=because))
    return every(*needed)


def cards(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield the cards in slots, the boards that rows of slots stand on, and what hangs on them."""
    accelerators = []
    for place in at.book.places_of(Slot):
        for unit, part in at.units(place):
            yield from _card(at, nodes, place, unit, part)
            if isinstance(at.part(part), Accelerator):
                accelerators.append((nodes[f"card {unit}"], 1.0))
    if accelerators:
        because = Ground("losing.accelerators", "Each accelerator needs its slot and its lanes.")
        yield Measure("accelerators", "accelerators", "", tuple(accelerators), because)


def _card(
    at: Standing, nodes: Mapping[str, Node], place: str, unit: str, part: str
) -> Iterator[Item]:
    card = at.part(part)
    if unit != place and place not in nodes:
        yield Thing(place, at.name(place), "board of slots", place)
    where = at.name(place) if unit == place else f"{at.name(place)}, position {label_of(unit)}"
    yield Thing(unit, f"{card.name} in {where}", card.kind, unit, part)
    kits = [f"{unit}.{kit}" for kit in card.brings]
    for kit in card.brings:
        yield Thing(f"{unit}.{kit}", f"{at.part(kit).name} of {where}", "kit", unit, str(kit))
    row = Ground(f"slots.room/{place}", f"The cards of {at.name(place)} stand on one board.")
    stands = [every(nodes[place], because=row)] if unit != place else []
    brought = [_brought(at, nodes[kit], part) for kit in kits]
    node = every(nodes[f"lanes {place}"], *stands, nodes[unit], *brought)
    yield Named(f"card {unit}", node)
    if not isinstance(card, Network):
        sort = "controller" if isinstance(card, Controller) else "card"
        gone = f"The {card.name} in {where} is out of reach."
        yield Function(f"{sort}.{unit}", f"{card.name} in {where}", node, Effect.OUT, gone)


def _brought(at: Standing, kit: Node, part: str) -> Node:
    card = at.part(part)
    names = ", ".join(str(at.part(each).name) for each in card.brings)
    facts = at.cite(*card.brings.values())
    return every(kit, because=Ground("losing.brings", f"The {card.name} needs its {names}.", facts))

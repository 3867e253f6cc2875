"""The fault display and removable media."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.facts.parts import Display, Media, Part
from baywright.facts.places import Position, Zone
from baywright.laws.wording import listed
from baywright.service.losing.items import Effect, Function, Item, Thing
from baywright.service.losing.nodes import Node, every
from baywright.service.losing.standing import Standing


def extras(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield displays and media units with what they do."""
    for place in (*at.book.places_of(Zone), *at.book.places_of(Position)):
        for unit, name in at.units(place):
            part = at.part(name)
            if isinstance(part, Display | Media) and unit not in nodes:
                yield Thing(unit, f"{part.name} in {at.name(place)}", part.kind, unit, name)
                yield _function(at, nodes, unit, part)


def _function(at: Standing, nodes: Mapping[str, Node], unit: str, part: Part) -> Function:
    node = every(nodes["board works"], nodes[unit])
    key, name = f"{part.kind}.{unit}", str(part.name)
    if isinstance(part, Display):
        lights = [
            str(light) for light, each in at.book.lights.items() if each.needs == part_id(at, part)
        ]
        shown = f": {listed(lights)}" if lights else ""
        gone = f"The {name} and its ports are gone{shown}."
        return Function(key, name, node, Effect.OUT, gone)
    return Function(key, name, node, Effect.OUT, f"Nothing is backed up to the {name} any more.")


def part_id(at: Standing, part: Part) -> str:
    """Return the id of a part of the book."""
    return next(name for name, each in at.book.parts.items() if each is part)

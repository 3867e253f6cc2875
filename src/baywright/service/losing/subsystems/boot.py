"""Boot media: what the machine starts from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.facts.parts import Boot
from baywright.facts.places import Position
from baywright.service.losing.items import Effect, Function, Item, Named, Open, Thing
from baywright.service.losing.nodes import Ground, Node, every, some
from baywright.service.losing.standing import Standing, place_of


def boot(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield boot media, and what the machine starts from: them, or else its drives."""
    ways: list[Node] = []
    for unit, medium in _fitted(at):
        things = (
            [unit]
            if _media(medium) == 1
            else [f"{unit}.card.{i + 1}" for i in range(_media(medium))]
        )
        for number, thing in enumerate(things, 1):
            named = f"card {number} of the {medium.name}" if len(things) > 1 else str(medium.name)
            yield Thing(thing, named, "boot", unit, _part(at, unit))
        cards = [nodes[thing] for thing in things]
        mirrored = bool(medium.mirrored.known)
        because = Ground(
            "losing.boot", _sentence(medium, mirrored=mirrored), at.cite(medium.mirrored)
        )
        ways.append(some(*cards, because=because) if mirrored else every(*cards, because=because))
        if mirrored and len(cards) > 1:
            yield _mirror(medium, cards, because)
    drives = [node for key, node in nodes.items() if key.startswith("boots ")]
    if ways:
        yield Named("boot works", some(*ways))
    elif drives:
        sentence = (
            "Without a boot medium the machine starts from its drives. Common practice, no source."
        )
        yield Named("boot works", some(*drives, because=Ground("losing.boot", sentence)))
        if len(drives) > 1:
            yield Open("which drives the machine starts from", ("a boot medium in the build",))
    else:
        yield Named("boot works", every())


def _mirror(medium: Boot, cards: list[Node], because: Ground) -> Function:
    bare = "The boot medium is not mirrored any more."
    node = every(*cards, because=because)
    return Function("boot.mirrored", "mirrored boot media", node, Effect.BARE, bare, served=False)


def _fitted(at: Standing) -> Iterator[tuple[str, Boot]]:
    for place in at.book.places_of(Position):
        for unit, name in at.units(place):
            part = at.part(name)
            if isinstance(part, Boot):
                yield unit, part


def _part(at: Standing, unit: str) -> str:
    return dict(at.units(place_of(unit)))[unit]


def _media(medium: Boot) -> int:
    return medium.media.known if medium.media is not None else 1


def _sentence(medium: Boot, *, mirrored: bool) -> str:
    if mirrored:
        return f"The {medium.name} keeps the system as long as one of its media stands."
    return f"The {medium.name} is not mirrored."

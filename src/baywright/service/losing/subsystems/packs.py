"""Write caches: which energy pack saves the cache of which controller."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from baywright.facts.parts import Controller
from baywright.facts.places import Mount, Slot
from baywright.service.losing.items import Effect, Function, Item, Thing
from baywright.service.losing.nodes import Ground, Node, every, some
from baywright.service.losing.standing import Standing


def packs(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield energy packs and the write caches they save."""
    mounts = {
        place: [str(slot) for slot in mount.serves]
        for place, mount in at.book.places_of(Mount).items()
        if at.held[place]
    }
    for place in mounts:
        part = at.held[place][0]
        yield Thing(place, f"{at.part(part).name} in {at.name(place)}", "pack", place, part)
    cached = _cached(at)
    saved = served(mounts, cached)
    for slot in cached:
        yield _cache(at, nodes, slot, saved.get(slot, ""))


def _cached(at: Standing) -> list[str]:
    """Return the slots that hold a controller with a write cache."""
    return [
        unit
        for place in at.book.places_of(Slot)
        for unit, name in at.units(place)
        if isinstance(card := at.part(name), Controller) and card.flush is not None
    ]


def served(mounts: Mapping[str, Sequence[str]], slots: Sequence[str]) -> Mapping[str, str]:
    """Return a pack for each controller, as many as can have one.

    Args:
        mounts: by mount with a pack, the slots it can serve.
        slots: slots with a controller that wants one.

    >>> served({"K1": ["R1", "R2"], "K2": ["R1"]}, ["R1", "R2"])
    {'R1': 'K2', 'R2': 'K1'}
    """
    found: dict[str, str] = {}
    for mount in mounts:
        _placed(mount, mounts, slots, found, set())
    return {slot: found[slot] for slot in slots if slot in found}


def _placed(
    mount: str,
    mounts: Mapping[str, Sequence[str]],
    slots: Sequence[str],
    found: dict[str, str],
    tried: set[str],
) -> bool:
    """Give a pack a controller, moving others on where that helps (an augmenting path)."""
    for slot in mounts[mount]:
        if slot in slots and slot not in tried:
            tried.add(slot)
            if slot not in found or _placed(found[slot], mounts, slots, found, tried):
                found[slot] = mount
                return True
    return False


def _cache(at: Standing, nodes: Mapping[str, Node], slot: str, mount: str) -> Function:
    sentence = "A write cache needs a charged pack; without one the controller writes through."
    serves = at.book.places_of(Mount)[mount].serves if mount else ()
    because = Ground("losing.pack", sentence, at.cite(*serves))
    pack = every(nodes[mount], because=because) if mount else some(because=because)
    node = every(nodes[f"card {slot}"], pack)
    bare = f"The controller in {slot} writes through: its write cache is not saved."
    return Function(
        f"cache.{slot}",
        f"write cache of {slot}",
        node,
        Effect.BARE,
        bare,
        covered=f"controller.{slot}",
    )

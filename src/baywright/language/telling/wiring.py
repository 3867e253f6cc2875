"""Statements of what feeds what: lanes of processors, cables to controllers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from baywright.facts.book import Book
from baywright.facts.places import Slot, Socket, Zone
from baywright.facts.sections import Link
from baywright.language.claims import Claim
from baywright.language.stated import Stated
from baywright.language.telling.looked_up import Looked, denied, looked_up
from baywright.language.telling.terms import Bag, NotTold

FILLERS = ("be", "modal", "join=and|comma|but", "quant", "one")


@dataclass(frozen=True)
class Wiring:
    """Reads statements of wiring.

    Args:
        book: the book.
    """

    book: Book

    def owned(self, bag: Bag) -> list[Claim]:
        """Read that a place belongs to a processor: zone A hangs off processor 1."""
        sockets, others = self._places(bag)
        if len(sockets) != 1 or not others or not (bag.has("act", "feed") or bag.has("be")):
            raise NotTold
        refused = bag.took("neg", "")
        bag.took("only")
        number = self._lanes(bag)
        bag.done(*FILLERS, "act=feed")
        owners = [self._owner(name, sockets[0]) for name in others]
        claim = looked_up("owner", owners, sockets[0], whole=True)
        if number is None:
            return [denied(claim) if refused else claim]
        if refused:
            raise NotTold
        return [claim, self._link_lanes(others, number)]

    def _places(self, bag: Bag) -> tuple[list[str], list[str]]:
        names = [name for each in bag.all("place") for name in each]
        sockets = [name for name in names if name in self.book.places_of(Socket)]
        return sockets, [name for name in names if name not in sockets]

    def _lanes(self, bag: Bag) -> int | None:
        if not bag.has("field", "lanes"):
            return None
        bag.take("field", "lanes")
        if not bag.has("number"):
            return None
        values = bag.take("number")
        if len(values) != 1:
            raise NotTold
        return int(values[0])

    def _owner(self, name: str, socket: str) -> Looked:
        place = self.book.places[name]
        owner = getattr(place, "owner", None)
        if not owner:
            raise NotTold
        return Stated(f"places.{name}.owner", str(owner), place.name), owner == socket

    def _link_lanes(self, places: Sequence[str], number: int) -> Claim:
        for name, link in self.book.links.items():
            if set(link.feeds) == set(places) or (set(places) < set(link.feeds)):
                return looked_up("lanes", [_lanes_of(name, link, number)], str(number))
        raise NotTold

    def shared(self, bag: Bag) -> list[Claim]:
        """Read that places share lanes: O2 shares 16 lanes with zone C."""
        bag.need("act", "share")
        _, places = self._places(bag)
        number = self._lanes(bag)
        if len(places) < 2 or bag.has("neg"):
            raise NotTold
        bag.done(*FILLERS, "act=share")
        common = [
            (n, link) for n, link in self.book.links.items() if set(places) <= set(link.feeds)
        ]
        if not common:
            raise NotTold
        name, link = common[0]
        wanted = number if number is not None else link.lanes.known
        return [looked_up("shared lanes", [_lanes_of(name, link, wanted)], str(wanted))]

    def cabled(self, bag: Bag) -> list[Claim]:
        """Read to which slots a zone is cabled, or a controller in which serves it."""
        if not (bag.has("act", "cable") or bag.has("act", "feed")):
            raise NotTold
        _, names = self._places(bag)
        zones = [name for name in names if name in self.book.places_of(Zone)]
        slots = {name for name in names if name in self.book.places_of(Slot)}
        if not zones or not slots or len(zones) + len(slots) != len(set(names)):
            raise NotTold
        groups = bag.all("group")
        if any(group.thing.name != "controller" or group.thing.part for group in groups):
            raise NotTold
        refused, only, can = bag.took("neg"), bag.took("only"), bag.took("modal", "can")
        bag.done(*FILLERS, "act=cable|feed")
        found = [self._reached(zone, slots, only=only, can=can) for zone in zones]
        claim = looked_up("controllers", found, ", ".join(sorted(slots)), whole=True)
        return [denied(claim) if refused else claim]

    def _reached(self, zone: str, slots: set[str], *, only: bool, can: bool) -> Looked:
        held = self.book.places_of(Zone)[zone]
        reached = set(map(str, held.controllers))
        if not reached:
            raise NotTold
        stated = Stated(f"places.{zone}.controllers", ", ".join(sorted(reached)), held.name)
        if only:
            return stated, reached <= slots
        if slots & reached and not slots <= reached:
            raise NotTold
        return stated, slots == reached or (slots <= reached and can)

    def without_lanes(self, bag: Bag) -> list[Claim]:
        """Read that something uses lanes of the processors, or none of them."""
        bag.need("field", "lanes")
        if bag.has("number") or (bag.has("place") and not self._only_sockets(bag)):
            raise NotTold
        bag.all("place")
        kinds = [group.thing.name for group in bag.all("group") if group.thing.name != "processor"]
        ports = bag.all("port")
        if not kinds and not ports:
            raise NotTold
        refused = bag.took("neg")
        bag.done(*FILLERS, "filler", "need")
        fed = {str(place) for link in self.book.links.values() for place in link.feeds}
        uses = [self._uses(kind, fed) for kind in kinds] + [False for _ in ports]
        pairs: list[Looked] = [
            (Stated("links", ", ".join(sorted(fed)), self.book.book.name), use) for use in uses
        ]
        claim = looked_up("lanes", pairs, "used", whole=True)
        return [denied(claim) if refused else claim]

    def _only_sockets(self, bag: Bag) -> bool:
        names = [n for t in bag.terms if t.has("place") for n in t.senses["place"][0]]
        return all(name in self.book.places_of(Socket) for name in names)

    def _uses(self, kind: str, fed: set[str]) -> bool:
        if kind not in ("boot", "media", "display", "pack"):
            raise NotTold
        taking = [n for n, p in self.book.places.items() if kind in getattr(p, "takes", ())]
        return bool(fed & set(map(str, taking)))


def _lanes_of(name: str, link: Link, number: int) -> Looked:
    stated = Stated(f"links.{name}.lanes", link.lanes.text, name, (link.lanes,))
    return stated, link.lanes.known == number

"""Statements of ports, links and arrays: how many there are, how fast they are, what they reach."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.parts import Cage
from baywright.facts.places import Position, Slot, Zone
from baywright.language.claims import Claim
from baywright.language.stated import Stated, drive_link_rates, port_speeds
from baywright.language.telling.amounts import amount_claim
from baywright.language.telling.looked_up import Looked, denied, looked_up
from baywright.language.telling.terms import Bag, Group, NotTold, Term
from baywright.language.things import Thing

FILLERS = ("be", "filler", "modal", "join=and|comma|but", "quant", "one")


@dataclass(frozen=True)
class Ports:
    """Reads statements of ports and links.

    Args:
        book: the book.
    """

    book: Book

    def module_ports(self, bag: Bag) -> list[Claim]:
        """Read how many ports a part adds, and how fast they are."""
        self._of_places(bag)
        together = any(t.text.split()[0].casefold() in ("both", "all") for t in bag.terms)
        groups: list[Group] = bag.all("group")
        if len(groups) != 1 or groups[0].count not in (None, 1) or bag.has("neg"):
            raise NotTold
        parts = [self.book.parts[name] for name in groups[0].parts]
        ports = [(part, port) for part in parts for port in part.ports]
        kinds = bag.all("port") or (["network"] if bag.took("port_word") else [])
        bag.all("port_word")
        numbers = bag.all("number")
        if not ports or len(kinds) != 1 or len(numbers) > 1:
            raise NotTold
        sides = bag.all("side")
        wanted = int(numbers[0][0]) if numbers else 1
        found: list[Looked] = [
            (Stated(f"parts.{part.name}.ports", port.count.text, part.name, (port.count,)),
             port.count.known == wanted and all(s == port.scope for s in sides))
            for part, port in ports if port.type == kinds[0]
        ]  # fmt: skip
        if any(not so for _, so in found) and together:
            raise NotTold  # those of all modules together may be meant
        claims = [looked_up("ports", found, str(wanted))] if numbers or sides else []
        if bag.has("amount"):
            speeds = [
                Stated(f"parts.{part.name}.ports", port.speed.known, part.name, (port.speed,))
                for part, port in ports
                if port.type == kinds[0] and port.speed is not None
            ]
            claims.append(amount_claim("speed", speeds, bag.amount(("data_rate",))))
        bag.done(*FILLERS)
        return claims

    def _of_places(self, bag: Bag) -> None:
        """Put the modules that are always in a place, or fit in it, where the place is named."""
        for at, term in enumerate(bag.terms):
            names = term.senses.get("place", ((),))[0]
            slots = [self.book.places_of(Slot).get(name) for name in names]
            if len(slots) != 1 or slots[0] is None or "network" not in slots[0].takes:
                continue
            always = slots[0].always
            parts = (str(always),) if always else tuple(self.book.parts_of("network"))
            group = Group(Thing("parts", "network", "network module", "network modules"), parts)
            bag.terms[at] = Term({"group": (group,)}, term.text)

    def all_ports(self, bag: Bag) -> list[Claim]:
        """Read how many network ports the machine has, and their rate."""
        if bag.has("group") or bag.has("neg") or bag.took("port", "network") is False:
            raise NotTold
        values = bag.need("number")
        amount = bag.amount(("data_rate",))
        bag.done(*FILLERS, "side=rear")
        if len(values) != 1:
            raise NotTold
        rates = port_speeds(self.book, Thing("port", "network", "", ""))
        count = Claim("always", (f'ports("network") == {values[0]}',))
        return [count, amount_claim("speed", rates, amount)]

    def chips(self, bag: Bag) -> list[Claim]:
        """Read that the ports of a network module share one chip."""
        bag.need("field", "chips")
        number = bag.all("number")
        same = bag.took("compare", "same") or bag.took("one") or bag.took("light_where", "own")
        if not (number == [(1,)] or (not number and same)) or bag.has("neg"):
            raise NotTold
        if not (bag.has("group") or bag.has("place")):
            raise NotTold
        bag.all("group")
        bag.all("place")
        bag.done(*FILLERS, "port_word", "port=network", "act=share|feed")
        found: list[Looked] = [
            (Stated(f"parts.{name}.chips", chips.text, part.name, (chips,)), chips.known == 1)
            for name, part in self.book.parts_of("network").items()
            if isinstance(chips := getattr(part, "chips", None), Fact)
        ]
        return [looked_up("chips", found, "1")]

    def link_rate(self, bag: Bag) -> list[Claim]:
        """Read the rate at which drives of an interface, or ports, are linked."""
        if bag.has("neg") or bag.has("place"):
            raise NotTold
        found, name = self._rated(bag)
        amount = bag.amount(("data_rate",))
        bag.done(*FILLERS, "field=speed", "port_word", "act=feed|cable")
        return [amount_claim(name, found, amount)]

    def _rated(self, bag: Bag) -> tuple[list[Stated], str]:
        ports, groups, filters = bag.all("port"), bag.all("group"), bag.all("filter")
        interfaces = {f.partition("=")[2] for f in filters if f.startswith("drive.interface=")}
        interfaces |= {
            str(getattr(self.book.parts[name], "interface", ""))
            for group in groups
            for name in group.parts
        }
        others = [f for f in filters if not f.startswith("drive.interface=")]
        if others or len(ports) > 1 or bool(ports) == bool(interfaces):
            raise NotTold
        if ports:
            return port_speeds(self.book, Thing("port", ports[0], "", "")), "speed"
        if len(interfaces) != 1 or any(group.thing.name != "drive" for group in groups):
            raise NotTold
        return drive_link_rates(self.book, interfaces.pop()), "link rate"

    def lanes_per_bay(self, bag: Bag) -> list[Claim]:
        """Read how many lanes a drive of a zone uses."""
        bag.need("field", "lanes_per_bay")
        values = bag.need("number")
        places, groups = bag.need("place"), bag.all("group")
        if len(values) != 1 or bag.has("neg") or not groups:
            raise NotTold
        if any(group.thing.name != "drive" or group.count not in (None, 1) for group in groups):
            raise NotTold
        bag.done(*FILLERS, "need", "only", "act=feed")
        found = [pair for name in places for pair in self._lanes(name, groups, values[0])]
        return [looked_up("lanes per bay", found, str(values[0]))]

    def _lanes(self, place: str, groups: Sequence[Group], wanted: Fraction) -> Iterator[Looked]:
        zone = self.book.places_of(Zone).get(place)
        interfaces = {
            getattr(self.book.parts[name], "interface", "") for g in groups for name in g.parts
        }
        for name, part in self.book.parts.items():
            if zone is None or name not in zone.takes or not isinstance(part, Cage):
                continue
            if interfaces & set(part.holds) and part.lanes_per_bay is not None:
                fact = part.lanes_per_bay
                stated = Stated(f"parts.{name}.lanes_per_bay", fact.text, part.name, (fact,))
                yield stated, fact.known == wanted

    def place_port(self, bag: Bag) -> list[Claim]:
        """Read how fast the port behind a place is, in a variant."""
        places = bag.need("place")
        amount = bag.amount(("data_rate",))
        settings, practice = bag.all("setting"), bag.took("practice")
        bag.all("port"), bag.all("port_word"), bag.all("group")
        if len(places) != 1 or len(settings) > 1 or bag.has("neg"):
            raise NotTold
        bag.done(*FILLERS, "field=speed", "behind")
        place = self.book.places[places[0]]
        found = list(_port_rates(places[0], place, settings, real=practice))
        if not practice:
            found += [] if found else list(_port_rates(places[0], place, settings, real=True))
        return [amount_claim("rate", found, amount)]

    def external(self, bag: Bag) -> list[Claim]:
        """Read chains, enclosures and drives of an external controller."""
        groups: list[Group] = bag.all("group")
        found = [g for g in groups if g.thing.name == "controller"]
        parts = [self.book.parts[name] for group in found for name in group.parts]
        held = [(p, e) for p in parts if (e := getattr(p, "external", None)) is not None]
        if len(held) != 1 or len(parts) != 1 or bag.has("neg"):
            raise NotTold
        part, outside = held[0]
        wanted = _counted(bag)
        others = [g for g in groups if g not in found]
        wanted += [("drives", g.count, g.op) for g in others if g.count is not None]
        if others and bag.has("outside") and bag.has("number"):
            at = bag.where("number") or 0
            wanted.append(("drives", bag.terms[at].senses["number"][0][0], ""))
            bag.terms.pop(at)
        bag.done(*FILLERS, "act=feed|cable", "outside", "side")
        total = outside.chains.known * outside.enclosures.known * outside.drives.known
        if wanted == [("drives", total, wanted[0][2] if wanted else "")]:
            stated = Stated(outside.drives.path, outside.drives.text, part.name, (outside.drives,))
            return [looked_up("external", [(stated, True)], str(total))]
        if not wanted or any(count is None for _, count, _ in wanted):
            raise NotTold
        looked: list[Looked] = []
        for field, count, op in wanted:
            fact = getattr(outside, field)
            if op not in ("", "==", "up", "<="):
                raise NotTold
            path = f"parts.{part.name}.external.{field}"
            looked.append((Stated(path, fact.text, part.name, (fact,)), fact.known == count))
        return [looked_up("external", looked, "so many", whole=True)]

    def arrays(self, bag: Bag) -> list[Claim]:
        """Read how many drives an array holds, as none spans controllers."""
        bag.need("array_word")
        bag.all("largest"), bag.all("one")
        if any(values != (1,) for values in bag.all("number")):
            raise NotTold
        groups: list[Group] = bag.all("group")
        controllers = [g for g in groups if g.thing.name == "controller"]
        drives = [g for g in groups if g.thing.name == "drive"]
        spans = bag.took("act", "span")
        refused = bag.took("neg")
        bag.done(*FILLERS, "need")
        held = [
            (part, most)
            for part in self.book.parts.values()
            if isinstance(most := getattr(part, "drives_most", None), Fact)
        ]
        if len(held) != 1:
            raise NotTold
        part, most = held[0]
        stated = Stated(most.path, most.text, part.name, (most,))
        if spans and len(controllers) == 1 and not drives:
            claim = looked_up("array", [(stated, False)], "over several controllers")
        elif len(drives) == 1 and drives[0].count is not None and not controllers:
            if drives[0].count < most.known:
                raise NotTold
            claim = looked_up("array", [(stated, drives[0].count == most.known)], "drives")
        else:
            raise NotTold
        return [denied(claim) if refused else claim]


def _counted(bag: Bag) -> list[tuple[str, Fraction | None, str]]:
    """Take numbers of chains and of enclosures out: each stands before its noun."""
    found: list[tuple[str, Fraction | None, str]] = []
    for sort, value, field in (("feature", "chains", "chains"), ("enclosure", "", "enclosures")):
        at = bag.where(sort, value)
        if at is None:
            continue
        if at == 0 or not bag.terms[at - 1].has("number"):
            raise NotTold
        number = bag.terms[at - 1].senses
        found.append((field, number["number"][0][0], number["op"][0]))
        del bag.terms[at - 1 : at + 1]
    return found


def _port_rates(
    name: str, place: object, settings: Sequence[str], *, real: bool
) -> Iterator[Stated]:
    if not isinstance(place, Position):
        return
    wanted = [f'{s.partition("=")[0]} == "{s.partition("=")[2]}"' for s in settings]
    named = [port for port in place.ports if str(port.when) in wanted]
    for port in named or [port for port in place.ports if not (wanted and port.when)]:
        fact = port.rate if real else port.speed
        if fact is not None:
            yield Stated(f"places.{name}.ports", fact.known, place.name, (fact,))

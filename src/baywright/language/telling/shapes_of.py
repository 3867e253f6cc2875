"""Statements of what parts and slots are like: length, width, lanes, generation, ports, chips."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.parts import Cage
from baywright.facts.places import Position, Slot, Zone
from baywright.facts.sections import Chassis
from baywright.language.claims import Claim, FactClaim
from baywright.language.stated import Stated, drive_link_rates, generations, port_speeds
from baywright.language.telling.amounts import amount_claim
from baywright.language.telling.looked_up import Looked, denied, looked_up
from baywright.language.telling.terms import Bag, Group, NotTold
from baywright.language.things import Thing
from baywright.units import Quantity

FILLERS = ("be", "filler", "modal", "join=and|comma|but", "quant", "one")


@dataclass(frozen=True)
class Likeness:
    """Reads statements of what parts and places are like.

    Args:
        book: the book.
    """

    book: Book

    def shaped(self, bag: Bag) -> list[Claim]:
        """Read lengths, heights, widths and lanes of cards and slots."""
        shapes = bag.all("shape")
        self._drop_cards(bag)
        generation = bag.take("generation") or bag.take("generation_word")
        owners = list(self._owners(bag))
        every = bag.has("quant", "every")
        refused = bag.took("neg")
        if not shapes or bag.has("number") or bag.has("amount"):
            raise NotTold
        bag.done(*FILLERS, "shape_noun", "gen_filler")
        pairs = [shape.split("=") for shape in shapes]
        claims = [
            looked_up(field, [_attribute(*owner, field, value) for owner in owners], value,
                      whole=every)
            for field, value in pairs
        ]  # fmt: skip
        if generation:
            held = [_attribute(*owner, "generation", str(generation))[0] for owner in owners]
            claims.append(_generation(held, str(generation)))
        if refused and len(claims) > 1:
            raise NotTold
        return [denied(claim) if refused else claim for claim in claims]

    def _drop_cards(self, bag: Bag) -> None:
        """Leave out the noun that only says that parts are cards.

        Raises:
            NotTold: when slots and cards are named, as what a slot takes is not what it is.
        """
        cards = [t for t in bag.terms if t.has("group") and t.text.casefold() in _CARD_NOUNS]
        if cards and (bag.has("feature", "slots") or bag.has("place")):
            raise NotTold
        others = [t for t in bag.terms if t.has("group") and t not in cards]
        if others:
            bag.terms = [term for term in bag.terms if term not in cards]

    def _owners(self, bag: Bag) -> Iterator[tuple[str, object, str]]:
        """Yield path, model and name of what is described."""
        named = bag.all("place")
        for name in (n for names in named for n in names):
            yield f"places.{name}", self.book.places[name], self.book.places[name].name
        groups: list[Group] = bag.all("group")
        for group in groups:
            if group.count not in (None, 1):
                raise NotTold
            for name in group.parts:
                yield f"parts.{name}", self.book.parts[name], self.book.parts[name].name
        if not named and not groups:
            if not bag.took("feature", "slots"):
                raise NotTold
            yield from self._slots()

    def _slots(self) -> Iterator[tuple[str, object, str]]:
        for name, slot in self.book.places_of(Slot).items():
            if "network" not in slot.takes:
                yield f"places.{name}", slot, slot.name

    def slot_power(self, bag: Bag) -> list[Claim]:
        """Read how much a slot gives its card."""
        if not (bag.has("feature", "slots") or bag.has("place")) or bag.has("neg"):
            raise NotTold
        if any(g.thing.part or g.count is not None for g in bag.all("group")):
            raise NotTold
        owners = list(self._owners(bag))
        amount = bag.amount(("power",))
        bag.done(*FILLERS, "field=rating|power", "hint=rating", "power_word")
        found = [
            Stated(f"{path}.power", held.power.known, name, (held.power,))
            for path, held, name in owners
            if isinstance(held, Slot) and held.power is not None
        ]
        return [amount_claim("power", found, amount)]

    def generation(self, bag: Bag) -> list[Claim]:
        """Read the generation of memory, slots, lanes or cards."""
        wanted = bag.take("generation") or bag.take("generation_word")
        if not wanted or bag.has("number") or bag.has("amount"):
            raise NotTold
        refused = bag.took("neg")
        found = list(self._generations(bag, str(wanted)))
        if refused or not found:
            raise NotTold
        bag.all("place")
        bag.done(*FILLERS, "gen_filler", "shape_noun", "feature=slots", "only")
        return [_generation(found, str(wanted))]

    def _generations(self, bag: Bag, wanted: str) -> Iterator[Stated]:
        groups: list[Group] = bag.all("group")
        for name in (name for group in groups for name in group.parts):
            part = self.book.parts[name]
            value = getattr(part, "generation", None) or getattr(part, "lane_generation", None)
            if not value:
                raise NotTold
            yield Stated(f"parts.{name}.generation", str(value), part.name)
        for names in bag.all("place") if not groups else ():
            for name in names:
                yield Stated(f"places.{name}.generation", self._of_place(name), name)
                groups = groups or [Group(Thing("parts", "", "", ""), ())]
        if not groups:
            subject = "memory" if wanted.startswith("DDR") else "slots"
            if bag.took("feature", "lanes") or bag.took("field", "lanes"):
                subject = "lanes"
            for path, value in generations(self.book, subject).items():
                yield Stated(path, value, self.book.book.name)

    def _of_place(self, name: str) -> str:
        slot = self.book.places_of(Slot).get(name)
        if slot is None or not slot.generation:
            raise NotTold
        return str(slot.generation)

    def module_ports(self, bag: Bag) -> list[Claim]:
        """Read how many ports a part adds, and how fast they are."""
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
        if any(not so for _, so in found) and (groups[0].every or bag.has("quant")):
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

    def chips(self, bag: Bag) -> list[Claim]:
        """Read that the ports of a network module share one chip."""
        bag.need("field", "chips")
        number = bag.all("number")
        if not (number == [(1,)] or (not number and bag.took("one"))) or bag.has("neg"):
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

    def sized(self, bag: Bag) -> list[Claim]:
        """Read the three sizes of the machine at once: 210 x 300 x 42 mm."""
        if bag.has("group") or bag.has("neg"):
            raise NotTold
        amount = bag.amount(("length",))
        bag.done(*FILLERS)
        chassis = self.book.chassis
        facts = (chassis.width, chassis.depth, chassis.height)
        name = self.book.book.name
        if len(amount.values) != len(facts) or amount.op or amount.ends:
            raise NotTold
        wanted = sorted(Quantity(value, amount.unit).canonical for value in amount.values)
        so = wanted == sorted(fact.known.canonical for fact in facts)
        if not so and sorted(amount.values) == sorted(fact.known.magnitude for fact in facts):
            return [Claim("fact", facts=(_other_unit("sizes", facts, name),))]
        found: list[Looked] = [(Stated(f.path, f.known, name, (f,)), so) for f in facts]
        return [looked_up("sizes", found, f"{amount.unit}")]

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
        others = [g for g in groups if g not in found and (g.count is not None or g.every)]
        wanted += [("drives", g.count, g.op) for g in others]
        bag.done(*FILLERS, "act=feed|cable")
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

    def mirrored(self, bag: Bag) -> list[Claim]:
        """Read whether the media of a boot device are mirrored."""
        if not (bag.took("field", "mirrored") or bag.took("act", "mirror")):
            raise NotTold
        named: list[Group] = bag.all("group")
        groups = [group for group in named if group.thing.name == "boot"]
        others = [group for group in named if group not in groups]
        if any(
            g.thing.part or g.thing.name not in _SMALL or g.count not in (None, 2) for g in others
        ):
            raise NotTold
        numbers = bag.all("number")
        refused = bag.took("neg")
        if len(groups) != 1 or any(values not in ((1,), (2,)) for values in numbers):
            raise NotTold
        bag.done(*FILLERS, "field=media")
        found: list[Looked] = [
            (Stated(f"parts.{name}.mirrored", fact.text, self.book.parts[name].name, (fact,)),
             bool(fact.known))
            for name in groups[0].parts
            if isinstance(fact := getattr(self.book.parts[name], "mirrored", None), Fact)
        ]  # fmt: skip
        claim = looked_up("mirrored", found, "yes")
        return [denied(claim) if refused else claim]

    def beside(self, bag: Bag) -> list[Claim]:
        """Read how many machines stand beside each other in a tray."""
        fact = self.book.chassis.side_by_side
        if fact is None or not (bag.took("field", "side_by_side") or bag.took("act", "share")):
            raise NotTold
        values = bag.need("number")
        if len(values) != 1 or bag.has("neg"):
            raise NotTold
        self._tray(bag, self.book.chassis)
        stated = Stated("chassis.side_by_side", fact.text, self.book.book.name, (fact,))
        claim = looked_up("side by side", [(stated, fact.known == values[0])], str(values[0]))
        return [claim]

    def _tray(self, bag: Bag, chassis: Chassis) -> None:
        """Take a tray out; its height has to be that of the book."""
        trays = bag.all("setting")
        if any(not tray.endswith("=tray") for tray in trays):
            raise NotTold
        height = chassis.tray_height
        for amount in bag.all("amount"):
            if height is None or (amount.unit, amount.values) != ("U", (height.known.magnitude,)):
                raise NotTold
        bag.done(*FILLERS, "tray")


_CARD_NOUNS = ("card", "cards", "module", "modules")
_SMALL = ("drive", "card", "accelerator")
"""Kinds of part whose nouns are said of small boot media too."""


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


def _other_unit(name: str, facts: Sequence[Fact[Quantity]], owner: str) -> FactClaim:
    """Return the claim of numbers that are right with another unit."""
    stated = tuple(Stated(fact.path, fact.known, owner, (fact,)) for fact in facts)
    return FactClaim(name, stated, word="unit", found="unit")


def _generation(found: Sequence[Stated], wanted: str) -> Claim:
    held = FactClaim("generation", tuple(found), word=wanted)
    return Claim("generation", facts=(held,))


def _attribute(path: str, held: object, name: str, field: str, value: str) -> Looked:
    """Return an attribute of a part or a place, and whether it is as it is said."""
    found = getattr(held, field, None)
    if found is None and field == "slots" and hasattr(held, "slots"):
        return Stated(f"{path}.slots", "1", name), value == "1"
    if found is None:
        raise NotTold
    text = found.text if isinstance(found, Fact) else str(found)
    facts = (found,) if isinstance(found, Fact) else ()
    return Stated(f"{path}.{field}", text, name, facts), text == value


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

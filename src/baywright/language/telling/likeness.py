"""Statements of what parts and slots are like: length, width, lanes, generation, ports, chips."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.parts import Supply
from baywright.facts.places import Slot
from baywright.facts.sections import Chassis
from baywright.language.claims import Claim, FactClaim
from baywright.language.stated import Stated, generations
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
        if bag.has("only") and bag.has("place"):
            return [self._only_these(bag, shapes)]
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

    def _only_these(self, bag: Bag, shapes: list[str]) -> Claim:
        """Return the claim that these slots, and no others, are of a shape."""
        bag.need("only")
        names = {name for held in bag.all("place") for name in held}
        if len(shapes) != 1 or bag.has("neg"):
            raise NotTold
        bag.done(*FILLERS)
        field, _, value = shapes[0].partition("=")
        pairs = [
            (path, _attribute(path, slot, name, field, value)) for path, slot, name in self._slots()
        ]
        looked = [(each, so == (path.partition(".")[2] in names)) for path, (each, so) in pairs]
        return looked_up(field, looked, value, whole=True)

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

    def inlets(self, bag: Bag) -> list[Claim]:
        """Read the inlet of supplies."""
        wanted = bag.need("inlet_type")
        groups: list[Group] = bag.all("group")
        if any(g.thing.name != "supply" or g.count not in (None, 1) for g in groups):
            raise NotTold
        every = bag.has("quant", "every") or any(group.every for group in groups)
        refused = bag.took("neg")
        bag.done(*FILLERS, "field=inlet")
        names = [n for g in groups for n in g.parts] or list(self.book.parts_of("supply"))
        found: list[Looked] = [
            (Stated(f"parts.{name}.inlet", part.inlet, part.name), part.inlet == wanted)
            for name in names
            for part in (self.book.parts[name],)
            if isinstance(part, Supply) and part.inlet
        ]
        claim = looked_up("inlet", found, wanted, whole=every)
        return [denied(claim) if refused else claim]

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

"""Noun phrases: a thing with its quantifier, comparison, number, attributes and places."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from baywright.facts.book import Book
from baywright.language import trade
from baywright.language.attributes import known_kind, with_amount, with_cores, with_filter
from baywright.language.glossary import Slot, plural
from baywright.language.named_places import How, Places, all_of_a_kind, how_of
from baywright.language.things import Measure, Thing
from baywright.terms import Vocabulary

ANYTHING = Thing("number", "", "", "")
"""Stands for what a bare number or amount counts, until the sentence tells."""

DIMENSIONS = {
    "memory": "memory", "memory_speed": "transfer_rate", "load": "power",
    "raw_capacity": "capacity", "mass": "mass", "price": "money", "voltage": "voltage",
}  # fmt: skip
"""Dimension of the numbers of a build that are amounts."""

NOUNS = {
    "memory_sockets": "memory socket", "processor_sockets": "processor socket",
    "channels": "memory channel", "slots": "slot", "risers": "riser", "zones": "front zone",
    "lanes": "PCIe lane", "mounts": "pack mount", "network_positions": "network position",
    "supply_bays": "supply bay", "places": "accelerator place", "boards": "switch board",
    "chains": "chain",
    "memory": "memory", "memory_speed": "memory speed", "load": "peak draw", "cores": "core",
    "bays": "drive bay", "raw_capacity": "raw capacity", "price": "list price", "mass": "weight",
}  # fmt: skip
"""What features and numbers are called in sentences."""


@dataclass
class _Prefix:
    """What stands before the head of a noun phrase."""

    op: str = ""
    quant: str = ""
    numbers: list[Fraction] = field(default_factory=list)
    amounts: list[tuple[Fraction, str]] = field(default_factory=list)
    cores: list[Fraction] = field(default_factory=list)
    filters: list[str] = field(default_factory=list)
    generation: str = ""
    side: str | None = None

    @property
    def interfaces_alone(self) -> bool:
        """Say whether it names interfaces of drives and nothing else, so that drives are meant."""
        named = self.filters and all(each.startswith("drive.interface") for each in self.filters)
        return bool(named) and not (self.numbers or self.amounts or self.cores or self.op)

    @property
    def describes(self) -> bool:
        """Say whether it has an attribute, so that one or ones can stand for the noun."""
        second = self.op == ">" and bool(self.numbers)
        return second or bool(self.filters or self.cores or self.amounts)

    def take(self, slot: Slot, *, head_follows: bool) -> bool:
        """Take a phrase in; say whether it belongs before the head."""
        counted = bool(self.numbers or self.amounts)
        if slot.has("stop") or (slot.has("times") and self.numbers):
            return True
        if slot.has("op") and not counted:
            self.op = slot.of("op")[0]
        elif slot.has("quant"):
            self.quant = slot.of("quant")[0]
        elif slot.has("ordinal") and not self.numbers:
            self.op, self.numbers = ">", [Fraction(slot.of("ordinal")[0]) - 1]
        else:
            return self._take_attribute(slot, head_follows=head_follows) or (
                slot.has("link", "of") and (counted or bool(self.quant))
            )
        return True

    def _take_attribute(self, slot: Slot, *, head_follows: bool) -> bool:
        if slot.has("generation"):
            self.generation = slot.of("generation")[0]
        elif slot.has("filter"):
            self.filters.append(slot.of("filter")[0])
        elif slot.has("side") and head_follows:
            self.side = slot.of("side")[0]
        else:
            return False
        return True


@dataclass(frozen=True)
class Nouns:
    """Reads noun phrases about a book.

    Args:
        book: the book.
        vocabulary: what expressions about it may speak of.
    """

    book: Book
    vocabulary: Vocabulary

    def measures(self, slots: Sequence[Slot], at: int) -> tuple[tuple[Measure, ...], int] | None:
        """Read a noun phrase; several measures when several attributes are listed.

        Returns:
            The measures and the position after the phrase, or ``None`` when there is none.
        """
        prefix, here = self._prefix(slots, at)
        heads, after = self._head(slots, here, prefix)
        if heads and heads[0].name in ("inlet", "inlet_limit") and prefix.amounts:
            return self._bare(prefix, slots, after)
        if not heads and prefix.interfaces_alone:
            heads, after = self._of_kind("drive"), here
        if not heads:
            return self._bare(prefix, slots, here) if here > at else None
        things = [each for head in heads for each in self._qualified(head, prefix)]
        if not things:
            return None
        used = replace_numbers(prefix, heads[0])
        plural_form = after > here and slots[after - 1].text.endswith("s")
        op, values, unit = used
        found = tuple(Measure(t, op, values, unit, prefix.quant, plural_form) for t in things)
        return self._suffix(found, slots, after)

    def _prefix(self, slots: Sequence[Slot], at: int) -> tuple[_Prefix, int]:
        prefix, here = _Prefix(), at
        while here < len(slots):
            step = self._step(prefix, slots, here)
            if step == here:
                break
            here = step
        return prefix, here

    def _step(self, prefix: _Prefix, slots: Sequence[Slot], here: int) -> int:
        """Take one phrase into the prefix; return the same position where it ends."""
        slot = slots[here]
        if _is_head(slot) and not slot.has("op"):
            return here
        if prefix.describes and slot.text.casefold() in _PRONOUNS:
            return here
        if _is_number(slot):
            return _numbers(prefix, slots, here)
        head_follows = here + 1 < len(slots) and _is_head(slots[here + 1])
        return here + prefix.take(slot, head_follows=head_follows)

    def _head(self, slots: Sequence[Slot], at: int, prefix: _Prefix) -> tuple[list[Thing], int]:
        if at >= len(slots):
            return [], at
        slot = _meant(slots, at) if prefix.describes else slots[at]
        found = [
            thing
            for sort in ("kind", "parts", "feature", "port", "figure", "field")
            for value in slot.of(sort)
            for thing in self._thing(sort, value)
        ]
        if found and slot.has("feature", "slots") and prefix.side is not None:
            return [], at
        named = at + 1 < len(slots) and slots[at + 1].has("id")
        if slot.has("feature", "zones", "slots") and named:
            return [], at
        return found[:1], at + 1 if found else at

    def _thing(self, sort: str, value: str) -> list[Thing]:
        if sort == "parts":
            part = self.book.parts[value]
            return [Thing("parts", part.kind, part.name, plural(part.name), part=value)]
        if sort == "kind":
            return self._of_kind(value)
        if sort == "port":
            one = f"{value.upper() if value == 'usb' else value} port"
            return [Thing("port", value, one, plural(one))]
        if sort == "figure":
            noun = NOUNS[value]
            dimension = DIMENSIONS.get(value, "")
            return [Thing("number", value, noun, plural(noun), dimension=dimension)]
        noun = NOUNS.get(value, value.replace("_", " "))
        return [Thing("feature" if sort == "feature" else "field", value, noun, plural(noun))]

    def _of_kind(self, kind: str) -> list[Thing]:
        if kind == "card" and not known_kind(self.book, kind):
            kind = "accelerator"
        one = trade.NOUNS["kind"].get(kind, kind).partition(", ")[0]
        many = plural(one)
        absent = not known_kind(self.book, kind)
        return [Thing("parts", kind, one, many, absent=absent)]

    def _qualified(self, head: Thing, prefix: _Prefix) -> list[Thing]:
        """Return the things with their attributes; none when an attribute does not go with them."""
        things: list[Thing | None] = [head]
        if prefix.generation:
            things = [replace(head, generation=prefix.generation)]
        if prefix.side is not None:
            sides = (prefix.side,) if prefix.side else ()
            ports = head.sort == "port"
            things = [replace(t, sides=sides) if t and ports else None for t in things]
        for text in prefix.filters:
            things = [with_filter(self.book, t, text) if t else None for t in things]
        if prefix.cores:
            things = [
                with_cores(self.book, t, c) if t else None for t in things for c in prefix.cores
            ]
        if prefix.amounts and head.sort in ("parts", "port"):
            things = [
                with_amount(self.book, t, number, unit) if t else None
                for t in things
                for number, unit in prefix.amounts
            ]
        return [] if None in things else [t for t in things if t is not None]

    def _bare(
        self, prefix: _Prefix, slots: Sequence[Slot], here: int
    ) -> tuple[tuple[Measure, ...], int] | None:
        """Return a number or amount without a head."""
        if prefix.filters or prefix.cores or prefix.generation or prefix.side is not None:
            return None
        if prefix.amounts and not prefix.numbers:
            units = {unit for _, unit in prefix.amounts}
            values = tuple(number for number, _ in prefix.amounts)
            if len(units) == 1:
                unit = units.pop()
                op = prefix.op
                if not op and _closing_op(slots, here):
                    op, here = slots[here].of("op")[0], here + 1
                return (Measure(ANYTHING, op, values, unit, prefix.quant),), here
        if prefix.numbers and not prefix.amounts:
            return (Measure(ANYTHING, prefix.op, tuple(prefix.numbers), "", prefix.quant),), here
        return None

    def _suffix(
        self, found: tuple[Measure, ...], slots: Sequence[Slot], at: int
    ) -> tuple[tuple[Measure, ...], int]:
        """Read what follows the head: places, sides, an amount after of, a comparison."""
        here = at
        while here < len(slots):
            step = self._after(found, slots, here)
            if step is None:
                break
            found, here = step
        return found, here

    def _after(
        self, found: tuple[Measure, ...], slots: Sequence[Slot], here: int
    ) -> tuple[tuple[Measure, ...], int] | None:
        slot = slots[here]
        if _closing_op(slots, here) and not found[0].op and found[0].values:
            return tuple(replace(m, op=slot.of("op")[0]) for m in found), here + 1
        places = self.place(slots, here)
        if places is not None and found[0].thing.sort == "parts" and not found[0].thing.at:
            at, after = places
            if how_of(at) == "every":
                return None
            return tuple(replace(m, thing=m.thing.placed(at)) for m in found), after
        sides = self.sides(slots, here)
        if sides is not None and found[0].thing.sort == "port" and not found[0].thing.sides:
            side, after = sides
            return tuple(replace(m, thing=replace(m.thing, sides=side)) for m in found), after
        if slot.has("link", "of") and here + 1 < len(slots):
            if slots[here + 1].has("amount") or slots[here + 1].has("number"):
                return self._of_amount(found, slots, here + 1)
            return _purpose(found, slots, here + 1)
        return None

    def _of_amount(
        self, found: tuple[Measure, ...], slots: Sequence[Slot], here: int
    ) -> tuple[tuple[Measure, ...], int] | None:
        prefix = _Prefix()
        after = _numbers(prefix, slots, here)
        if found[0].thing.sort in ("field", "number", "feature"):
            values, unit = _one_unit(prefix)
            free = not found[0].values and bool(values)
            return ((replace(found[0], values=values, unit=unit),), after) if free else None
        things = [
            with_amount(self.book, m.thing, number, unit)
            for m in found
            for number, unit in prefix.amounts
        ]
        if not things or None in things:
            return None
        return tuple(replace(found[0], thing=t) for t in things if t is not None), after

    def place(self, slots: Sequence[Slot], at: int) -> tuple[Places, int] | None:
        """Read a place after a word such as in: ``in zones A and B``, ``in slot R1a``."""
        here = at
        if here < len(slots) and slots[here].text.casefold() in _IN_EACH:
            return all_of_a_kind(self.book, slots, at, inside=True)
        if here < len(slots) and slots[here].has("link", "in", "at"):
            here = _skip(slots, here + 1)
            named = self.named_place(slots, here)
            return named or all_of_a_kind(self.book, slots, at + 1, inside=True)
        return None

    def named_place(self, slots: Sequence[Slot], at: int) -> tuple[Places, int] | None:
        """Read places by name: ``zone C``, ``slots R1a and R3a``, ``riser 1``, ``each zone``."""
        if at >= len(slots):
            return None
        slot = slots[at]
        every = all_of_a_kind(self.book, slots, at, inside=False)
        if every is not None:
            return every
        quantified = slot.has("quant", "every", "both") and at + 2 < len(slots)
        if quantified and slots[at + 1].has("feature") and slots[at + 2].has("id"):
            named = self._ids(slots, at + 2, alone=False)
            each: How = "every" if slot.text.casefold() in ("each", "every", "either") else ""
            return (Places.of(named[0].groups, each), named[1]) if named else None
        if slot.has("place"):
            return Places.of(tuple(each.split()) for each in slot.of("place")), at + 1
        here = at + 1 if slot.has("feature", "zones", "slots", "boards") else at
        return self._ids(slots, here, alone=here == at)

    def _ids(self, slots: Sequence[Slot], start: int, *, alone: bool) -> tuple[Places, int] | None:
        """Read ids of places and the words that join them; an id of one letter needs its noun."""
        names: list[str] = []
        here, either = start, False
        while here < len(slots) and slots[here].has("id"):
            if alone and here == start and len(slots[here].text) == 1:
                return None
            names += slots[here].of("id")
            here += 1
            step = _next_id(slots, here)
            either = either or any(slot.has("link", "or") for slot in slots[here:step])
            here = step
        if not names:
            return None
        return Places.of(((name,) for name in names), "every" if either else ""), here

    def sides(self, slots: Sequence[Slot], at: int) -> tuple[tuple[str, ...], int] | None:
        """Read sides of the machine: ``at the rear``, ``front, rear and inside together``."""
        here, found = at, list[str]()
        while here < len(slots):
            if slots[here].has("side"):
                found.append(slots[here].of("side")[0])
                here += 1
            elif found and slots[here].has("link", "and", "comma") and _side_follows(slots, here):
                here += 1
            else:
                break
        if not found:
            return None
        if here < len(slots) and slots[here].text == "together":
            here += 1
        return tuple(side for side in found if side), here


def _closing_op(slots: Sequence[Slot], at: int) -> bool:
    """Say whether a comparison closes a phrase: "two at most", not "one, at most two"."""
    if at >= len(slots) or not slots[at].has("op", "<=", ">="):
        return False
    return at + 1 == len(slots) or not _is_number(slots[at + 1])


def _is_number(slot: Slot) -> bool:
    return slot.has("number") or slot.has("amount") or slot.has("count")


def replace_numbers(prefix: _Prefix, head: Thing) -> tuple[str, tuple[Fraction, ...], str]:
    """Return comparison, numbers and unit that a phrase claims of its head."""
    if head.sort in ("parts", "port") or not prefix.amounts:
        return prefix.op, tuple(prefix.numbers), ""
    units = {unit for _, unit in prefix.amounts}
    unit = units.pop() if len(units) == 1 else ""
    return prefix.op, tuple(number for number, _ in prefix.amounts), unit


_PURPOSES = {
    ("processor_sockets", "memory"): "memory_sockets", ("slots", "accelerator"): "slots",
    ("slots", "card"): "slots", ("bays", "drive"): "bays", ("zones", "drive"): "zones",
}  # fmt: skip
"""What sockets for memory, slots for cards and bays for drives are."""


def _purpose(
    found: tuple[Measure, ...], slots: Sequence[Slot], here: int
) -> tuple[tuple[Measure, ...], int] | None:
    kinds = (*slots[here].of("kind"), *slots[here].of("figure"))
    for kind in kinds:
        name = _PURPOSES.get((found[0].thing.name, kind))
        if name is not None:
            noun = NOUNS[name]
            thing = replace(found[0].thing, name=name, one=noun, many=plural(noun))
            return (replace(found[0], thing=thing),), here + 1
    return None


def _next_id(slots: Sequence[Slot], here: int) -> int:
    """Return the position of the next id of a list, or the same where the list ends."""
    step = here
    while step < len(slots) and slots[step].has("link", "and", "or", "comma"):
        step += 1
    return step if step < len(slots) and slots[step].has("id") else here


def _one_unit(prefix: _Prefix) -> tuple[tuple[Fraction, ...], str]:
    units = {unit for _, unit in prefix.amounts}
    if len(units) != 1:
        return (), ""
    return tuple(number for number, _ in prefix.amounts), units.pop()


def _numbers(prefix: _Prefix, slots: Sequence[Slot], here: int) -> int:
    """Read one number or a list of them, with the unit of the last: 800, 1300 and 2000 W."""
    values: list[Fraction] = []
    while here < len(slots):
        slot = slots[here]
        if slot.has("amount"):
            values.append(slot.token.number)
            prefix.amounts += [(value, slot.token.unit) for value in values]
            return _more_amounts(prefix, slots, here + 1)
        values.append(Fraction(slot.of("count")[0]) if slot.has("count") else slot.token.number)
        here += 1
        step = _next_number(slots, here)
        if step == here:
            break
        here = step
    if here < len(slots) and slots[here].has("core") and _kind_follows(slots, here + 1):
        prefix.cores += values
        return here + 1
    prefix.numbers += values
    return here


def _more_amounts(prefix: _Prefix, slots: Sequence[Slot], here: int) -> int:
    """Read further amounts of the same unit: 32 GB and 64 GB, an 800 W and a 1300 W."""
    unit = prefix.amounts[-1][1]
    step = here
    while step < len(slots) and (
        slots[step].has("link", "and", "or", "comma", "with") or slots[step].has("stop")
    ):
        step += 1
    if step == here or step >= len(slots) or not slots[step].has("amount"):
        return here
    if slots[step].token.unit != unit:
        return here
    prefix.amounts.append((slots[step].token.number, unit))
    return _more_amounts(prefix, slots, step + 1)


def _next_number(slots: Sequence[Slot], here: int) -> int:
    """Return the position of the next number of a list, or the same where the list ends."""
    step = here
    while step < len(slots) and (
        slots[step].has("link", "and", "or", "comma") or slots[step].text == "to"
    ):
        step += 1
    follows = step < len(slots) and (slots[step].has("number") or slots[step].has("amount"))
    return step if follows and step > here else here


def _kind_follows(slots: Sequence[Slot], here: int) -> bool:
    return here < len(slots) and _meant(slots, here).has("kind", "processor")


_IN_EACH = ("on each", "in each", "to each", "on every", "for each", "for every")
"""Words that are per as well: on each switch board."""

_PRONOUNS = ("one", "ones")


def _meant(slots: Sequence[Slot], at: int) -> Slot:
    """Return the noun that one or ones stands for: the last kind of part named before."""
    if slots[at].text.casefold() not in _PRONOUNS:
        return slots[at]
    named = [slot for slot in slots[:at] if slot.has("kind")]
    return named[-1] if named else slots[at]


def _is_head(slot: Slot) -> bool:
    return any(slot.has(sort) for sort in ("parts", "kind", "feature", "port", "figure", "field"))


def _skip(slots: Sequence[Slot], here: int) -> int:
    while here < len(slots) and slots[here].has("stop"):
        here += 1
    return here


def _side_follows(slots: Sequence[Slot], here: int) -> bool:
    after = here + 1
    while after < len(slots) and slots[after].has("link", "and", "comma"):
        after += 1
    return after < len(slots) and slots[after].has("side")

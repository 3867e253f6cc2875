"""Cutting a sentence into terms: numbers join their units, attributes join what they describe."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Any

from baywright.facts.book import Book
from baywright.facts.parts import Supply
from baywright.facts.places import Socket, Supplies
from baywright.language.attributes import parts_of, with_amount, with_cores, with_filter
from baywright.language.glossary import Glossary, Senses, Slot, glossary, plural
from baywright.language.nouns import Nouns
from baywright.language.telling.occasions import releases
from baywright.language.telling.terms import Amount, Group, Term
from baywright.language.telling.words import VERBS, WORDS, inflected
from baywright.language.things import Thing
from baywright.language.tokens import tokens
from baywright.language.trade import NOUNS
from baywright.terms import Vocabulary
from baywright.units.lookup import dimension_of

SHARED = frozenset(
    [
        "kind",
        "parts",
        "feature",
        "port",
        "filter",
        "op",
        "count",
        "ordinal",
        "machine",
        "id",
        "place",
        "setting",
        "inlet_type",
        "generation",
        "core",
        "model",
    ]
)
"""Sorts of sense that are taken over from the glossary of the book."""

_NO_NOUNS = {("chip",), ("chips",), ("part",), ("parts",)}
"""Nouns that are too general in statements of facts."""

RELATIVES = {
    "predecessor": "predecessor, forerunner, old machine, older machine, previous machine, "
    "previous generation, precursor",
    "successor": "successor, newer machine, follow up",
}


@dataclass(frozen=True)
class Cutter:
    """Cuts sentences about a book into terms.

    Args:
        book: the book.
        related: books of the machines it is compared with, by id.
        vocabulary: what expressions about it may speak of.
    """

    book: Book
    related: Mapping[str, Book]
    vocabulary: Vocabulary

    @cached_property
    def _glossary(self) -> Glossary:
        held: dict[tuple[str, ...], dict[str, tuple[str, ...]]] = {}
        for words, senses in glossary(self.book, self.related).phrases.items():
            kept = {sort: values for sort, values in senses.items() if sort in SHARED}
            if "machine" in kept:
                kept["machine"] = tuple(value for value in kept["machine"] if not value)
                kept = {sort: values for sort, values in kept.items() if values}
            if "op" in kept and words[0] in ("faster", "slower", "higher"):
                kept.pop("op")
            if words in _NO_NOUNS:
                kept.pop("kind", None)
            if any(value.startswith("system=") for value in kept.get("setting", ())):
                continue  # a release is read as the name of the system and a number
            if kept:
                held[words] = kept
        for phrase, sort, value in self._entries():
            words = tuple(token.folded for token in tokens(phrase))
            senses_of = held.setdefault(words, {})
            if value not in senses_of.get(sort, ()):
                senses_of[sort] = (*senses_of.get(sort, ()), value)
        phrases: Mapping[tuple[str, ...], Senses] = held
        return Glossary(self.book, self.related, phrases, max(map(len, phrases)))

    def _entries(self) -> Iterator[tuple[str, str, str]]:
        for sort, table in VERBS.items():
            for value, listed in table.items():
                for entry in listed.split(", "):
                    yield from ((form, sort, value) for form in inflected(entry))
        for sort, table in WORDS.items():
            for value, listed in table.items():
                phrases = [listed] if listed == "," else listed.split(", ")
                yield from ((phrase, sort, value) for phrase in phrases)
        yield from self._of_book()

    def _of_book(self) -> Iterator[tuple[str, str, str]]:
        """Yield the phrases that stand in the facts of the book themselves."""
        for name, other in self.related.items():
            role = "predecessor" if self.book.book.predecessor == name else "successor"
            yield from ((w, "other", name) for w in RELATIVES[role].split(", "))
            for phrase in (other.book.id, other.book.name):
                yield phrase, "other", name
        for step in steps(self.book):
            yield from ((form, "step", step) for form in step_words(step))
        for lock in self.book.locks.values():
            yield str(lock.name.known), "lock", ""
            for item in (*lock.covers, *lock.leaves):
                yield from ((form, "item", item.known) for form in item_words(item.known))
        for place in self.book.places_of(Supplies).values():
            for feed in place.feeds:
                yield f"feed {feed}", "feed", feed
        sockets = list(self.book.places_of(Socket))
        for name, word in zip(sockets, ("first", "second", "third", "fourth"), strict=False):
            yield from ((f"{word} {noun}", "place", name) for noun in ("processor", "CPU"))
        for at, name in enumerate(sockets, 1):
            yield from ((f"{noun} {at}", "place", name) for noun in ("processor", "CPU"))
        yield from (("memory", "kind", "memory"), ("RAM", "kind", "memory"))
        yield from self._of_service()

    def _of_service(self) -> Iterator[tuple[str, str, str]]:
        for mark in self.book.service.marks:
            yield str(mark), "mark", str(mark)
        for wait in self.book.service.waits:
            yield from ((form, "wait_of", str(wait)) for form in (wait, plural(wait)))
        for work in self.book.service.work.values():
            for tool in work.tools:
                yield from ((f, "tool", tool.known) for f in (tool.known, plural(tool.known)))
        system = self.book.settings.get("system")
        for value in system.values.values() if system else ():
            yield value.known.rpartition(" ")[0] or value.known, "system", value.known

    def terms(self, text: str) -> list[Term] | None:
        """Return the terms of a sentence, or ``None`` when a word is not known."""
        slots = self._glossary.slots(" ".join(text.split()))
        kept = list(self._joined(slots))
        return None if any(term is None for term in kept) else [t for t in kept if t is not None]

    def _joined(self, slots: Sequence[Slot]) -> Iterator[Term | None]:
        nouns = Nouns(self.book, self.vocabulary)
        at = 0
        while at < len(slots):
            amount = amount_at(slots, at)
            place = None if amount else nouns.named_place(slots, at)
            release = self._release(slots, at)
            if release is not None:
                term, at = release
                yield term
            elif amount is not None:
                group = self._group(slots, at)
                term, at = group or amount
                yield term
            elif place is not None and not slots[at].has("quant"):
                names, after = place
                at, text = after, " ".join(s.text for s in slots[at:after])
                yield Term({**_own(slots[after - 1]), "place": (names,)}, text)
            else:
                group = self._group(slots, at)
                term, at = group or (_word(slots[at]), at + 1)
                if term is None or term.senses:
                    yield term

    def _release(self, slots: Sequence[Slot], at: int) -> tuple[Term, int] | None:
        """Read a system with its releases: Reedbed 8 to 11."""
        if not slots[at].has("system") or at + 1 >= len(slots):
            return None
        found = amount_at(slots, at + 1)
        if found is None or "number" not in found[0].senses or found[0].senses["op"] != ("",):
            return None
        name = slots[at].of("system")[0].rpartition(" ")[0]
        numbers = found[0].senses["number"][0]
        ends = any(slot.has("to") or slot.has("dash") for slot in slots[at + 1 : found[1]])
        release = (name, releases(numbers, ends=ends))
        return Term({"release": (release,)}, slots[at].text), found[1]

    def _group(self, slots: Sequence[Slot], at: int) -> tuple[Term, int] | None:
        """Read a number, attributes and the noun of some parts."""
        here, op, every, count = at, "", False, None
        filters: list[str] = []
        amounts: list[Amount] = []
        cores: list[Fraction] = []
        current = ""
        while here < len(slots):
            slot = slots[here]
            numbers = amount_at(slots, here)
            if slot.has("kind") or slot.has("parts"):
                things = self._things(slot, filters, amounts, cores)
                if not things:
                    return None
                thing = things[0]
                parts = self._of_current(parts_of(self.book, thing), current)
                group = Group(thing, parts, count, every, op)
                text = " ".join(s.text for s in slots[at : here + 1])
                own = _own(slot) if here == at else {}
                senses = {**own, "group": (group,), "kind": (thing.name,)}
                return Term(senses, text), here + 1
            if numbers is not None and "amount" in numbers[0].senses:
                amounts.append(numbers[0].senses["amount"][0])
                here = numbers[1]
            elif numbers is not None and numbers[1] < len(slots) and slots[numbers[1]].has("core"):
                cores += numbers[0].senses["number"][0]
                here = numbers[1] + 1
            elif numbers is not None and count is None:
                held = numbers[0].senses["number"][0]
                if len(held) > 1 or held[0].denominator != 1:
                    return None
                count, op, here = held[0], numbers[0].senses["op"][0], numbers[1]
            elif slot.has("filter"):
                filters.append(slot.of("filter")[0])
                here += 1
            elif slot.has("current"):
                current, here = slot.of("current")[0], here + 1
            elif slot.has("quant") and here == at:
                every, here = True, here + 1
            elif slot.has("stop") and here > at and not slot.has("join"):
                if slot.text.casefold() not in ("the", "of the", "of"):
                    return None
                here += 1
            else:
                return None
        return None

    def _of_current(self, parts: tuple[str, ...], current: str) -> tuple[str, ...]:
        """Return the supplies for AC or DC, where one of them is named."""
        lines = self.book.power.lines
        return tuple(
            name
            for name in parts
            for part in (self.book.parts[name],)
            if not current
            or (isinstance(part, Supply) and all(lines[n].current == current for n in part.ratings))
        )

    def _things(
        self, slot: Slot, filters: list[str], amounts: list[Amount], cores: list[Fraction]
    ) -> list[Thing]:
        heads = [self._named(name) for name in slot.of("parts")]
        heads += [self._of_kind(kind) for kind in slot.of("kind")]
        found = []
        for head in heads[:1]:
            thing: Thing | None = head
            for text in filters:
                thing = with_filter(self.book, thing, text) if thing else None
            for core in cores:
                thing = with_cores(self.book, thing, core) if thing else None
            for amount in amounts:
                thing = self._with_amount(thing, amount)
            if thing is not None and not thing.absent:
                found.append(thing)
        return found

    def _with_amount(self, thing: Thing | None, amount: Amount) -> Thing | None:
        if thing is None or len(amount.values) != 1 or amount.op:
            return None
        return with_amount(self.book, thing, amount.values[0], amount.unit)

    def _named(self, name: str) -> Thing:
        part = self.book.parts[name]
        return Thing("parts", part.kind, part.name, plural(part.name), part=name)

    def _of_kind(self, kind: str) -> Thing:
        if kind == "card" and not self.book.parts_of("card"):
            kind = "accelerator"
        one = NOUNS["kind"].get(kind, kind).partition(", ")[0]
        absent = not self.book.parts_of(kind)
        return Thing("parts", kind, one, plural(one), absent=absent)


def _own(slot: Slot) -> dict[str, tuple[Any, ...]]:
    skipped = ("kind", "parts", "id", "place")
    return {sort: values for sort, values in slot.senses.items() if sort not in skipped}


def _word(slot: Slot) -> Term | None:
    """Return a word as a term; one without senses where it carries nothing."""
    if slot.has("date") and slot.token.date is not None:
        return Term({"date": (slot.token,)}, slot.text)
    if slot.has("number"):
        return Term({"number": ((slot.token.number,),), "op": ("",)}, slot.text)
    senses = dict(slot.senses)
    if not senses:
        return None
    if set(senses) <= {"stop", "dash", "id"}:
        return Term({}, slot.text)
    return Term(senses, slot.text)


def amount_at(slots: Sequence[Slot], at: int) -> tuple[Term, int] | None:
    """Read a number or an amount, a list or a range of them, with what compares it."""
    here, op = at, ""
    if slots[here].has("op"):
        op, here = slots[here].of("op")[0], here + 1
        while here < len(slots) and slots[here].text.casefold() in ("the", "a", "of"):
            here += 1
    values: list[Fraction] = []
    unit, ends, start = "", False, here
    while here < len(slots):
        slot = slots[here]
        if slot.has("amount") and (not unit or unit == slot.token.unit):
            unit = slot.token.unit
            values.append(slot.token.number)
        elif slot.has("number") and not (unit and not _ahead(slots, here, unit)):
            values.append(slot.token.number)
        elif slot.has("count") and not values:
            values.append(Fraction(slot.of("count")[0]))
        else:
            return None
        here += 1
        if here < len(slots) and not unit and slots[here].has("rack_unit"):
            unit, here = "U", here + 1
        elif here < len(slots) and not unit and slots[here].has("ratio"):
            unit, here = "%", here + 1
        step, range_ = _separator(slots, here)
        if step is None or not (slots[step].has("number") or slots[step].has("amount")):
            break
        if slots[step].has("amount") and unit and slots[step].token.unit != unit:
            break
        if slots[step].has("number") and unit and not _ahead(slots, step, unit):
            break
        ends = ends or range_
        here = step
    if here == start:
        return None
    if here < len(slots) and not op and slots[here].has("op", "<=", ">="):
        op, here = slots[here].of("op")[0], here + 1
    text = " ".join(s.text for s in slots[at:here])
    op, ends = ("", True) if op == "between" else (_reached(op, text), ends)
    if not unit:
        return Term({"number": (tuple(values),), "op": (op,)}, text), here
    amount = Amount(tuple(values), unit, op, ends and len(values) == 2)
    dimension = (dimension_of(unit) or "").partition(":")[0] or "money"
    both = ("capacity", "memory") if dimension in ("capacity", "memory") else (dimension,)
    return Term({"amount": (amount,), "dimension": both}, text), here


def _reached(op: str, text: str) -> str:
    """Return how an amount compares: what is not exceeded may be reached."""
    within = any(word in text.casefold() for word in ("exceed", "within"))
    return "<=" if op == "<" and within else op


def _ahead(slots: Sequence[Slot], at: int, unit: str) -> bool:
    """Say whether a number belongs to a list whose last has the unit."""
    step, _ = _separator(slots, at + 1)
    return step is not None and slots[step].has("amount") and slots[step].token.unit == unit


def _separator(slots: Sequence[Slot], at: int) -> tuple[int | None, bool]:
    """Return the position after words between the numbers of a list, and whether they span."""
    here, spans = at, False
    while here < len(slots):
        slot = slots[here]
        if slot.has("to") or slot.has("dash"):
            spans = True
        elif not (slot.has("join", "and", "or", "comma") or slot.has("times")):
            break
        here += 1
    return (here, spans) if at < here < len(slots) else (None, False)


def steps(book: Book) -> list[str]:
    """Return the steps of service and of updates, as the book names them."""
    listed = [*book.service.order, *book.firmware.update_order]
    return list(dict.fromkeys(str(each.known) for each in listed))


STEP_WORDS = {
    "cords": "cord, power cord, power cords, cords, mains cords, cable, cables, power cables, "
    "mains leads, power cable, mains lead",
    "cover": "top cover, hood",
    "lid": "top lid",
    "board": "system board, main board, mainboard",
    "fan wall": "wall of fans, fan assembly, fans",
    "management": "management controller, management firmware, management processor",
    "air guide": "air duct, air baffle, baffle, guide",
    "accelerator guide": "guide, card guide",
}
"""Other words for steps of service that are general in the trade."""


def step_words(step: str) -> list[str]:
    """Return the words for a step: as the book has it, in the singular and the plural."""
    one = step.removesuffix("s") if step.endswith("s") else step
    words = STEP_WORDS.get(step, "").split(", ") if step in STEP_WORDS else []
    return list(dict.fromkeys([step, one, plural(one), *words]))


ITEM_WORDS = {
    "supplies": "power supply, power supplies, PSU, PSUs, supply",
    "cords": "cord, power cord, power cords, power cables, mains cords",
    "remote power-off": "remote off, remote switching off, switching off remotely, powering off "
    "remotely, remote power off, being switched off remotely, remote shutdown, powered off "
    "remotely, switched off remotely, remote switch off, switch it off remotely",
    "power button": "on button, on off button, power switch, button",
    "everything inside": "inside, all inside, everything within, all that is inside, what is "
    "inside, all parts inside, the inside",
    "rear ports": "ports at the rear, rear port, ports on the rear, ports at the back",
    "drives": "drive, disks, drive bays",
    "front ports of the fault display": "front ports, ports of the display, front port, ports at "
    "the front, display ports, ports of the fault display, USB ports at the front",
}
"""Other words for what locks cover and leave."""


def item_words(item: str) -> list[str]:
    """Return the words for what a lock covers or leaves."""
    return [item, *(ITEM_WORDS[item].split(", ") if item in ITEM_WORDS else ())]


def with_op(group: Group, op: str) -> Group:
    """Return parts whose number compares so."""
    return replace(group, op=op)

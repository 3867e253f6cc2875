"""Parts that a sentence speaks of: a number, attributes and a noun."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from baywright.facts.book import Book
from baywright.facts.parts import Supply
from baywright.language.attributes import parts_of, with_amount, with_cores, with_filter
from baywright.language.glossary import Slot, plural
from baywright.language.telling.numbers import amount_at
from baywright.language.telling.terms import Amount, Group, Term
from baywright.language.things import Thing
from baywright.language.trade import NOUNS

_LINKS = ("the", "of the", "of")
"""Words between a number and the noun it counts."""


@dataclass
class _Described:
    """What stands before the noun of some parts.

    Args:
        count: their number.
        op: how the number compares.
        every: whether all of them are named.
        current: AC or DC, or empty.
        filters: attributes, as filters.
        amounts: attributes that are amounts.
        cores: numbers of cores.
    """

    count: Fraction | None = None
    op: str = ""
    every: bool = False
    current: str = ""
    filters: list[str] = field(default_factory=list)
    amounts: list[Amount] = field(default_factory=list)
    cores: list[Fraction] = field(default_factory=list)

    def take(self, slots: Sequence[Slot], here: int, *, first: bool) -> int | None:
        """Take one phrase in; return the position after it, or ``None`` where it does not fit."""
        slot = slots[here]
        numbers = amount_at(slots, here)
        if numbers is not None:
            return self._take_numbers(slots, *numbers)
        if slot.has("filter"):
            self.filters.append(slot.of("filter")[0])
        elif slot.has("current"):
            self.current = slot.of("current")[0]
        elif slot.has("quant") and first:
            self.every = True
        elif first or slot.text.casefold() not in _LINKS:
            return None
        return here + 1

    def _take_numbers(self, slots: Sequence[Slot], term: Term, after: int) -> int | None:
        if "amount" in term.senses:
            self.amounts.append(term.senses["amount"][0])
            return after
        values = term.senses["number"][0]
        if after < len(slots) and slots[after].has("core"):
            self.cores += values
            return after + 1
        if self.count is not None or len(values) > 1 or values[0].denominator != 1:
            return None
        self.count, self.op = values[0], term.senses["op"][0]
        return after


@dataclass(frozen=True)
class Grouping:
    """Reads the parts a sentence speaks of.

    Args:
        book: the book.
    """

    book: Book

    def read(self, slots: Sequence[Slot], at: int) -> tuple[Term, int] | None:
        """Read a number, attributes and the noun of some parts; ``None`` where there are none."""
        described, here = _Described(), at
        while here < len(slots):
            slot = slots[here]
            if slot.has("kind") or slot.has("parts"):
                return self._term(slots, at, here, described)
            step = described.take(slots, here, first=here == at)
            if step is None:
                return None
            here = step
        return None

    def _term(
        self, slots: Sequence[Slot], at: int, here: int, described: _Described
    ) -> tuple[Term, int] | None:
        thing = self._thing(slots[here], described)
        if thing is None or thing.absent:
            return None
        parts = self._of_current(parts_of(self.book, thing), described.current)
        group = Group(thing, parts, described.count, described.every, described.op)
        own = own_senses(slots[here]) if here == at else {}
        text = " ".join(slot.text for slot in slots[at : here + 1])
        return Term({**own, "group": (group,), "kind": (thing.name,)}, text), here + 1

    def _thing(self, slot: Slot, described: _Described) -> Thing | None:
        thing: Thing | None = self._head(slot)
        for text in described.filters:
            thing = with_filter(self.book, thing, text) if thing else None
        for core in described.cores:
            thing = with_cores(self.book, thing, core) if thing else None
        for amount in described.amounts:
            plain = len(amount.values) == 1 and not amount.op
            value, unit = amount.values[0], amount.unit
            thing = with_amount(self.book, thing, value, unit) if thing and plain else None
        return thing

    def _head(self, slot: Slot) -> Thing:
        for name in slot.of("parts"):
            part = self.book.parts[name]
            return Thing("parts", part.kind, part.name, plural(part.name), part=name)
        kind = slot.of("kind")[0]
        if kind == "card" and not self.book.parts_of("card"):
            kind = "accelerator"
        one = NOUNS["kind"].get(kind, kind).partition(", ")[0]
        return Thing("parts", kind, one, plural(one), absent=not self.book.parts_of(kind))

    def _of_current(self, parts: tuple[str, ...], current: str) -> tuple[str, ...]:
        """Return the supplies for AC or DC, where one of them is named."""
        return tuple(name for name in parts if not current or self._takes(name, current))

    def _takes(self, name: str, current: str) -> bool:
        part, lines = self.book.parts[name], self.book.power.lines
        return isinstance(part, Supply) and all(lines[n].current == current for n in part.ratings)


def own_senses(slot: Slot) -> dict[str, tuple[Any, ...]]:
    """Return what a phrase can be beside the parts or the place it names."""
    skipped = ("kind", "parts", "id", "place")
    return {sort: values for sort, values in slot.senses.items() if sort not in skipped}

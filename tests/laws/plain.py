"""Builds as plain parts in places, and what they come to, added up part by part.

Nothing here knows of choices, tables or sums: it is the other way to say what a build is.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from baywright.facts.book import Book
from baywright.facts.parts import Fan, MemoryModule, Part, Processor, Supply
from baywright.facts.places import Bank, Fans, Supplies, SupplyCount
from baywright.facts.sections import MemorySpeed
from baywright.laws.conditions import Conditions


@dataclass(frozen=True)
class Built:
    """A complete build.

    Args:
        parts: how many of each part are in each place; what parts bring is not listed.
        cables: for each zone that can be cabled, the slot of its controller or ``None``.
        settings: value of each setting.
        line: the line it runs from.
    """

    parts: Mapping[str, Counter[str]]
    cables: Mapping[str, str | None]
    settings: Mapping[str, str]
    line: str

    def count(self, place: str) -> int:
        return self.parts[place].total()

    def only(self, place: str) -> str | None:
        """The one part in a place, or nothing."""
        return next(iter(self.parts[place]), None)


Predicate: TypeAlias = Callable[["Subject"], bool]


@dataclass(frozen=True)
class Given:
    """What builds are judged by.

    Args:
        book: the facts.
        conditions: day and site.
        meanings: what each expression of the book says, by its text.
    """

    book: Book
    conditions: Conditions
    meanings: Mapping[str, Predicate]


@dataclass(frozen=True)
class Subject:
    """A build with what it is judged by."""

    given: Given
    built: Built

    @property
    def book(self) -> Book:
        return self.given.book

    def says(self, expression: str | None) -> bool:
        """Whether a condition of the book holds; one that is not stated always does."""
        return expression is None or self.given.meanings[expression](self)

    def fitted(self, *places: str) -> Iterator[tuple[str, Part, int]]:
        """Yield each part of some places or of all, and what it brings, with its number."""
        parts = self.book.parts
        for place, counts in self.built.parts.items():
            for name, count in counts.items() if not places or place in places else ():
                yield name, parts[name], count
                for other, each in parts[name].brings.items():
                    yield other, parts[other], count * each.known

    def number(self, wanted: str, *places: str) -> int:
        """How many parts of an id or of a kind there are."""
        return sum(n for name, part, n in self.fitted(*places) if wanted in (name, part.kind))

    @property
    def load(self) -> Fraction:
        """Peak draw, W."""
        base = self.book.power.base.known.canonical
        return base + sum(n * _draw(self.book, part) for _, part, n in self.fitted())

    @property
    def price(self) -> Fraction:
        chassis = self.book.chassis.price.known.canonical
        prices = ((part.price, n) for _, part, n in self.fitted())
        return chassis + sum(n * price.known.canonical for price, n in prices if price is not None)

    @property
    def heat(self) -> list[Fraction]:
        """Heat that each fan carries, W, weakest first."""
        rise = self.book.air.rise.known.canonical
        per_flow = self.given.conditions.heat_per_flow * rise
        return sorted(
            part.flow.known.to("CFM") * per_flow
            for place in self.book.places_of(Fans)
            for _, part, n in self.fitted(place)
            if isinstance(part, Fan)
            for _ in range(n)
        )

    def carried(self, place: str, *, redundant: bool) -> Fraction:
        """What the supplies of a place carry, W; the weakest sets the share of all."""
        supplies = self.book.places[place]
        assert isinstance(supplies, Supplies)
        rule = next((r for r in supplies.fitted if r.count.known == self.built.count(place)), None)
        parts = [self.book.parts[name] for name in self.built.parts[place]]
        ratings = [p.ratings.get(self.built.line) for p in parts if isinstance(p, Supply)]
        if rule is None or not ratings:
            return Fraction(0)
        weakest = min(r.known.canonical if r is not None else Fraction(0) for r in ratings)
        return _carrying(rule, redundant=redundant) * weakest

    @property
    def memory_speed(self) -> Fraction | None:
        """Speed of the memory, MT/s; nothing without a speed."""
        speeds = [speed for place in self.book.places_of(Bank) for speed in self._speeds(place)]
        owners = {bank.owner for bank in self.book.places_of(Bank).values()}
        for _, part, _ in self.fitted(*owners) if owners else ():
            if isinstance(part, Processor) and part.memory_speed is not None:
                speeds.append(part.memory_speed.known.canonical)
        return min(speeds, default=None)

    def _speeds(self, place: str) -> Iterator[Fraction]:
        bank, section = self.book.places[place], self.book.memory
        module = self.book.parts.get(self.built.only(place) or "")
        if not isinstance(bank, Bank) or not isinstance(module, MemoryModule) or section is None:
            return
        fullest = math.ceil(self.built.count(place) / bank.channels.known)
        stated = (entry for entry in section.speeds if _applies(entry, module, fullest))
        first = next(stated, None)
        if first is not None:
            yield first.speed.known.canonical
        if module.speed is not None:
            yield module.speed.known.canonical


def _applies(entry: MemorySpeed, module: MemoryModule, fullest: int) -> bool:
    if entry.per_channel is not None and entry.per_channel.known != fullest:
        return False
    if entry.size is not None and entry.size.known != module.size.known:
        return False
    return entry.ranks is None or (
        module.ranks is not None and module.ranks.known == entry.ranks.known
    )


def _draw(book: Book, part: Part) -> Fraction:
    if part.power is not None:
        return part.power.known.canonical
    if isinstance(part, Processor):
        conversion = book.power.processor_conversion
        return part.tdp.known.canonical / (conversion.known if conversion is not None else 1)
    return Fraction(0)


def _carrying(rule: SupplyCount, *, redundant: bool) -> int:
    if redundant:
        return rule.redundant.known if rule.redundant is not None else rule.count.known - 1
    return rule.legal.known if rule.legal is not None else rule.count.known

"""A machine as it stands: its book, its build and what sizing says of its load."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from types import MappingProxyType
from typing import Any

from baywright.facts.book import Book, facts_of
from baywright.facts.build import Build, Item
from baywright.facts.citation import Citation
from baywright.facts.fact import Fact
from baywright.facts.parts import Cage, Part
from baywright.facts.places import Bank


@dataclass(frozen=True, slots=True)
class Loads:
    """What sizing says of a build at its site; not-a-number where it is not decided.

    Args:
        peak: peak draw behind the supplies [W].
        rating: what one supply carries at the voltage of the site [W].
        supplies: supplies that carry the peak, or ``None`` where that is not decided.
        heat: by id of a fan, the heat it carries away at the altitude of the site [W].
        power_open: what the supplies depend on, where they are not decided.
        air_open: what the fans depend on, where they are not decided.
        usable: by key of a group of drives, its most usable space [TB].
    """

    peak: float = math.nan
    rating: float = math.nan
    supplies: int | None = None
    heat: Mapping[str, float] = field(default_factory=dict)
    power_open: tuple[str, ...] = ()
    air_open: tuple[str, ...] = ()
    usable: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Standing:
    """A build at its site.

    Args:
        book: the facts.
        build: the build with the site that counts.
        loads: what sizing says of it.
    """

    book: Book
    build: Build
    loads: Loads

    @cached_property
    def held(self) -> Mapping[str, tuple[str, ...]]:
        """By place, the ids of the parts in it, each piece by itself and a cage first."""
        return MappingProxyType({place: self._held(place) for place in self.book.places})

    def _held(self, place: str) -> tuple[str, ...]:
        fitted, always = (
            self.build.places.get(place),
            getattr(self.book.places[place], "always", None),
        )
        items = fitted.items if fitted is not None else ()
        if fitted is None and always is not None:
            items = (Item(str(always), 1),)
        parts = [str(item.part) for item in items for _ in range(item.count)]
        return tuple(sorted(parts, key=lambda part: not isinstance(self.book.parts[part], Cage)))

    def units(self, place: str) -> tuple[tuple[str, str], ...]:
        """Return the positions of a place that hold something: id and part.

        A place with one position is that position, unless that is the bay of a cage. The sockets
        of a bank are filled channel by channel before any channel is doubled.
        """
        parts = tuple(p for p in self.held[place] if not isinstance(self.book.parts[p], Cage))
        labels = self._labels(place)
        if len(labels) == 1 and self.cage(place) is None:
            return tuple((place, part) for part in parts[:1])
        return tuple((f"{place}.{label}", p) for label, p in zip(labels, parts, strict=False))

    def _labels(self, place: str) -> tuple[str, ...]:
        model = self.book.places[place]
        if isinstance(model, Bank):
            return bank_labels(model)
        cage = self.cage(place)
        if cage is not None:
            return tuple(str(i + 1) for i in range(cage.bays.known))
        positions = getattr(model, "positions", None)
        number = positions.known if positions is not None else 1
        return tuple(str(i + 1) for i in range(number))

    def cage(self, place: str) -> Cage | None:
        """Return the cage in a place, or ``None``."""
        parts = (self.book.parts[part] for part in self.held[place])
        return next((part for part in parts if isinstance(part, Cage)), None)

    def part(self, name: str) -> Part:
        """Return a part of the book."""
        return self.book.parts[name]

    def name(self, place: str) -> str:
        """Return what the book calls a place."""
        return str(self.book.places[place].name)

    def cable(self, zone: str) -> str:
        """Return the slot whose controller drives a zone, or nothing where the build is silent."""
        fitted = self.build.places.get(zone)
        return str(fitted.controller or "") if fitted is not None else ""

    def cite(self, *facts: Fact[Any] | str | None) -> tuple[Citation, ...]:
        """Quote facts of the book with their sources, and facts of the site as asked for.

        What is left out is passed over.
        """
        return tuple(
            replace(quoted, source="", date=None) if id(fact) in self._of_site else quoted
            for fact in facts
            for quoted in self.book.cite(fact)
        )

    @cached_property
    def _of_site(self) -> frozenset[int]:
        return frozenset(id(fact) for fact in facts_of(self.build.site))


def place_of(unit: str) -> str:
    """Return the place of a position.

    >>> place_of("A.3"), place_of("R1b")
    ('A', 'R1b')
    """
    return unit.partition(".")[0]


def label_of(unit: str) -> str:
    """Return the name of a position in its place, or nothing where the place is one.

    >>> label_of("A.3"), label_of("R1b")
    ('3', '')
    """
    return unit.partition(".")[2]


def bank_labels(bank: Bank) -> tuple[str, ...]:
    """Return the names of the sockets of a bank in the order they are filled.

    Channels have letters and sockets numbers: every channel gets one module before any gets two.
    """
    return tuple(
        f"{_letters(channel)}{socket + 1}"
        for socket in range(bank.per_channel.known)
        for channel in range(bank.channels.known)
    )


def _letters(channel: int) -> str:
    letters = "abcdefghijklmnopqrstuvwxyz"
    first = letters[channel // 26 - 1] if channel >= 26 else ""
    return f"{first}{letters[channel % 26]}"

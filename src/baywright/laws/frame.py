"""The frame: the choices of a book, what each value means, and how laws are written over them."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from typing import Any, TypeAlias

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.parts import Part
from baywright.laws.conditions import Conditions
from baywright.laws.formula import AtMost, Formula, encode, totals_in
from baywright.laws.linear import Linear
from baywright.laws.wording import capitalised
from baywright.space import Choice, Law, Origin, Table


@dataclass(frozen=True, slots=True)
class Option:
    """A value of a choice and what it stands for.

    Args:
        label: how the value is written.
        parts: the parts it puts into the place, with their numbers; what they bring not counted.
        value: what a setting, a cable or a derived choice stands for.
    """

    label: str
    parts: tuple[tuple[str, int], ...] = ()
    value: object = None

    @property
    def count(self) -> int:
        """How many parts it puts into the place."""
        return sum(count for _, count in self.parts)

    @property
    def part(self) -> str | None:
        """The part, where there is only one kind of it."""
        return self.parts[0][0] if len(self.parts) == 1 else None


EMPTY = Option("empty")


@dataclass(frozen=True, slots=True)
class Fitting:
    """A choice of the frame.

    Args:
        name: name of the choice.
        place: id of the place or setting it belongs to; changes are counted by it.
        options: what it can be.
        structure: why it can be no more than that.
        derived: true when other choices determine it.
    """

    name: str
    place: str
    options: tuple[Option, ...]
    structure: Origin
    derived: bool = False

    def choice(self) -> Choice:
        """Return the choice as an engine sees it."""
        labels = tuple(option.label for option in self.options)
        return Choice(self.name, labels, self.derived, self.structure)


def _cannot_read(text: str) -> Formula:
    raise RuntimeError("expressions are read only once every choice is there")


Weigh: TypeAlias = Callable[[str, Part], Fraction | int]


@dataclass
class Frame:
    """The choices of a book under some conditions.

    Args:
        book: the facts.
        conditions: day and site.
        fittings: the choices by name.
        helpers: choices that formulas needed beside them.
        totals: by origin key, the totals it bounds, exact and in canonical units.
        read: turns an expression of the book into a formula over the choices.
        say: says a condition of the book in words.
    """

    book: Book
    conditions: Conditions
    fittings: dict[str, Fitting] = field(default_factory=dict)
    helpers: list[Choice] = field(default_factory=list)
    totals: dict[str, list[AtMost]] = field(default_factory=dict)
    read: Callable[[str], Formula] = _cannot_read
    say: Callable[[str], str] = str

    def add(self, fitting: Fitting) -> None:
        """Take in a choice."""
        self.fittings[fitting.name] = fitting

    @property
    def sizes(self) -> dict[str, int]:
        """Number of values of each choice."""
        return {name: len(fitting.options) for name, fitting in self.fittings.items()}

    def options(self, name: str) -> tuple[Option, ...]:
        """Return what a choice can be."""
        return self.fittings[name].options

    def at(self, place: str) -> tuple[str, ...]:
        """Return the names of the choices that put parts into a place."""
        return tuple(
            name
            for name, fitting in self.fittings.items()
            if fitting.place == place and not fitting.derived
        )

    def rows(self, scope: Iterable[str], test: Callable[..., bool]) -> frozenset[tuple[int, ...]]:
        """Return the rows of value indices whose options pass the test."""
        options = [self.options(name) for name in scope]
        rows = itertools.product(*(range(len(each)) for each in options))
        meant = itertools.product(*options)
        return frozenset(row for row, held in zip(rows, meant, strict=True) if test(*held))

    def table(
        self, origin: Origin, scope: tuple[str, ...], test: Callable[..., bool]
    ) -> Iterator[Law]:
        """Yield the table of a test over options, or nothing when every row passes."""
        rows = self.rows(scope, test)
        if len(rows) < math.prod(len(self.options(name)) for name in scope):
            yield Table(scope, rows, origin)

    def at_most(self, origin: Origin, linear: Linear, bound: Fraction | int) -> Iterator[Law]:
        """Yield the sum that keeps a total within a bound, or nothing when it cannot be broken."""
        yield from self.formula(origin, AtMost(linear, Fraction(bound)))

    def formula(self, origin: Origin, formula: Formula) -> Iterator[Law]:
        """Yield the laws of a formula that has to hold; its helper choices join the frame."""
        sizes = {**self.sizes, **{choice.name: choice.size for choice in self.helpers}}
        encoded = encode(formula, origin, sizes)
        self.helpers.extend(encoded.choices)
        self.totals.setdefault(origin.key, []).extend(totals_in(formula))
        yield from encoded.laws

    def parts_in(self, option: Option) -> Iterator[tuple[str, Part, int]]:
        """Yield the parts of an option with their numbers, and what they bring."""
        for name, count in option.parts:
            part = self.book.parts[name]
            yield name, part, count
            for other, each in part.brings.items():
                yield other, self.book.parts[other], count * each.known

    def linear(
        self, weigh: Weigh, dimension: str = "", places: Iterable[str] | None = None
    ) -> Linear:
        """Return the total of a weight of each part, over all places or some.

        Args:
            weigh: weight of one part, in the canonical unit of the dimension.
            dimension: its dimension, or empty for plain numbers.
            places: ids of the places that count, or ``None`` for all.
        """
        wanted = None if places is None else frozenset(places)
        total = self._totals(weigh)
        weights = {}
        for name, fitting in self.fittings.items():
            if fitting.derived or (wanted is not None and fitting.place not in wanted):
                continue
            row = tuple(total(option.parts) for option in fitting.options)
            if any(row):
                weights[name] = row
        return Linear(weights, Fraction(0), dimension)

    def _totals(self, weigh: Weigh) -> Callable[[tuple[tuple[str, int], ...]], Fraction]:
        """Return the weight of the parts of an option; like places share their options."""

        @cache
        def total(parts: tuple[tuple[str, int], ...]) -> Fraction:
            return sum((each(name) * count for name, count in parts), Fraction(0))

        @cache
        def each(name: str) -> Fraction:
            brought = self.book.parts[name].brings.items()
            return alone(name) + sum(alone(other) * count.known for other, count in brought)

        @cache
        def alone(name: str) -> Fraction:
            return Fraction(weigh(name, self.book.parts[name]))

        return total

    def by_option(self, name: str, weigh: Callable[[Option], Fraction | int]) -> Linear:
        """Return a number for each option of one choice."""
        return Linear({name: tuple(Fraction(weigh(option)) for option in self.options(name))})

    def law(self, key: str, sentence: str, *facts: Fact[Any] | str | None) -> Origin:
        """Return the origin of a law that follows from structure."""
        return Origin(key, "law", capitalised(sentence), self.book.cite(*facts))


def structure(book: Book, key: str, sentence: str, *facts: Fact[Any] | str | None) -> Origin:
    """Return the origin that says what the values of a choice can be."""
    return Origin(f"structure.{key}", "law", capitalised(sentence), book.cite(*facts))


def alternatives(parts: Mapping[str, Part]) -> tuple[Option, ...]:
    """Return the options of a place that is empty or holds one part."""
    return (EMPTY, *(Option(name, ((name, 1),)) for name in parts))


def numbered(parts: Mapping[str, Part], most: int) -> tuple[Option, ...]:
    """Return the options of a place that holds up to ``most`` of one part."""
    return (EMPTY, *(_several(name, n) for name in parts for n in range(1, most + 1)))


def assorted(parts: Mapping[str, Part], most: int) -> tuple[Option, ...]:
    """Return the options of a place that holds up to ``most`` parts in any mixture."""
    every = (
        mixture
        for n in range(1, most + 1)
        for mixture in itertools.combinations_with_replacement(parts, n)
    )
    return (EMPTY, *(_mixture(mixture) for mixture in every))


def same_or_empty(first: Option, second: Option) -> bool:
    """Say whether two places hold the same, or one of them nothing."""
    return first.parts == second.parts or not first.parts or not second.parts


def mixtures(parts: Mapping[str, Part], most: int) -> int:
    """Return how many options ``assorted`` has."""
    return math.comb(len(parts) + most, most)


def assorted_or_alike(parts: Mapping[str, Part], most: int, limit: int) -> tuple[Option, ...]:
    """Return every mixture of up to ``most`` parts, or only parts alike past a limit of options."""
    return assorted(parts, most) if mixtures(parts, most) <= limit else numbered(parts, most)


def _several(name: str, count: int) -> Option:
    return Option(f"{count} x {name}", ((name, count),))


def _mixture(names: tuple[str, ...]) -> Option:
    counts = tuple((name, names.count(name)) for name in dict.fromkeys(names))
    return Option(" + ".join(f"{count} x {name}" for name, count in counts), counts)

"""The case: builds and their surroundings, as arrays that every subject of sizing reads."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property
from types import MappingProxyType
from typing import Any, Literal

import numpy as np
import numpy.typing as npt

from baywright.facts.book import Book, facts_of
from baywright.facts.citation import Citation
from baywright.facts.fact import Fact
from baywright.facts.parts import Part
from baywright.facts.site import Site
from baywright.laws.formula import AllOf, AnyOf, AtMost, Exists, Formula, Rows
from baywright.laws.frame import Frame, Option
from baywright.laws.linear import Linear
from baywright.sizing.equation import Floats, Reals

Truths = npt.NDArray[np.bool_]
Swept = Literal["volts", "altitude", "inlet", "extra"]
"""What of the surroundings may change along a sweep."""

Codes = npt.NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What the site gives, as numbers that may be swept.

    Args:
        volts: voltage of the feeds [V], or ``None`` when nobody said.
        altitude: altitude [m]; sea level unless said.
        inlet: temperature of the air taken in [degrees Celsius], or ``None``.
        extra: DC draw on top of the peak [W], to ask how much more a build can bear.
        site: all else that is known of the site.
    """

    volts: Floats | None = None
    altitude: Floats = 0.0
    inlet: Floats | None = None
    extra: Floats = 0.0
    site: Site = field(default_factory=Site)

    def changed(self, what: Swept, values: Floats) -> Surroundings:
        """Return the surroundings with other values of one thing."""
        match what:
            case "volts":
                return replace(self, volts=values)
            case "altitude":
                return replace(self, altitude=values)
            case "inlet":
                return replace(self, inlet=values)
            case "extra":
                return replace(self, extra=values)

    @classmethod
    def of(cls, site: Site) -> Surroundings:
        """Read the numbers of a site."""
        return cls(
            volts=float(site.voltage.known.to("V")) if site.voltage else None,
            altitude=float(site.altitude.known.to("m")) if site.altitude else 0.0,
            inlet=float(site.inlet.known.to("°C")) if site.inlet else None,
            site=site,
        )


@dataclass(frozen=True)
class Case:
    """Some builds of one book in their surroundings.

    Every result is an array with one number for each build; with one build and swept
    surroundings, one for each step of the sweep.

    Args:
        frame: the choices of the book and what their values mean.
        codes: for each choice that is not derived, the index of its value in each build.
        around: the surroundings.
    """

    frame: Frame
    codes: Mapping[str, Codes]
    around: Surroundings

    @property
    def book(self) -> Book:
        """The facts."""
        return self.frame.book

    @property
    def site(self) -> Site:
        """What is known of the site."""
        return self.around.site

    @cached_property
    def size(self) -> int:
        """Number of builds."""
        return len(next(iter(self.codes.values())))

    @cached_property
    def fitted(self) -> tuple[str, ...]:
        """Ids of the parts that some build has, in the order of the book."""
        found = {
            name
            for choice, codes in self.codes.items()
            for code in np.unique(codes)
            for name, _, _ in self.frame.parts_in(self.frame.options(choice)[code])
        }
        return tuple(name for name in self.book.parts if name in found)

    @cached_property
    def numbers(self) -> Mapping[str, Reals]:
        """How many of each part that some build has there are in each build."""
        found = {name: np.zeros(self.size) for name in self.fitted}
        for choice, codes in self.codes.items():
            options = self.frame.options(choice)
            rows: dict[str, Reals] = {}
            for position, option in enumerate(options):
                for name, _, count in self.frame.parts_in(option):
                    rows.setdefault(name, np.zeros(len(options)))[position] += count
            for name in rows.keys() & found.keys():
                found[name] += rows[name][codes]
        return MappingProxyType(found)

    @cached_property
    def _of_site(self) -> frozenset[int]:
        return frozenset(id(fact) for fact in facts_of(self.site))

    def cite(self, *facts: Fact[Any] | str | None) -> tuple[Citation, ...]:
        """Quote facts of the book with their sources, and facts of the site as asked for.

        What is left out is passed over.
        """
        return tuple(
            replace(quoted, source="", date=None) if id(fact) in self._of_site else quoted
            for fact in facts
            for quoted in self.book.cite(fact)
        )

    def amid(self, around: Surroundings) -> Case:
        """Return the same builds in other surroundings."""
        return replace(self, around=around)

    def options(self, choice: str) -> tuple[Option, ...]:
        """Return the option of a choice in each build."""
        every = self.frame.options(choice)
        return tuple(every[code] for code in self.codes[choice])

    def looked_up(self, choice: str, value: Callable[[Option], float]) -> Reals:
        """Return a number of the option of one choice, for each build."""
        return self._row(choice, value)[self.codes[choice]]

    def _row(self, choice: str, value: Callable[[Option], float]) -> Reals:
        """Return a number for each option of a choice that some build has; zero for others."""
        options = self.frame.options(choice)
        row = np.zeros(len(options))
        for code in set(self.codes[choice].tolist()):
            row[code] = value(options[code])
        return row

    def total(self, linear: Linear) -> Reals:
        """Return a total of the book's laws, in the canonical unit of its dimension."""
        result = np.full(self.size, float(linear.constant))
        for choice, weights in linear.weights.items():
            result += np.array([float(weight) for weight in weights])[self.codes[choice]]
        return result

    def weighed(
        self,
        weigh: Callable[[str, Part], Fraction | float],
        places: Iterable[str] | None = None,
    ) -> Reals:
        """Return the total of a number of each part, over all places or some.

        A part whose number is not-a-number leaves only the builds that have it undecided.

        Args:
            weigh: the number of one part, given its id and the part.
            places: ids of the places that count, or ``None`` for all.
        """
        wanted = None if places is None else frozenset(places)
        result = np.zeros(self.size)
        for choice, codes in self.codes.items():
            fitting = self.frame.fittings[choice]
            if wanted is None or fitting.place in wanted:
                result += self._row(choice, lambda option: self._of_option(option, weigh))[codes]
        return result

    def _of_option(self, option: Option, weigh: Callable[[str, Part], Fraction | float]) -> float:
        parts = self.frame.parts_in(option)
        return sum(float(weigh(name, part)) * count for name, part, count in parts)

    def counted(self, *kinds: str, places: Iterable[str] | None = None) -> Reals:
        """Return how many parts of some kinds each build has."""
        return self.weighed(lambda name, part: part.kind in kinds, places)

    def has(self, part: str) -> Truths:
        """Return whether each build has a part."""
        return self.weighed(lambda name, _: name == part) > 0

    def lacking(self, kind: str, fact: str) -> tuple[str, ...]:
        """Return the paths of a fact that the book lacks, for parts that some build has.

        Args:
            kind: kind of part.
            fact: name of the field, such as ``idle``.
        """
        return tuple(
            f"parts.{name}.{fact}"
            for name, part in self.book.parts_of(kind).items()
            if _unknown(getattr(part, fact, None)) and self.has(name).any()
        )

    def holds(self, condition: str) -> Truths:
        """Return whether a condition of the book, an expression, holds in each build."""
        return self.satisfies(self.frame.read(condition))

    def satisfies(self, formula: Formula) -> Truths:
        """Return whether a formula of the book's laws holds in each build.

        Raises:
            ValueError: for a formula with choices of its own.
        """
        match formula:
            case Rows(scope, rows):
                allowed = np.zeros([len(self.frame.options(name)) for name in scope], bool)
                for row in rows:
                    allowed[row] = True
                return np.asarray(allowed[tuple(self.codes[name] for name in scope)])
            case AtMost(linear, bound):
                # A total on its bound is not past it, whatever its last binary digit says.
                slack = 1e-9 * max(1.0, abs(float(bound)))
                return np.asarray(self.total(linear) <= float(bound) + slack)
            case AllOf(terms):
                return _joined(np.logical_and, np.ones(self.size, bool), terms, self.satisfies)
            case AnyOf(terms):
                return _joined(np.logical_or, np.zeros(self.size, bool), terms, self.satisfies)
            case Exists():
                raise ValueError("a condition cannot bring choices of its own")

    def first_that_holds(self, conditions: Iterable[str | None]) -> Codes:
        """Return, for each build, the position of the first condition that holds.

        ``None`` always holds. Where no condition holds the result is -1.
        """
        found = np.full(self.size, -1)
        for position, condition in enumerate(conditions):
            applies = np.ones(self.size, bool) if condition is None else self.holds(condition)
            found = np.where((found < 0) & applies, position, found)
        return found


def _joined(
    join: np.ufunc,
    start: Truths,
    terms: Iterable[Formula],
    satisfies: Callable[[Formula], Truths],
) -> Truths:
    for term in terms:
        start = np.asarray(join(start, satisfies(term)), bool)
    return start


def _unknown(fact: object) -> bool:
    return fact is None or getattr(fact, "value", None) is None

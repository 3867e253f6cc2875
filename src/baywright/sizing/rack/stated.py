"""Facts of the site and the chassis as numbers that know what they are called when missing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from baywright.facts.citation import Citation
from baywright.facts.fact import Fact
from baywright.sizing.case import Case
from baywright.sizing.figure import Input
from baywright.units import Quantity


@dataclass(frozen=True, slots=True)
class Stated:
    """A number that a site or a book states, or not.

    Args:
        path: its path, such as ``site.rack.units``.
        value: the number, or the one that stands for it unless given; else not-a-number.
        facts: the fact it was read from, if it is stated.
    """

    path: str
    value: float
    facts: tuple[Citation, ...] = ()

    @property
    def missing(self) -> tuple[str, ...]:
        """Its path, when there is no number."""
        return (self.path,) if math.isnan(self.value) else ()

    def as_input(self, name: str) -> tuple[Input, ...]:
        """Return it as an input of a figure; nothing where it is not stated."""
        return tuple(Input(name, fact.text, (fact,)) for fact in self.facts)


def stated(case: Case, path: str, unit: str, unless_given: float = math.nan) -> Stated:
    """Return a number of the site or the book.

    Args:
        case: the builds and their site.
        path: dotted path: ``site.`` and a field of the site, or a section of the book.
        unit: unit wanted; empty for plain numbers.
        unless_given: what it is when nobody said.
    """
    fact = _found(case, path)
    if fact is None or fact.value is None:
        return Stated(path, unless_given)
    return Stated(path, _number(fact.value, unit), case.cite(fact))


def missing_of(*numbers: Stated) -> tuple[str, ...]:
    """Return the paths of those numbers that are not there, each once."""
    return tuple(dict.fromkeys(path for number in numbers for path in number.missing))


def facts_of(*numbers: Stated) -> tuple[Citation, ...]:
    """Return the facts of some numbers."""
    return tuple(fact for number in numbers for fact in number.facts)


def _found(case: Case, path: str) -> Fact[Any] | None:
    first, *names = path.split(".")
    value: Any = case.site if first == "site" else getattr(case.book, first)
    for name in names:
        value = getattr(value, name) if value is not None else None
    return value if isinstance(value, Fact) else None


def _number(value: Quantity | Fraction | int, unit: str) -> float:
    return float(value.to(unit) if isinstance(value, Quantity) else value)

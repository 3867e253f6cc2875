"""The terms of a sentence in which a fact is told: words, things, places, amounts and numbers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any, TypeAlias

from baywright.language.things import Thing

Value: TypeAlias = Any
"""What a term stands for: a word, a number, an amount, parts or places, by its sort."""

Senses: TypeAlias = Mapping[str, tuple[Value, ...]]


class NotTold(Exception):  # noqa: N818 - a family that does not fit, not an error
    """A family of statements does not read a sentence."""


@dataclass(frozen=True, slots=True)
class Amount:
    """Numbers with a unit.

    Args:
        values: the numbers.
        unit: their unit.
        op: how they compare, or empty.
        ends: whether they are the two ends of a range.
    """

    values: tuple[Fraction, ...]
    unit: str
    op: str = ""
    ends: bool = False


@dataclass(frozen=True, slots=True)
class Group:
    """Parts that are spoken of together.

    Args:
        thing: what they are.
        parts: their ids.
        count: the number that is said of them.
        every: whether all of them are named.
        op: how the number compares.
    """

    thing: Thing
    parts: tuple[str, ...]
    count: Fraction | None = None
    every: bool = False
    op: str = ""


@dataclass(frozen=True, slots=True)
class Term:
    """One term with all it can be.

    Args:
        senses: values by sort.
        text: as it was written.
    """

    senses: Senses
    text: str

    def has(self, sort: str, *values: object) -> bool:
        """Say whether it can be of a sort, with one of some values where any are given."""
        held = self.senses.get(sort, ())
        return sort in self.senses and (not values or any(value in held for value in values))


@dataclass
class Bag:
    """Terms that are taken out one by one by a family that knows what to do with them.

    Args:
        terms: what is left, in the order of the sentence.
    """

    terms: list[Term] = field(default_factory=list)

    def copy(self) -> Bag:
        """Return the same terms to be taken out anew."""
        return Bag(list(self.terms))

    def has(self, sort: str, *values: object) -> bool:
        """Say whether a term of a sort is left."""
        return any(term.has(sort, *values) for term in self.terms)

    def where(self, sort: str, *values: object) -> int | None:
        """Return the position of the first term of a sort, or ``None``."""
        return next((i for i, t in enumerate(self.terms) if t.has(sort, *values)), None)

    def take(self, sort: str, *values: object) -> Value:
        """Take the first term of a sort out; return its value, or ``None`` when there is none."""
        at = self.where(sort, *values)
        if at is None:
            return None
        held = self.terms.pop(at).senses[sort]
        return next((each for each in held if not values or each in values), None)

    def took(self, sort: str, *values: object) -> bool:
        """Take a term of a sort out if there is one; say whether there was."""
        at = self.where(sort, *values)
        if at is not None:
            self.terms.pop(at)
        return at is not None

    def need(self, sort: str, *values: object) -> Value:
        """Take the first term of a sort out.

        Raises:
            NotTold: when there is none.
        """
        if not self.has(sort, *values):
            raise NotTold
        return self.take(sort, *values)

    def all(self, sort: str, *values: object) -> list[Any]:
        """Take every term of a sort out."""
        found = []
        while self.has(sort, *values):
            found.append(self.take(sort, *values))
        return found

    def drop(self, *sorts: str) -> None:
        """Leave out every term that can be of one of some sorts."""
        self.terms = [t for t in self.terms if not any(sort in t.senses for sort in sorts)]

    def amount(self, dimensions: Sequence[str]) -> Amount:
        """Take the first amount of a dimension out.

        Raises:
            NotTold: when there is none.
        """
        for at, term in enumerate(self.terms):
            held = term.senses.get("amount")
            if held and any(each in dimensions for each in term.senses["dimension"]):
                self.terms.pop(at)
                found: Amount = held[0]
                return found
        raise NotTold

    def done(self, *fillers: str) -> None:
        """Make sure that nothing is left but terms that say nothing more.

        Args:
            fillers: sorts of term, alone or with the values that count, as ``act=swap|remove``.

        Raises:
            NotTold: when a term is left over.
        """
        kept = [each.partition("=") for each in ("machine", "stop", *fillers)]
        allowed = [(sort, tuple(values.split("|")) if values else ()) for sort, _, values in kept]
        for term in self.terms:
            if not any(term.has(sort, *values) for sort, values in allowed):
                raise NotTold


UNLIKELY = Fraction(7919)
"""A number that no sentence is expected to name."""


def with_other_number(term: Term) -> Iterator[Term]:
    """Yield a term with another number, or with none it is above or below, where it has one."""
    for sort, held in term.senses.items():
        other: Value = None
        if sort == "number":
            other = tuple((UNLIKELY,) * len(each) for each in held)
        elif sort == "amount":
            other = tuple(replace(a, values=(UNLIKELY,) * len(a.values)) for a in held)
        elif sort == "op" and "number" in term.senses and set(held) & {"<", ">"}:
            other = ("",)
        elif sort == "group" and any((g.count or 1) != 1 for g in held):
            other = tuple(replace(group, count=UNLIKELY) for group in held)
        if other is not None:
            yield Term({**term.senses, sort: other}, term.text)


def clauses(terms: Sequence[Term]) -> Iterator[tuple[list[Term], list[Term]]]:
    """Yield each way to cut a sentence in two at a joining word."""
    for at, term in enumerate(terms):
        if term.has("join") and 0 < at < len(terms) - 1:
            after = at + 1
            while after < len(terms) - 1 and terms[after].has("join"):
                after += 1
            yield list(terms[:at]), list(terms[after:])

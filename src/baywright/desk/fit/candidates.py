"""Candidates: builds for a need, and the exact front over all that is compared."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.fronts import FrontFinder, front
from baywright.answers.inquiry import Inquiry, StoppedError
from baywright.answers.projection import View, view
from baywright.answers.verdicts import Proof
from baywright.engines.contract import NOTHING, Assumptions
from baywright.engines.preparation import Deadline
from baywright.facts.fact import mark_of
from baywright.facts.need import Need
from baywright.facts.places import Supplies
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.power import capacity_of
from baywright.laws.subsystem import Lookup, Lowest
from baywright.problems import problem
from baywright.space import Space
from baywright.terms import parse, wording

MOST_LEVELS = 400
"""More combinations of levels than this are not gone through."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """Some equal machines that a need may be met with.

    Args:
        hosts: how many machines.
        values: the build of each.
        price: price of all of them.
        load: peak draw of all of them, DC [W].
        space: rack units of all of them, or how many there are where the book does not say.
        headroom: what the supplies of one carry when redundant, less its peak draw [W]; ``None``
            where the book has no supplies of one kind.
        preferred: numbers of which more is better, of one machine.
    """

    hosts: int
    values: Mapping[str, int]
    price: Fraction
    load: Fraction
    space: int
    headroom: Fraction | None
    preferred: tuple[Fraction, ...] = ()

    @property
    def costs(self) -> tuple[Fraction, ...]:
        """All that is compared, less being better."""
        headroom = (-self.headroom,) if self.headroom is not None else ()
        preferred = tuple(-number for number in self.preferred)
        return (self.price, self.load, Fraction(self.space), *headroom, *preferred)

    def beats(self, other: Candidate) -> bool:
        """Say whether it is as good in everything and better in something."""
        mine, theirs = self.costs, other.costs
        return mine != theirs and all(a <= b for a, b in zip(mine, theirs, strict=True))


def unbeaten(candidates: Iterable[Candidate]) -> list[Candidate]:
    """Return the candidates that none of them beats, one of each kind, the cheapest first."""
    kept: list[Candidate] = []
    for each in sorted(candidates, key=lambda candidate: (candidate.costs, candidate.hosts)):
        # What comes before is no dearer; what comes after cannot beat it.
        if not any(other.beats(each) or other.costs == each.costs for other in kept):
            kept.append(each)
    return kept


@dataclass(frozen=True, slots=True)
class Measures:
    """What a need compares builds by.

    Args:
        machine: the compiled book.
        price: price of one machine.
        load: its peak draw.
        carried: the choices that say what its supplies carry when redundant.
        preferred: numbers of which more is better, in words, with their meaning.
        terms: the same as written.
    """

    machine: Machine
    price: Linear
    load: Linear
    carried: tuple[str, ...]
    preferred: tuple[tuple[str, Linear | Lookup | Lowest], ...]
    terms: tuple[str, ...]

    def candidate(self, hosts: int, values: Mapping[str, int], space: int) -> Candidate:
        """Return a build as a candidate."""
        return Candidate(
            hosts,
            values,
            hosts * self.price.value(values),
            hosts * self.load.value(values),
            space,
            self._headroom(values),
            tuple(self._number(meaning, values) for _, meaning in self.preferred),
        )

    def _headroom(self, values: Mapping[str, int]) -> Fraction | None:
        if not self.carried:
            return None
        options = (self.machine.frame.options(name)[values[name]] for name in self.carried)
        carried = sum((Fraction(str(option.value)) for option in options), Fraction(0))
        return carried - self.load.value(values)

    def _number(self, meaning: Linear | Lookup | Lowest, values: Mapping[str, int]) -> Fraction:
        if isinstance(meaning, Linear):
            return meaning.value(values)
        options = (self.machine.frame.options(name)[values[name]] for name in meaning.scope)
        return meaning.number(*options) or Fraction(0)


def measures(machine: Machine, need: Need) -> Measures:
    """Return what a need compares builds by.

    Raises:
        Problems: for what is preferred and is no number.
    """
    return Measures(
        machine,
        total_of(machine, "price"),
        total_of(machine, "load"),
        tuple(capacity_of(name, redundant=True) for name in machine.book.places_of(Supplies)),
        tuple(_preferred(machine, text) for text in need.prefer),
        tuple(need.prefer),
    )


def total_of(machine: Machine, name: str) -> Linear:
    """Return the total that a name of every book stands for."""
    meaning = machine.names[name].meaning
    if not isinstance(meaning, Linear):
        raise TypeError(f"{name} is a total in every book")
    return meaning


def _preferred(machine: Machine, text: str) -> tuple[str, Linear | Lookup | Lowest]:
    mark = mark_of(text)
    expression = machine.read(parse(text, mark), mark).expression
    meaning = None
    if not _is_place(machine, text):
        meaning = machine.translator.value(expression)
    if not isinstance(meaning, Linear | Lookup | Lowest):
        hint = "Name a number, such as cores or memory_speed."
        raise problem("not-a-number", f"{text} is no number.", mark, hint)
    return wording(expression, machine.vocabulary), meaning


def _is_place(machine: Machine, text: str) -> bool:
    return text in machine.book.places or text in machine.book.settings or text == "line"


@dataclass(frozen=True, slots=True)
class Level:
    """One combination of values of what has few, with its front of price and draw.

    Args:
        given: the values.
        builds: the builds that no other with these values beats.
        proof: who answered and who proved it again.
    """

    given: Assumptions
    builds: tuple[Mapping[str, int], ...]
    proof: Proof


def levels(inquiry: Inquiry, compared: Measures, space: Space) -> list[Assumptions]:
    """Return every combination of values that some build has of what has few.

    What supplies carry and what is preferred have few values. With each combination of them
    fixed, price and draw are all that is left to compare, so that their fronts miss nothing.

    Raises:
        Problems: when what is preferred has too many values.
        StoppedError: at a limit.
    """
    seen = _seen(compared, space)
    names: Sequence[str] = (*compared.carried, *seen.names)
    if not names:
        return [NOTHING]
    left = inquiry.options(seen.space)
    combinations = math.prod(len(left[name]) for name in names)
    if combinations > MOST_LEVELS:
        message = f"{', '.join(compared.terms)} have {combinations:,} levels together."
        raise problem("too-many-levels", message, None, "Prefer fewer numbers at a time.")
    return [
        Assumptions({name: frozenset({at}) for name, at in zip(names, row, strict=True)})
        for row in itertools.product(*(sorted(left[name]) for name in names))
    ]


def fronts_of(
    inquiry: Inquiry,
    compared: Measures,
    space: Space,
    finder: FrontFinder,
    given: Sequence[Assumptions],
    deadline: Deadline,
) -> list[Level]:
    """Return the front of price and draw of each of some levels.

    Args:
        inquiry: the engines.
        compared: what builds are compared by.
        space: the space with all wishes.
        finder: the engine that finds fronts of two totals.
        given: the levels.
        deadline: no level is begun after it, other than the first.

    Raises:
        StoppedError: at a limit.
        RecheckError: when a point was missed, or a build breaks a law.
    """
    seen = _seen(compared, space)
    found: list[Level] = []
    for each in given:
        if found and not deadline.left:
            raise StoppedError("the time was up")
        taken = front(inquiry, seen.space, compared.price, compared.load, finder, each)
        builds = tuple(point.values for point in taken.points)
        found.append(Level(each, builds, taken.proof))
    return found


def _seen(compared: Measures, space: Space) -> View:
    terms = [parse(term, mark_of(term)) for term in compared.terms]
    return view(compared.machine, space, terms)

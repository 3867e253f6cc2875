"""Formulas: what an expression or a law says about choices, and how it becomes tables and sums."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias

from baywright.laws.linear import Linear, integral
from baywright.space import Choice, Law, Origin, Sum, Table
from baywright.terms.syntax import Comparison

SMALL_SCOPE = 20_000
"""Most rows that are enumerated for one table of an expression."""


@dataclass(frozen=True, slots=True)
class Rows:
    """True in the listed rows of value indices over a scope."""

    scope: tuple[str, ...]
    rows: frozenset[tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class AtMost:
    """True when a total is at most a bound."""

    linear: Linear
    bound: Fraction


@dataclass(frozen=True, slots=True)
class AllOf:
    """True when every term is. Without terms it is true."""

    terms: tuple[Formula, ...]


@dataclass(frozen=True, slots=True)
class AnyOf:
    """True when some term is. Without terms it is false."""

    terms: tuple[Formula, ...]


@dataclass(frozen=True, slots=True)
class Exists:
    """True when some values of new choices make the laws over them hold.

    It has no negation that an engine could take.
    """

    choices: tuple[Choice, ...]
    body: Formula


Formula: TypeAlias = Rows | AtMost | AllOf | AnyOf | Exists

TRUE = AllOf(())
FALSE = AnyOf(())

Sizes: TypeAlias = Mapping[str, int]
"""Number of values of each choice."""


class NotEncodable(Exception):  # noqa: N818 - reads as the outcome it is
    """A formula that cannot become tables and sums; the text says how to split it."""


def negated(formula: Formula, sizes: Sizes) -> Formula:
    """Return the formula that is true where this one is false."""
    match formula:
        case Rows(scope, rows):
            every = itertools.product(*(range(sizes[name]) for name in scope))
            return Rows(scope, frozenset(every) - rows)
        case AtMost(linear, bound):
            other = linear.scaled(-1)
            return AtMost(other, other.below(-bound))
        case AllOf(terms):
            return AnyOf(tuple(negated(term, sizes) for term in terms))
        case AnyOf(terms):
            return AllOf(tuple(negated(term, sizes) for term in terms))
        case Exists():
            raise NotEncodable(
                "arrays() cannot stand under not, or in a condition; ask for it alone"
            )


def compared(difference: Linear, op: Comparison) -> Formula:
    """Return the formula that compares a difference with zero."""
    zero = Fraction(0)
    flipped = difference.scaled(-1)
    at_most, at_least = AtMost(difference, zero), AtMost(flipped, zero)
    less = AtMost(difference, difference.below(zero))
    more = AtMost(flipped, flipped.below(zero))
    match op:
        case "<=":
            return at_most
        case ">=":
            return at_least
        case "<":
            return less
        case ">":
            return more
        case "==":
            return AllOf((at_most, at_least))
        case "!=":
            return AnyOf((less, more))


@dataclass
class Encoded:
    """What a formula became."""

    choices: list[Choice] = field(default_factory=list)
    laws: list[Law] = field(default_factory=list)


def encode(formula: Formula, origin: Origin, sizes: Sizes) -> Encoded:
    """Turn a formula that has to hold into tables and sums of one origin.

    Raises:
        NotEncodable: with a sentence that says how to split it.
    """
    encoder = _Encoder(origin, dict(sizes))
    encoder.require(formula)
    return Encoded(encoder.choices, encoder.laws)


class _Encoder:
    """Collects the helper choices, tables and sums of one origin."""

    def __init__(self, origin: Origin, sizes: dict[str, int]) -> None:
        self.origin = origin
        self.sizes = sizes
        self.choices: list[Choice] = []
        self.laws: list[Law] = []

    def require(self, formula: Formula) -> None:
        match formula:
            case Rows():
                self._table(formula)
            case AtMost(linear, bound):
                single = tabulated(formula, self.sizes) if len(linear.weights) == 1 else None
                if single is not None:
                    self._table(single)
                else:
                    self._sum(linear, bound)
            case AllOf(terms):
                for term in terms:
                    self.require(term)
            case Exists(choices, body):
                self._introduce(choices)
                self.require(body)
            case AnyOf(terms):
                self._require_any(terms)

    def _require_any(self, terms: tuple[Formula, ...]) -> None:
        whole = tabulated(AnyOf(terms), self.sizes)
        if whole is not None:
            self._table(whole)
            return
        names = tuple(self._reified(term) for term in terms)
        every = itertools.product((0, 1), repeat=len(names))
        self._table(Rows(names, frozenset(row for row in every if any(row))))

    def _reified(self, formula: Formula) -> str:
        """Return a helper choice whose value is 1 exactly where the formula holds."""
        match formula:
            case Exists():
                raise NotEncodable("arrays() cannot stand under or; ask each case alone")
            case AtMost(linear, bound):
                helper = self._helper()
                self._bind(helper, linear, bound)
                return helper
            case AllOf(terms) | AnyOf(terms):
                join = all if isinstance(formula, AllOf) else any
                names = tuple(self._reified(term) for term in terms)
                helper = self._helper()
                every = itertools.product((0, 1), repeat=len(names))
                rows = frozenset((*row, int(join(row))) for row in every)
                self._table(Rows((*names, helper), rows))
                return helper
            case Rows(scope, rows):
                helper = self._helper()
                every = itertools.product(*(range(self.sizes[name]) for name in scope))
                self._table(
                    Rows((*scope, helper), frozenset((*row, int(row in rows)) for row in every))
                )
                return helper

    def _bind(self, helper: str, linear: Linear, bound: Fraction) -> None:
        """Tie ``helper = 1`` to ``linear <= bound`` in both directions."""
        over = max(linear.highest - bound, Fraction(0))
        self._sum(linear.plus(Linear({helper: (-over, Fraction(0))})), bound)
        flipped, rest = linear.scaled(-1), linear.scaled(-1).below(-bound)
        under = max(flipped.highest - rest, Fraction(0))
        self._sum(flipped.plus(Linear({helper: (Fraction(0), -under)})), rest)

    def _helper(self) -> str:
        choice = Choice(f"{self.origin.key}#{len(self.choices) + 1}", ("no", "yes"), derived=True)
        self._introduce((choice,))
        return choice.name

    def _introduce(self, choices: Iterable[Choice]) -> None:
        for choice in choices:
            self.choices.append(choice)
            self.sizes[choice.name] = choice.size

    def _table(self, rows: Rows) -> None:
        if len(rows.rows) < math.prod(self.sizes[name] for name in rows.scope):
            self.laws.append(Table(rows.scope, rows.rows, self.origin))

    def _sum(self, linear: Linear, bound: Fraction) -> None:
        if linear.highest <= bound:
            return
        weights, at_most = integral(linear, bound)
        self.laws.append(Sum(tuple(weights.items()), at_most, self.origin, linear.dimension))


def scope_of(formula: Formula) -> tuple[str, ...]:
    """Return the names of the choices a formula speaks of, each once."""
    return tuple(dict.fromkeys(_names(formula)))


def _names(formula: Formula) -> Iterator[str]:
    match formula:
        case Rows(scope, _):
            yield from scope
        case AtMost(linear, _):
            yield from linear.weights
        case AllOf(terms) | AnyOf(terms):
            for term in terms:
                yield from _names(term)
        case Exists(_, body):
            yield from _names(body)


def tabulated(formula: Formula, sizes: Sizes) -> Rows | None:
    """Return the same formula as rows, or ``None`` when its scope is too large to enumerate."""
    scope = scope_of(formula)
    if any(isinstance(term, Exists) for term in _parts(formula)):
        return None
    if math.prod(sizes[name] for name in scope) > SMALL_SCOPE:
        return None
    test = compiled(formula, {name: position for position, name in enumerate(scope)})
    every = itertools.product(*(range(sizes[name]) for name in scope))
    return Rows(scope, frozenset(row for row in every if test(row)))


def _parts(formula: Formula) -> Iterator[Formula]:
    yield formula
    if isinstance(formula, AllOf | AnyOf):
        for term in formula.terms:
            yield from _parts(term)


def totals_in(formula: Formula) -> Iterator[AtMost]:
    """Yield the bounded totals that have to hold wherever the formula does."""
    match formula:
        case AtMost(linear, bound) if linear.highest > bound:
            yield formula
        case AllOf(terms):
            for term in terms:
                yield from totals_in(term)
        case Exists(_, body):
            yield from totals_in(body)
        case _:
            return


Test: TypeAlias = Callable[[tuple[int, ...]], bool]


def compiled(formula: Formula, position: Mapping[str, int]) -> Test:
    """Return a function that evaluates the formula on a row.

    Args:
        formula: one without new choices.
        position: where the value index of each choice stands in the row.
    """
    match formula:
        case Rows(scope, rows):
            places = tuple(position[name] for name in scope)
            return lambda row: tuple(row[place] for place in places) in rows
        case AtMost(linear, bound):
            # Whole multiples of the quantum are added much quicker than fractions.
            step = linear.quantum
            weights = [
                (position[name], tuple(int(w / step) for w in ws))
                for name, ws in linear.weights.items()
            ]
            rest = math.floor((bound - linear.constant) / step)
            return lambda row: sum(ws[row[place]] for place, ws in weights) <= rest
        case AllOf(terms):
            tests = [compiled(term, position) for term in terms]
            return lambda row: all(test(row) for test in tests)
        case AnyOf(terms):
            tests = [compiled(term, position) for term in terms]
            return lambda row: any(test(row) for test in tests)
        case Exists():
            raise NotEncodable("arrays() cannot stand in a condition; ask for it alone")

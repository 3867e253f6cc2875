"""The small vocabulary of questions about a space file: its choices, their values, its sums.

A choice is named by its name, or by ``choice("name")`` where the name is no plain word; a sum by
``sum("name")``. A choice is compared with the label of a value, in quotes unless it is a number;
where all labels of a choice are numbers it is a number too.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from baywright.laws.formula import (
    FALSE,
    TRUE,
    AllOf,
    AnyOf,
    Formula,
    NotEncodable,
    Rows,
    compared,
    encode,
    negated,
)
from baywright.laws.linear import Linear
from baywright.laws.wishes import Wish
from baywright.problems import Mark, Problems, problem, suggestion
from baywright.space import Choice, Origin, Space
from baywright.terms import Expression, conjuncts, text
from baywright.terms.syntax import (
    IMPLIES,
    And,
    Arithmetic,
    Call,
    Compare,
    Member,
    Name,
    Negative,
    Not,
    Number,
    Or,
    Text,
    Truth,
)

_NUMBER = re.compile(r"-?[0-9]{1,18}(?:\.[0-9]{1,9})?")

_HINT = "Write conditions such as cpu == 'large', choice('a b') == 'c' or sum('watts') <= 90."


@dataclass(frozen=True, slots=True)
class SpaceTerms:
    """Reads expressions about one space.

    Args:
        space: the space.
        mark: where the expression is written.
    """

    space: Space
    mark: Mark

    def wishes(self, asked: Expression, start: int = 1) -> list[Wish]:
        """Return a condition as wishes, one for each term of its outermost ``and``.

        Args:
            asked: the condition.
            start: number of the first wish.

        Raises:
            Problems: when it makes no sense, or cannot be proven as it stands.
        """
        terms = enumerate(conjuncts(asked), start)
        return [self._wish(term, f"wish:{number}") for number, term in terms]

    def _wish(self, term: Expression, key: str) -> Wish:
        origin = Origin(key, "wish", f"Asked: {text(term)}.")
        try:
            encoded = encode(self.condition(term), origin, self._sizes())
        except NotEncodable as reason:
            message = f"This cannot be proven as it stands: {reason}."
            raise problem("not-encodable", message, self.mark) from reason
        return Wish(origin, text(term), tuple(encoded.choices), tuple(encoded.laws))

    def _sizes(self) -> dict[str, int]:
        return {choice.name: choice.size for choice in self.space.choices}

    def condition(self, term: Expression) -> Formula:
        """Return a condition as a formula; raises ``Problems``."""
        match term:
            case Truth(value):
                return TRUE if value else FALSE
            case And(terms):
                return AllOf(tuple(self.condition(each) for each in terms))
            case Or(terms):
                return AnyOf(tuple(self.condition(each) for each in terms))
            case Not(inner):
                return negated(self.condition(inner), self._sizes())
            case Call(name, (given, then), ()) if name == IMPLIES:
                return AnyOf((self.condition(Not(given)), self.condition(then)))
            case Member(item, options):
                return AnyOf(tuple(self._compared(Compare(item, "==", o)) for o in options))
            case Compare():
                return self._compared(term)
            case _:
                raise self._refused(term, "is no condition")

    def is_condition(self, term: Expression) -> bool:
        """Say whether an expression is a condition rather than a number."""
        return isinstance(term, Truth | And | Or | Not | Member | Compare) or (
            isinstance(term, Call) and term.name == IMPLIES
        )

    def _compared(self, term: Compare) -> Formula:
        left, right = self._choice(term.left), self._choice(term.right)
        if term.op in ("==", "!="):
            if left and right and not (_numbers(left) and _numbers(right)):
                return self._alike(left, right, equal=term.op == "==")
            if left or right:
                choice, other = (left, term.right) if left else (right, term.left)
                label = _label(other)
                if choice and label is not None:
                    return self._labelled(choice, label, equal=term.op == "==")
        return compared(self.number(term.left).minus(self.number(term.right)), term.op)

    def _labelled(self, choice: Choice, label: str, *, equal: bool) -> Formula:
        if label not in choice.values:
            hint = suggestion(label, choice.values)
            message = f"{choice.name} has no value {label!r}."
            raise problem("unknown-name", message, self.mark, hint)
        rows = ((i,) for i, value in enumerate(choice.values) if (value == label) == equal)
        return Rows((choice.name,), frozenset(rows))

    def _alike(self, left: Choice, right: Choice, *, equal: bool) -> Formula:
        pairs = itertools.product(enumerate(left.values), enumerate(right.values))
        rows = frozenset((i, j) for (i, one), (j, other) in pairs if (one == other) == equal)
        return Rows((left.name, right.name), rows)

    def number(self, term: Expression) -> Linear:
        """Return a number as weights of values; raises ``Problems``."""
        match term:
            case Number(value):
                return Linear({}, value)
            case Negative(inner):
                return self.number(inner).scaled(-1)
            case Arithmetic(op, left, right):
                return self._arithmetic(op, self.number(left), self.number(right), term)
            case Call("sum", (Text(name) | Name(name),), ()):
                return self._sum(name)
        choice = self._choice(term)
        numbers = _numbers(choice) if choice else None
        if choice is None or numbers is None:
            raise self._refused(term, "is no number")
        return Linear({choice.name: numbers})

    def _arithmetic(self, op: str, left: Linear, right: Linear, term: Expression) -> Linear:
        if op == "+":
            return left.plus(right)
        if op == "-":
            return left.minus(right)
        if left.weights and right.weights:
            raise self._refused(term, "is a product of two choices")
        if right.weights:
            return right.scaled(left.constant)
        return left.scaled(right.constant)

    def _sum(self, name: str) -> Linear:
        found = [total for total in self.space.sums if total.origin.key == name]
        if len(found) == 1:
            weights = {n: tuple(map(Fraction, column)) for n, column in found[0].weights}
            return Linear(weights)
        known = dict.fromkeys(total.origin.key for total in self.space.sums)
        if found:
            raise problem("ambiguous", f"Several sums are called {name!r}.", self.mark)
        message = f"There is no sum {name!r}."
        raise problem("unknown-name", message, self.mark, suggestion(name, known))

    def _choice(self, term: Expression) -> Choice | None:
        """Return the choice that a term names, or ``None`` when it is something else."""
        match term:
            case Call("choice", (Text(name) | Name(name),), ()) | Name(name):
                if name in self.space:
                    return self.space.choice(name)
                names: Iterable[str] = (choice.name for choice in self.space.choices)
                message = f"There is no choice {name!r}."
                hint = suggestion(name, names) or "Put the label of a value in quotes."
                raise problem("unknown-name", message, self.mark, hint)
            case _:
                return None

    def _refused(self, term: Expression, why: str) -> Problems:
        return problem("not-a-condition", f"{text(term)} {why} here.", self.mark, _HINT)


def _label(term: Expression) -> str | None:
    match term:
        case Text(label):
            return label
        case Number(value) if value.denominator == 1:
            return str(value)
        case _:
            return None


def _numbers(choice: Choice) -> tuple[Fraction, ...] | None:
    """Return the labels of a choice as numbers, or ``None`` when one of them is none."""
    if all(_NUMBER.fullmatch(label) for label in choice.values):
        return tuple(Fraction(label) for label in choice.values)
    return None

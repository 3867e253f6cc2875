"""From an expression to a formula over the choices of a frame."""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from baywright.laws.formula import (
    FALSE,
    TRUE,
    AllOf,
    AnyOf,
    AtMost,
    Exists,
    Formula,
    NotEncodable,
    Rows,
    compared,
    negated,
)
from baywright.laws.frame import Frame, Option
from baywright.laws.linear import Linear
from baywright.laws.subsystem import Function, Lookup, Lowest, Meaning, Named, Span
from baywright.terms import Expression, arrange
from baywright.terms.syntax import (
    IMPLIES,
    Amount,
    And,
    Arithmetic,
    Call,
    Compare,
    Comparison,
    Member,
    Name,
    Negative,
    Not,
    Number,
    Or,
    Text,
    Truth,
)

_TESTS: dict[Comparison, Callable[[Fraction, Fraction], bool]] = {
    "==": operator.eq,
    "!=": operator.ne,
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
}
_MIRRORED: dict[Comparison, Comparison] = {"<": ">", "<=": ">=", ">": "<", ">=": "<="}


@dataclass(frozen=True, slots=True)
class Translator:
    """Gives checked expressions their meaning over a frame.

    Args:
        frame: the choices.
        names: what names stand for, beside places and settings.
        functions: what calls stand for.
    """

    frame: Frame
    names: Mapping[str, Named]
    functions: Mapping[str, Function]

    def truth(self, expression: Expression) -> Formula:
        """Return the formula of an expression that is true or false.

        Raises:
            NotEncodable: with a sentence that says how to split it.
        """
        match expression:
            case Truth(value):
                return TRUE if value else FALSE
            case And(terms):
                return AllOf(tuple(self.truth(term) for term in terms))
            case Or(terms):
                return AnyOf(tuple(self.truth(term) for term in terms))
            case Not(term):
                return negated(self.truth(term), self.frame.sizes)
            case Member(item, options):
                return AnyOf(tuple(self.truth(Compare(item, "==", each)) for each in options))
            case Call(name, (given, then), _) if name == IMPLIES:
                return AnyOf((negated(self.truth(given), self.frame.sizes), self.truth(then)))
            case Compare(left, op, right):
                return self._compare(left, op, right)
            case _:
                return self._formula(expression)

    def value(self, expression: Expression) -> Meaning:
        """Return what an expression with a value stands for."""
        match expression:
            case Number(value):
                return Linear(constant=value)
            case Amount(quantity):
                return Linear(constant=quantity.canonical, dimension=quantity.dimension)
            case Name(name):
                return self.names[name].meaning
            case Negative(term):
                return self._linear(term).scaled(-1)
            case Arithmetic(op, left, right):
                return self._arithmetic(op, self._linear(left), self._linear(right))
            case Call(name, _, _):
                function = self.functions[name]
                return function.meaning(self.frame, arrange(expression, function.entry))
            case _:
                raise NotEncodable("a value is wanted here, not a condition")

    def _formula(self, expression: Expression) -> Formula:
        meaning = self.value(expression)
        if isinstance(meaning, Rows | AtMost | AllOf | AnyOf | Exists):
            return meaning
        raise NotEncodable("this is a value; compare it with another, such as 'load <= 1300 W'")

    def _linear(self, expression: Expression) -> Linear:
        meaning = self.value(expression)
        if isinstance(meaning, Linear):
            return meaning
        raise NotEncodable(
            "a value that is looked up does not add up; compare it with one amount on its own"
        )

    def _arithmetic(self, op: str, left: Linear, right: Linear) -> Linear:
        if op == "+":
            return left.plus(right)
        if op == "-":
            return left.minus(right)
        if not left.weights:
            left, right = right, left
        if right.weights:
            raise NotEncodable("two values that both depend on the build cannot be multiplied")
        product = left.scaled(right.constant)
        return Linear(product.weights, product.constant, left.dimension or right.dimension)

    def _compare(self, left: Expression, op: Comparison, right: Expression) -> Formula:
        if self._is_content(left):
            return self._content(left, op, right)
        if self._is_content(right):
            return self._content(right, op, left)
        mine, theirs = self.value(left), self.value(right)
        if isinstance(mine, Linear) and isinstance(theirs, Linear):
            return compared(mine.minus(theirs), op)
        if isinstance(mine, Linear) and not mine.weights:
            mine, theirs, op = theirs, mine, _MIRRORED.get(op, op)
        if not isinstance(theirs, Linear) or theirs.weights:
            raise NotEncodable("a value that is looked up can be compared only with a fixed amount")
        return self.level(mine, op, theirs.constant)

    def level(self, meaning: Meaning, op: Comparison, bound: Fraction) -> Formula:
        """Return the formula that compares a value with a fixed one in its canonical unit.

        Raises:
            NotEncodable: when it is not a value.
        """
        match meaning:
            case Linear():
                return compared(meaning.minus(Linear(constant=bound)), op)
            case Lookup():
                return self._lookup(meaning, op, bound)
            case Lowest():
                return self._lowest(meaning, op, bound)
            case Span():
                return self._span(meaning, op, bound)
            case _:
                raise NotEncodable("a condition cannot be compared with an amount")

    def _is_content(self, expression: Expression) -> bool:
        return (
            isinstance(expression, Name)
            and expression.name not in self.names
            and expression.name != "empty"
        )

    def _content(self, name: Expression, op: Comparison, other: Expression) -> Formula:
        """A place or a setting against a part, a value or ``empty``."""
        if not isinstance(name, Name) or not isinstance(other, Text | Name):
            raise NotEncodable("a place can be compared with a part in quotes, or with empty")
        choices = self.frame.at(name.name)
        if isinstance(other, Name):
            if other.name != "empty":
                raise NotEncodable("two places cannot be compared with each other")
            found: Formula = AllOf(tuple(self._where(choice, _is_empty) for choice in choices))
        else:
            wanted = other.text
            found = AnyOf(
                tuple(self._where(c, lambda option: _holds(option, wanted)) for c in choices)
            )
        return found if op == "==" else negated(found, self.frame.sizes)

    def _where(self, choice: str, test: Callable[[Option], bool]) -> Rows:
        return Rows((choice,), self.frame.rows((choice,), test))

    def _lookup(self, lookup: Lookup, op: Comparison, bound: Fraction) -> Formula:
        return self._looked_up(lookup, lambda v: v is not None and _TESTS[op](v, bound))

    def _looked_up(self, lookup: Lookup, test: Callable[[Fraction | None], bool]) -> Formula:
        rows = self.frame.rows(lookup.scope, lambda *options: test(lookup.number(*options)))
        return Rows(lookup.scope, rows)

    def _lowest(self, lowest: Lowest, op: Comparison, bound: Fraction) -> Formula:
        some = AnyOf(tuple(self._looked_up(t, lambda v: v is not None) for t in lowest.terms))
        match op:
            case ">" | ">=":
                every = (
                    self._looked_up(t, lambda v: v is None or _TESTS[op](v, bound))
                    for t in lowest.terms
                )
                return AllOf((*every, some))
            case "<" | "<=":
                return AnyOf(tuple(self._lookup(t, op, bound) for t in lowest.terms))
            case "==":
                return AllOf((self._lowest(lowest, ">=", bound), self._lowest(lowest, "<=", bound)))
            case _:
                return AnyOf((self._lowest(lowest, "<", bound), self._lowest(lowest, ">", bound)))

    def _span(self, span: Span, op: Comparison, bound: Fraction) -> Formula:
        inside = AllOf((self._lookup(span.low, "<=", bound), self._lookup(span.high, ">=", bound)))
        match op:
            case "==":
                return inside
            case "!=":
                return negated(inside, self.frame.sizes)
            case "<" | "<=":
                return self._lookup(span.high, op, bound)
            case _:
                return self._lookup(span.low, op, bound)


def _is_empty(option: Option) -> bool:
    return not option.parts


def _holds(option: Option, wanted: str) -> bool:
    return option.value == wanted or any(part == wanted for part, _ in option.parts)

"""The value of a checked expression, in exact arithmetic."""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol, TypeAlias

from baywright.terms.syntax import (
    IMPLIES,
    Amount,
    And,
    Arithmetic,
    Call,
    Compare,
    Comparison,
    Expression,
    Member,
    Name,
    Negative,
    Not,
    Number,
    Or,
    Text,
    Truth,
)
from baywright.units import Quantity

Value: TypeAlias = bool | int | Fraction | Quantity | str | None
"""A value; ``None`` is ``empty``, and the value of a field that a part does not have."""

_ORDER: Mapping[Comparison, Callable[[Fraction | Quantity, Fraction | Quantity], bool]] = {
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
}


class Environment(Protocol):
    """What the names and functions of an expression stand for."""

    def name(self, name: str) -> Value:
        """Return the value of a name; ``None`` for ``empty``."""

    def call(self, call: Call) -> Value:
        """Return the value of a call; its arguments have not been evaluated."""


@dataclass(frozen=True, slots=True)
class Fields:
    """The environment of a filter: the fields of one part.

    Args:
        values: the value of each field; one that is missing is ``None``.
    """

    values: Mapping[str, Value]

    def name(self, name: str) -> Value:
        """Return the value of a field, or ``None`` when the part has no such field."""
        return self.values.get(name)

    def call(self, call: Call) -> Value:
        """Refuse: checking lets no function into a filter."""
        raise LookupError(f"a filter cannot call {call.name!r}")


def evaluate(expression: Expression, environment: Environment) -> Value:
    """Return the value of a checked expression.

    ``and``, ``or`` and ``implies`` stop at the first term that decides. A comparison by size with
    ``None`` is false; ``None`` equals only itself.

    Args:
        expression: an expression as ``check`` returns it.
        environment: what its names and functions stand for.

    Raises:
        TypeError: when a value is of another type than the vocabulary promised.
    """
    match expression:
        case Number(value) | Truth(value) | Text(value) | Amount(value):
            return value
        case Name(name):
            return environment.name(name)
        case Call(name, (condition, consequence)) if name == IMPLIES:
            return not holds(condition, environment) or holds(consequence, environment)
        case Call():
            return environment.call(expression)
        case Arithmetic() | Negative():
            return _calculated(expression, environment)
        case _:
            return _decided(expression, environment)


def holds(expression: Expression, environment: Environment) -> bool:
    """Return whether a checked condition is true.

    Raises:
        TypeError: when its value is not a truth. ``None``, a truth a part lacks, counts as false.
    """
    value = evaluate(expression, environment)
    if value is None:
        return False
    if not isinstance(value, bool):
        raise TypeError(f"{value!r} is not a truth")
    return value


def compare(left: Value, op: Comparison, right: Value) -> bool:
    """Return whether two values stand in a relation.

    Raises:
        TypeError: when values of different sorts, or texts, are compared by size.
    """
    if op == "==":
        return left == right
    if op == "!=":
        return left != right
    if left is None or right is None:
        return False
    if isinstance(left, Quantity) and isinstance(right, Quantity):
        return _ORDER[op](left, right)
    return _ORDER[op](_number(left), _number(right))


def _decided(expression: And | Or | Not | Compare | Member, environment: Environment) -> bool:
    match expression:
        case And(terms):
            return all(holds(term, environment) for term in terms)
        case Or(terms):
            return any(holds(term, environment) for term in terms)
        case Not(term):
            return not holds(term, environment)
        case Compare(left, op, right):
            return compare(evaluate(left, environment), op, evaluate(right, environment))
        case Member(item, options):
            value = evaluate(item, environment)
            return any(value == evaluate(option, environment) for option in options)


def _calculated(expression: Arithmetic | Negative, environment: Environment) -> Value:
    if isinstance(expression, Negative):
        value = evaluate(expression.term, environment)
        return -value if isinstance(value, Quantity) else -_number(value)
    left = evaluate(expression.left, environment)
    right = evaluate(expression.right, environment)
    if expression.op == "*":
        return _product(left, right)
    if isinstance(left, Quantity) and isinstance(right, Quantity):
        return left + right if expression.op == "+" else left - right
    first, second = _number(left), _number(right)
    return first + second if expression.op == "+" else first - second


def _product(left: Value, right: Value) -> Value:
    if isinstance(left, Quantity):
        return left * _number(right)
    if isinstance(right, Quantity):
        return right * _number(left)
    return _number(left) * _number(right)


def _number(value: Value) -> Fraction:
    if isinstance(value, bool) or not isinstance(value, int | Fraction):
        raise TypeError(f"{value!r} is not a plain number")
    return Fraction(value)

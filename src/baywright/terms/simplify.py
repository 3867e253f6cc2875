"""Rearranging conditions without changing what they say."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeAlias

from baywright.terms.syntax import (
    IMPLIES,
    And,
    Call,
    Compare,
    Comparison,
    Expression,
    Not,
    Or,
    Span,
    Truth,
)

OPPOSITE: dict[Comparison, Comparison] = {
    "==": "!=",
    "!=": "==",
    "<": ">=",
    ">=": "<",
    ">": "<=",
    "<=": ">",
}
"""The comparison that holds exactly when the other does not, of values that are not empty."""


Turns: TypeAlias = Callable[[Compare], bool]


def _every(_comparison: Compare) -> bool:
    return True


def negation_normal(condition: Expression) -> Expression:
    """Return the condition with ``not`` only before names, calls and memberships.

    ``implies(a, b)`` becomes ``not a or b``; what stands inside other calls is left alone. The
    values compared by size must be there: ``empty`` is neither below nor at least anything.
    """
    return _normal(condition, _every, holds=True)


def opposite(condition: Expression, turns: Turns = _every) -> Expression:
    """Return the negation normal form of the opposite of a condition.

    Args:
        condition: the condition.
        turns: whether a comparison can be turned into the opposite one. A value that may be
            missing is neither below nor at least anything, so there ``not`` has to stay.
    """
    return _normal(condition, turns, holds=False)


def conjuncts(condition: Expression) -> tuple[Expression, ...]:
    """Return the terms that must all hold, with conjunctions inside each other flattened."""
    if isinstance(condition, And):
        return tuple(part for term in condition.terms for part in conjuncts(term))
    return (condition,)


def conjunction(terms: Iterable[Expression]) -> Expression:
    """Return the condition that all terms hold; of none, ``true``."""
    found = tuple(terms)
    return And(found) if len(found) > 1 else next(iter(found), Truth(value=True))


def _normal(condition: Expression, turns: Turns, *, holds: bool) -> Expression:
    match condition:
        case Not(term):
            return _normal(term, turns, holds=not holds)
        case And(terms, span):
            return _joined(terms, span, turns, every=holds, holds=holds)
        case Or(terms, span):
            return _joined(terms, span, turns, every=not holds, holds=holds)
        case Call(name, (first, second), span=span) if name == IMPLIES:
            parts = (Not(first, first.span), second)
            return _joined(parts, span, turns, every=not holds, holds=holds)
        case Compare(left, op, right, span) if turns(condition):
            return condition if holds else Compare(left, OPPOSITE[op], right, span)
        case Truth(value, span):
            return Truth(value is holds, span)
        case _:
            return condition if holds else Not(condition, condition.span)


def _joined(
    terms: tuple[Expression, ...], span: Span, turns: Turns, *, every: bool, holds: bool
) -> Expression:
    found = tuple(_normal(term, turns, holds=holds) for term in terms)
    return And(found, span) if every else Or(found, span)

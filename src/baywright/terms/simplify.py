"""Rearranging conditions without changing what they say."""

from __future__ import annotations

from collections.abc import Iterable

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


def negation_normal(condition: Expression) -> Expression:
    """Return the condition with ``not`` only before names, calls and memberships.

    ``implies(a, b)`` becomes ``not a or b``; what stands inside other calls is left alone. The
    values compared by size must be there: ``empty`` is neither below nor at least anything.
    """
    return _normal(condition, holds=True)


def opposite(condition: Expression) -> Expression:
    """Return the negation normal form of the opposite of a condition."""
    return _normal(condition, holds=False)


def conjuncts(condition: Expression) -> tuple[Expression, ...]:
    """Return the terms that must all hold, with conjunctions inside each other flattened."""
    if isinstance(condition, And):
        return tuple(part for term in condition.terms for part in conjuncts(term))
    return (condition,)


def conjunction(terms: Iterable[Expression]) -> Expression:
    """Return the condition that all terms hold; of none, ``true``."""
    found = tuple(terms)
    return And(found) if len(found) > 1 else next(iter(found), Truth(value=True))


def _normal(condition: Expression, *, holds: bool) -> Expression:
    match condition:
        case Not(term):
            return _normal(term, holds=not holds)
        case And(terms, span):
            return _joined(terms, span, every=holds, holds=holds)
        case Or(terms, span):
            return _joined(terms, span, every=not holds, holds=holds)
        case Call(name, (first, second), span=span) if name == IMPLIES:
            parts = (Not(first, first.span), second)
            return _joined(parts, span, every=not holds, holds=holds)
        case Compare(left, op, right, span):
            return condition if holds else Compare(left, OPPOSITE[op], right, span)
        case Truth(value, span):
            return Truth(value is holds, span)
        case _:
            return condition if holds else Not(condition, condition.span)


def _joined(terms: tuple[Expression, ...], span: Span, *, every: bool, holds: bool) -> Expression:
    found = tuple(_normal(term, holds=holds) for term in terms)
    return And(found, span) if every else Or(found, span)

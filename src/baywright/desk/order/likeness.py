"""How unlike a part is to those of its kind that an order names and that are not to be had."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from baywright.desk.order.asked import Asked
from baywright.facts.fact import Fact
from baywright.facts.parts import Part, Supply
from baywright.units import Quantity

MEASURES = ("size", "capacity", "cores", "bays", "speed", "power")
"""Fields that say how large a part is; the first that both parts have counts."""

OTHER_WORD = 100
"""Another word, such as another interface, is as far as any difference of size."""

FURTHEST, SMALLER = 90, 15
"""Ten times the size and more; a part that is smaller than what was asked for."""


def unlikeness(asked: Asked, part: str) -> int:
    """Return how far a part is from the likest one of its kind that the order names, 0 to 1000.

    What the order names counts whether it is a part of the book or of another.
    """
    mine = asked.machine.book.parts[part]
    far = [_between(mine, other) for other in _named(asked) if other.kind == mine.kind]
    return min(far, default=0)


def _named(asked: Asked) -> Iterator[Part]:
    for line in asked.order.foreign:
        yield asked.order.others[line.book].parts[line.foreign]
    for part in asked.listed:
        yield asked.machine.book.parts[part]


def _between(first: Part, second: Part) -> int:
    words = sum(
        OTHER_WORD
        for field in ("interface", "holds", "type", "slots", "external")
        if _word(first, field) != _word(second, field)
    )
    return words + _apart(first, second)


def _word(part: Part, field: str) -> object:
    held = getattr(part, field, None)
    if field == "external":
        return held is not None
    return held.text if isinstance(held, Fact) else held


def _apart(first: Part, second: Part) -> int:
    """Return how far two parts are apart in size: 0 for the same, 90 for ten times and more."""
    for field in MEASURES:
        one, other = _number(first, field), _number(second, field)
        if one and other:
            ratio = max(one, other) / min(one, other)
            return min(FURTHEST, round((ratio - 1) * 10) + SMALLER * (one < other))
    return 0


def _number(part: Part, field: str) -> Fraction | None:
    if isinstance(part, Supply) and field == "power":
        return max((fact.known.canonical for fact in part.ratings.values()), default=None)
    fact = getattr(part, field, None)
    if not isinstance(fact, Fact):
        return None
    value = fact.known
    return value.canonical if isinstance(value, Quantity) else Fraction(value)

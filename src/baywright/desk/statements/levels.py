"""Levels of a number as wishes: at a value that was reached, or beyond it."""

from __future__ import annotations

import math
from fractions import Fraction

from baywright.answers.extremes import Value
from baywright.laws.formula import encode
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish
from baywright.space import Origin
from baywright.terms.syntax import Comparison


def level_wish(
    machine: Machine, value: Value, op: Comparison, level: Fraction, key: str = "view:level"
) -> Wish:
    """Return the wish for a number to compare in some way with a level.

    Args:
        machine: the machine.
        value: the number.
        op: the comparison.
        level: the level, in the canonical unit of the number.
        key: identity of the wish; two in one space need two.
    """
    origin = Origin(key, "wish", f"Asked: a value {op} {level}.")
    encoded = encode(machine.translator.level(value, op, level), origin, machine.sizes)
    return Wish(origin, origin.sentence, tuple(encoded.choices), tuple(encoded.laws))


def beyond_wish(machine: Machine, value: Value, level: Fraction, *, most: bool) -> Wish:
    """Return the wish for a number beyond one that was reached.

    Of a total it is a whole unit beyond, as in the answers to questions: what lies within the unit
    can hang on remainders that mean nothing to people, and is proven by the engine that found it.
    """
    if not isinstance(value, Linear):
        return level_wish(machine, value, ">" if most else "<", level, "view:beyond")
    whole = Fraction(math.floor(level) + 1 if most else math.ceil(level) - 1)
    return level_wish(machine, value, ">=" if most else "<=", whole, "view:beyond")

"""Functions over the parts fitted: how many, and the total of a field."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from baywright.facts.fact import sort_of
from baywright.facts.parts import KINDS, Part
from baywright.laws.frame import Frame, Weigh
from baywright.laws.linear import Linear
from baywright.laws.subsystem import Function, Subsystem
from baywright.laws.vocabulary import field_value, fields_of
from baywright.terms import Arguments, Expression, Fields, holds
from baywright.terms.standard import COUNT, TOTAL
from baywright.terms.syntax import Name, Text
from baywright.units import Quantity


def selects(arguments: Arguments) -> Weigh:
    """Return 1 for each part that the arguments of a call select, and 0 for others."""
    wanted = arguments.given.get("parts")
    condition = arguments.condition

    def weigh(name: str, part: Part) -> int:
        if wanted is not None and word(wanted) not in (name, part.kind):
            return 0
        return int(condition is None or holds(condition, Fields(fields_of(part))))

    return weigh


def places_in(arguments: Arguments) -> list[str] | None:
    """Return the place that a call is limited to, or ``None``."""
    at = arguments.given.get("at")
    return None if at is None else [word(at)]


def word(expression: Expression) -> str:
    """Return the word of a name or a text."""
    match expression:
        case Name(name):
            return name
        case Text(text):
            return text
        case _:
            raise ValueError("a name is wanted here")


def _count(frame: Frame, arguments: Arguments) -> Linear:
    return frame.linear(selects(arguments), places=places_in(arguments))


def _total(frame: Frame, arguments: Arguments) -> Linear:
    field, selected = word(arguments.given["field"]), selects(arguments)

    def weigh(name: str, part: Part) -> Fraction:
        if not selected(name, part):
            return Fraction(0)
        value = field_value(part, field)
        if isinstance(value, Quantity):
            return value.canonical
        return value if isinstance(value, Fraction) else Fraction(0)

    dimension = _dimension(frame, field)
    return frame.linear(weigh, dimension, places_in(arguments))


def _dimension(frame: Frame, field: str) -> str:
    for model in KINDS.values():
        if field in model.model_fields:
            sort = sort_of(model.model_fields[field])
            return f"money:{frame.book.book.currency}" if sort == "money" else _amount(sort)
    return ""


def _amount(sort: str | None) -> str:
    return "" if sort in (None, "whole", "ratio", "truth", "name", "text", "date") else str(sort)


def _functions(frame: Frame) -> Mapping[str, Function]:
    return {"count": Function(COUNT, _count), "total": Function(TOTAL, _total)}


SUBSYSTEM = Subsystem("selection", functions=_functions)

"""Whether values of one type can stand where another is wanted, and what to say when not."""

from __future__ import annotations

from baywright.problems import Mark, Problem, suggestion
from baywright.terms.printing import text
from baywright.terms.syntax import (
    Amount,
    Arithmetic,
    Expression,
    Negative,
    Number,
    Operation,
    Text,
    Truth,
)
from baywright.terms.vocabulary import NUMBER, Sort, Type, content, quantity
from baywright.units import Quantity, UnitError, parse
from baywright.units.lookup import dimension_named
from baywright.units.quantity import product_dimension, sum_dimension, wrong_dimension


def literal(node: Expression) -> bool:
    """Return whether a value is written out, so that its surroundings decide what it means."""
    match node:
        case Number() | Amount() | Text() | Truth():
            return True
        case Arithmetic(_, left, right):
            return literal(left) and literal(right)
        case Negative(term):
            return literal(term)
        case _:
            return False


def resolved(node: Text | Amount, lean: Type | None) -> Text | Amount:
    """Return a literal as its surroundings mean it.

    ``64 GB`` becomes an amount of memory where memory is expected, and the text ``"2.5 in"``
    becomes a length where a length is.
    """
    if lean is None or lean.sort is not Sort.QUANTITY:
        return node
    if isinstance(node, Text):
        try:
            return Amount(parse(node.text, lean.dimension), node.span)
        except UnitError:
            return node
    amount = node.quantity
    if dimension_named(lean.dimension).unit(amount.unit) is None:
        return node
    return Amount(Quantity(amount.magnitude, amount.unit, lean.dimension), node.span)


def comparable(kind: Type | None) -> Type | None:
    """Return the type that values must have to be compared with those of a type."""
    return content() if kind and kind.sort is Sort.EMPTY else kind


def combined(op: Operation, left: Type, right: Type) -> Type | None:
    """Return the type of a sum, a difference or a product, or ``None`` when it has none."""
    sorts = {left.sort, right.sort}
    if sorts == {Sort.NUMBER}:
        return NUMBER
    if op == "*" and sorts == {Sort.NUMBER, Sort.QUANTITY}:
        name = product_dimension(left.dimension or right.dimension)
    elif op != "*" and sorts == {Sort.QUANTITY}:
        name = sum_dimension(left.dimension, right.dimension, subtract=op == "-")
    else:
        name = None
    return quantity(name) if name else None


def unfit(node: Expression, kind: Type, wanted: Type, mark: Mark) -> Problem | None:
    """Return what is wrong with a value where a type is wanted, or ``None`` when it fits.

    Args:
        node: the value.
        kind: its own type.
        wanted: the type wanted.
        mark: where the value stands.
    """
    if not _fits(kind, wanted):
        return _misfit(node, kind, wanted, mark)
    unknown = isinstance(node, Text) and wanted.known is not None and node.text not in wanted.known
    if isinstance(node, Text) and wanted.known is not None and unknown:
        hint = suggestion(node.text, wanted.known)
        return Problem("unknown-value", f"{text(node)} is not one of the values here.", mark, hint)
    return None


def _fits(kind: Type, wanted: Type) -> bool:
    if wanted.sort is Sort.CONTENT:
        return kind.sort in (Sort.CONTENT, Sort.TEXT, Sort.EMPTY)
    if wanted.sort is Sort.TEXT:
        return kind.sort in (Sort.CONTENT, Sort.TEXT)
    return (kind.sort, kind.dimension) == (wanted.sort, wanted.dimension)


def _misfit(node: Expression, kind: Type, wanted: Type, mark: Mark) -> Problem:
    sorts = (kind.sort, wanted.sort)
    shown = text(node)
    if sorts == (Sort.QUANTITY, Sort.QUANTITY):
        return wrong_dimension(shown, kind.dimension, wanted.dimension).problem(mark)
    if sorts == (Sort.NUMBER, Sort.QUANTITY):
        message = f"{shown!r} has no unit; {wanted.phrase} is wanted."
        return Problem("no-unit", message, mark, "Write the unit after the number.")
    if isinstance(node, Text) and wanted.sort is Sort.QUANTITY:
        return _unread_amount(node, wanted, mark)
    hint = ""
    if sorts == (Sort.QUANTITY, Sort.NUMBER):
        hint = "Leave the unit out."
    elif wanted.sort in (Sort.TEXT, Sort.CONTENT) and literal(node):
        hint = f'Put it in quotes: "{shown}".'
    message = f"{shown!r} is {kind.phrase}; {wanted.phrase} is wanted."
    return Problem("wrong-type", message, mark, hint)


def _unread_amount(node: Text, wanted: Type, mark: Mark) -> Problem:
    """Return why a text in quotes is no amount of the dimension wanted."""
    try:
        parse(node.text, wanted.dimension)
    except UnitError as error:
        return error.problem(mark)
    return Problem("wrong-type", f"{text(node)} is a text; {wanted.phrase} is wanted.", mark)

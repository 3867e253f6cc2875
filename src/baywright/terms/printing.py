"""An expression as text that reads back to the same expression."""

from __future__ import annotations

from baywright.terms.syntax import (
    Amount,
    And,
    Arithmetic,
    Call,
    Compare,
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
from baywright.units.printing import plain_number

_OR, _AND, _NOT, _COMPARE, _SUM, _PRODUCT, _SIGN, _ATOM = range(8)
"""How tightly each form binds."""


def text(expression: Expression) -> str:
    """Return the expression in its one canonical spelling.

    The text parses back to an equal expression. An amount that was resolved to one of two
    dimensions of its unit, as ``64 GB`` of memory, is resolved again by checking.

    Raises:
        ValueError: when a text holds both kinds of quotes, which cannot be written.
    """
    return _written(expression)[0]


def _written(expression: Expression) -> tuple[str, int]:
    match expression:
        case Or(terms):
            return " or ".join(_inside(term, _AND) for term in terms), _OR
        case And(terms):
            return " and ".join(_inside(term, _NOT) for term in terms), _AND
        case Not(term):
            return f"not {_inside(term, _NOT)}", _NOT
        case Compare(left, op, right):
            return f"{_inside(left, _SUM)} {op} {_inside(right, _SUM)}", _COMPARE
        case Member(item, options):
            return f"{_inside(item, _SUM)} in ({', '.join(map(text, options))})", _COMPARE
        case Arithmetic(op, left, right):
            level = _PRODUCT if op == "*" else _SUM
            return f"{_inside(left, level)} {op} {_inside(right, level + 1)}", level
        case Negative(term):
            return f"-{_inside(term, _SIGN)}", _SIGN
        case _:
            return _atom(expression), _ATOM


def _inside(expression: Expression, level: int) -> str:
    """Write a part, in parentheses when it binds less tightly than its surroundings need."""
    written, own = _written(expression)
    return written if own >= level else f"({written})"


def _atom(expression: Expression) -> str:
    match expression:
        case Name(name):
            return name
        case Number(value):
            return plain_number(value)
        case Amount(quantity):
            return str(quantity)
        case Text(content):
            return _quoted(content)
        case Truth(value):
            return "true" if value else "false"
        case Call(name, args, keywords):
            given = [f"{keyword.name}={text(keyword.value)}" for keyword in keywords]
            return f"{name}({', '.join([*map(text, args), *given])})"
        case _:
            raise TypeError(f"{type(expression).__name__} is not an atom")


def _quoted(content: str) -> str:
    if '"' not in content:
        return f'"{content}"'
    if "'" not in content:
        return f"'{content}'"
    raise ValueError(f"a text cannot hold both kinds of quotes: {content!r}")

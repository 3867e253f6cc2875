"""The nodes of an expression. They are immutable and compare by meaning, not by place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeAlias

from baywright.problems import Mark
from baywright.units import Quantity

Comparison = Literal["==", "!=", "<", "<=", ">", ">="]
Operation = Literal["+", "-", "*"]

IMPLIES = "implies"
"""Name of the one function that is part of the logic: ``implies(a, b)`` is ``not a or b``."""


@dataclass(frozen=True, slots=True)
class Span:
    """Where a node stands in the text it was read from.

    Args:
        start: first character, counted from 0.
        end: character after the last.
        line: line of the first character within the text, counted from 0.
        column: column of the first character within its line, counted from 0.
    """

    start: int = 0
    end: int = 0
    line: int = 0
    column: int = 0

    def mark(self, text: Mark | None) -> Mark:
        """Return the place in the file, given the place of the first character of the text.

        Later lines are taken to be indented like the first, as in a block of YAML.
        """
        base = text or Mark("expression", 1, 1)
        return Mark(base.file, base.line + self.line, base.column + self.column)


@dataclass(frozen=True, slots=True)
class Name:
    """A name from the vocabulary."""

    name: str
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Number:
    """A plain number; negative ones are numbers too."""

    value: Fraction
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with a unit."""

    quantity: Quantity
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Text:
    """A text in quotes."""

    text: str
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Truth:
    """``true`` or ``false``."""

    value: bool
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Keyword:
    """An argument given by name, such as ``at=A``."""

    name: str
    value: Expression
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Call:
    """A function with its arguments."""

    name: str
    args: tuple[Expression, ...] = ()
    keywords: tuple[Keyword, ...] = ()
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Compare:
    """Two values compared."""

    left: Expression
    op: Comparison
    right: Expression
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Member:
    """Whether a value is one of several: ``item in (a, b)``."""

    item: Expression
    options: tuple[Expression, ...]
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class And:
    """All of two or more terms."""

    terms: tuple[Expression, ...]
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Or:
    """At least one of two or more terms."""

    terms: tuple[Expression, ...]
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Not:
    """The opposite of a term."""

    term: Expression
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Arithmetic:
    """A sum, a difference or a product."""

    op: Operation
    left: Expression
    right: Expression
    span: Span = field(default=Span(), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Negative:
    """A value with its sign turned; of a literal, ``negative`` gives the literal instead."""

    term: Expression
    span: Span = field(default=Span(), compare=False, repr=False)


Expression: TypeAlias = (
    Name
    | Number
    | Amount
    | Text
    | Truth
    | Call
    | Compare
    | Member
    | And
    | Or
    | Not
    | Arithmetic
    | Negative
)


def negative(term: Expression, span: Span = Span()) -> Expression:
    """Return the term with its sign turned, as a literal where the term is one."""
    if isinstance(term, Number):
        return Number(-term.value, span)
    if isinstance(term, Amount):
        return Amount(-term.quantity, span)
    return Negative(term, span)


def children(expression: Expression) -> tuple[Expression, ...]:
    """Return the expressions directly inside one, from left to right."""
    match expression:
        case Call(_, args, keywords):
            return (*args, *(keyword.value for keyword in keywords))
        case Compare(left, _, right) | Arithmetic(_, left, right):
            return (left, right)
        case Member(item, options):
            return (item, *options)
        case And(terms) | Or(terms):
            return terms
        case Not(term) | Negative(term):
            return (term,)
        case _:
            return ()


def walk(expression: Expression) -> Iterator[Expression]:
    """Yield the expression and everything inside it, outer before inner, left before right."""
    yield expression
    for child in children(expression):
        yield from walk(child)

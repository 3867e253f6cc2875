"""Whether what the corpus says in expressions is so: asked at the desk, or read in the books."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from fractions import Fraction
from functools import cache, reduce
from operator import eq, ge, gt, le, lt, ne
from typing import Any

import yaml

from baywright.answers.verdicts import Bound, Count, No, Together, Verdict, Yes
from baywright.desk.asking import ask
from baywright.desk.opening import Opened
from baywright.terms import Expression, parse, text
from baywright.terms.syntax import Amount, And, Call, Compare, Not, Number
from baywright.units import Quantity
from tests.desk.demo import opened
from tests.language.corpus import Entry


class Truth(Enum):
    """How much of a claim is so."""

    TRUE = "true"
    SOMETIMES = "said of each build, and so in some builds only"
    FALSE = "false"


OPERATORS = {"==": eq, "!=": ne, "<": lt, "<=": le, ">": gt, ">=": ge}

Site = tuple[str, str, str, str]
"""Book, day, altitude and inlet, as the desk is opened for."""


def site(entry: Entry, day: str | None = None) -> Site:
    """Return what an entry is asked for, on another day where one is given."""
    named = entry.day or entry.as_of if day is None else day
    return (entry.book, named, entry.altitude, entry.inlet)


@cache
def verdict(where: Site, question: str) -> Verdict:
    """Return the desk's verdict on a question."""
    return ask(opened(*where), question).verdict


@cache
def truth(where: Site, expression: str) -> Truth:
    """Say how much of a claim is so.

    Raises:
        Problems: when the book knows no such thing.
        ValueError: when it cannot be decided.
    """
    term = parse(expression)
    if isinstance(term, Not):
        return _of(so=truth(where, text(term.term)) is not Truth.TRUE)
    if isinstance(term, Compare) and isinstance(term.left, Call):
        return _compared(where, term)
    match verdict(where, expression):
        case Yes():
            return Truth.TRUE
        case No() | Together():
            return _sometimes(where, term)
        case other:
            message = f"{expression} is not decided: {type(other).__name__}"
            raise ValueError(message)


def _of(*, so: bool) -> Truth:
    return Truth.TRUE if so else Truth.FALSE


def _compared(where: Site, claim: Compare) -> Truth:
    """Compare the most, the least or the number of ways with what is claimed."""
    match verdict(where, text(claim.left)), claim.right:
        case Count(_, rows), Number(value):
            return _of(so=OPERATORS[claim.op](len(rows), value))
        case Bound(_, figure), Number(value):
            return _of(so=OPERATORS[claim.op](figure.value, value))
        case Bound(_, figure), Amount(quantity):
            # GB of memory and of drives differ, so the unit is read as one of the figure.
            meant = Quantity(quantity.magnitude, quantity.unit, figure.dimension)
            return _of(so=OPERATORS[claim.op](figure.value, meant.canonical))
        case No(), _:
            return Truth.FALSE  # no build has the condition
        case other, _:
            message = f"{text(claim)} cannot be compared: {type(other).__name__}"
            raise ValueError(message)


def _sometimes(where: Site, claim: Expression) -> Truth:
    """Tell a claim about each build that some build has from one that none has."""
    if not isinstance(claim, Call) or claim.name != "always":
        return Truth.FALSE
    found = verdict(where, text(Call("can", (_with_condition(claim.args[0]),))))
    return Truth.SOMETIMES if isinstance(found, Yes) else Truth.FALSE


def _with_condition(claim: Expression) -> Expression:
    """Return what a build has that shows a claim: of "if a, then b", both a and b."""
    match claim:
        case Call("implies", (condition, then)):
            return And((condition, _with_condition(then)))
        case And(terms):
            return And(tuple(_with_condition(term) for term in terms))
        case other:
            return other


def rounds_to(where: Site, question: str, written: str) -> bool:
    """Say whether the most or the least comes to a number as written, to its last digit."""
    found = verdict(where, question)
    if not isinstance(found, Bound):
        return False
    number, _, unit = written.partition(" ")
    step = Fraction(1, 10 ** len(number.partition(".")[2]))
    value, half = Fraction(number), step / 2
    if unit:
        dimension = found.figure.dimension
        value, half = (Quantity(each, unit, dimension).canonical for each in (value, half))
    return abs(found.figure.value - value) <= half


def holds(ground: str, entry: Entry) -> bool:
    """Say whether a ground of an entry is so, on its day and site."""
    book, _, rest = ground.partition(" ")
    path, found, value = rest.partition(" is ")
    if found:
        return fact(book, path) == value
    return truth((book, *site(entry)[1:]), rest) is Truth.TRUE


def fact(book: str, path: str) -> str:
    """Return a fact as the files of its book have it, by keys and positions joined by dots."""
    node: Any = reduce(_inside, path.split("."), _files(opened(book)))
    return str(node["value"] if isinstance(node, Mapping) else node)


def _inside(node: Any, key: str) -> Any:
    return node[int(key)] if isinstance(node, list) else node[key]


def _files(book: Opened) -> dict[str, Any]:
    sections: dict[str, Any] = {}
    for file in sorted(book.folder.glob("*.yaml")):
        read = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)  # noqa: S506
        sections |= read
    return sections

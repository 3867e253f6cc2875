"""Carrying over: which parts of a machine the machine after it takes, and why not the others."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.model import Model
from baywright.facts.parts import CARD_KINDS, Part
from baywright.laws.wording import counted, listed

BY_FACTS = frozenset(("drive", "memory", "boot", "media", *CARD_KINDS))
"""Kinds that fit by open standards: one with equal facts is taken, whatever its id. Parts of other
kinds are made for their machine, so theirs has to be the very part, by its id."""

_APART = frozenset(
    (
        *("kind", "name", "price", "announced", "ships", "last_order", "at_most"),
        *("failure_rate", "mark", "note", "typical", "idle", "mass", "brings", "ports", "blank"),
        "performance",
    )
)
"""Fields in which equal parts may differ: words, prices, dates, what is measured or comes along."""

_WORDS = {"holds": "interfaces", "tdp": "thermal design power"}
"""How a field is said where its name is not a word."""

MOST_DIFFERENCES = 3
"""More differences than this are counted and not said."""


@dataclass(frozen=True, slots=True)
class Carried:
    """Parts that are owned, and what becomes of them.

    Args:
        part: id in the book of the machine that stands.
        count: how many are owned.
        as_part: id in the book of the machine after it, or empty when it takes none.
        why_not: why it takes none, one sentence, or empty.
        used: how many the new build has of them.
    """

    part: str
    count: int
    as_part: str
    why_not: str
    used: int = 0


def carry(old: Book, new: Book, parts: Mapping[str, int]) -> list[Carried]:
    """Return what becomes of the parts of a machine when the machine after it takes its place."""
    return [_carry(old, new, part, count) for part, count in parts.items()]


def _carry(old: Book, new: Book, part: str, count: int) -> Carried:
    held = old.parts[part]
    others = {n: p for n, p in new.parts.items() if p.kind == held.kind}
    ranked = sorted(others, key=lambda name: name != part)
    usable = ranked if held.kind in BY_FACTS else [name for name in ranked if name == part]
    for name in usable:
        if not any(differences(held, others[name])):
            return Carried(part, count, name, "")
    return Carried(part, count, "", _why_not(held, part, others, new))


def _why_not(held: Part, part: str, others: Mapping[str, Part], new: Book) -> str:
    name = new.book.name
    if not others:
        return f"{name} has no part of the kind {held.kind}."
    if part in others:
        return f"{name} has another one: {_differ(held, others[part])}."
    if held.kind not in BY_FACTS:
        return f"It is made for its machine, and {name} does not list it."
    nearest = min(others.values(), key=lambda other: len(list(differences(held, other))))
    return f"The nearest of {name} differs: {_differ(held, nearest)}."


def _differ(one: Part, other: Part) -> str:
    found = list(differences(one, other))
    more = len(found) - MOST_DIFFERENCES
    return listed(
        [*found[:MOST_DIFFERENCES], *([f"{counted(more, 'fact')} more"] if more > 0 else [])]
    )


def differences(one: Part, other: Part) -> Iterator[str]:
    """Yield the facts in which two parts of a kind differ, a fact only one states included."""
    for field in type(one).model_fields:
        mine, theirs = getattr(one, field), getattr(other, field)
        if field not in _APART and _plain(mine) != _plain(theirs):
            words = _WORDS.get(field, field.replace("_", " "))
            yield f"{words} {_said(theirs)} instead of {_said(mine)}"


def _plain(value: object) -> object:
    """Return a value without where it stands, so that equal facts are equal."""
    match value:
        case Fact():
            return value.value
        case Model():
            return tuple(_plain(getattr(value, name)) for name in type(value).model_fields)
        case dict():
            return {str(key): _plain(inner) for key, inner in value.items()}
        case list():
            return tuple(map(_plain, value))
        case _:
            return value


def _said(value: object) -> str:
    match value:
        case None | "" | [] | {}:
            return "not stated"
        case Fact():
            return value.text
        case list():
            return listed(map(_said, value))
        case dict():
            return listed(f"{key} {_said(inner)}" for key, inner in value.items())
        case Model():
            return listed(_said(getattr(value, name)) for name in type(value).model_fields)
        case _:
            return str(value)

"""Rows of a comparison: one thing on both sides, and a word for what becomes of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from baywright.facts.fact import Fact
from baywright.facts.model import Model

Word = Literal["same", "more", "less", "other", "new", "gone"]

ORDER: tuple[Word, ...] = ("gone", "less", "other", "more", "new", "same")
"""What is lost comes first."""

UNSAID = frozenset({"at", "note", "inside", "name"})
"""Fields that say nothing of what a machine can do."""


@dataclass(frozen=True, slots=True)
class Compared:
    """One thing on both sides.

    Args:
        group: what it belongs to.
        what: what it is.
        first: what the first side has, in words, or empty for nothing.
        second: what the second side has, or empty.
        word: what becomes of it.
        only_if: conditions under which the second side has it, where the first has it without.
    """

    group: str
    what: str
    first: str
    second: str
    word: Word
    only_if: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a comparison: its name and what it is."""

    name: str
    about: str


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two sides, row by row. Every row of the first side is there, whatever became of it.

    Args:
        first: the first side.
        second: the second side.
        rows: the rows, group by group.
        remarks: sentences that belong to it.
    """

    first: Side
    second: Side
    rows: tuple[Compared, ...]
    remarks: tuple[str, ...] = ()

    def counts(self) -> dict[Word, int]:
        """Return how many rows have each word."""
        return {word: sum(row.word == word for row in self.rows) for word in ORDER}

    def having(self, *words: Word) -> tuple[Compared, ...]:
        """Return the rows with some of the words."""
        return tuple(row for row in self.rows if row.word in words)


def word_of(first: Fraction | str | None, second: Fraction | str | None) -> Word:
    """Return the word for two values, of which one may be missing.

    >>> word_of(Fraction(8), Fraction(6)), word_of("S8", "N8"), word_of(None, "N8")
    ('less', 'other', 'new')
    """
    if first == second:
        return "same"
    if first is None or second is None:
        return "new" if first is None else "gone"
    if isinstance(first, Fraction) and isinstance(second, Fraction):
        return "more" if second > first else "less"
    return "other"


def flat(value: object, path: str = "") -> Iterator[tuple[str, str]]:
    """Yield every stated value in a part of a book, as text, by its path."""
    if isinstance(value, Fact):
        yield path, value.text
    elif isinstance(value, Model | Mapping) or _has_models(value):
        for key, inner in _inside(value):
            yield from flat(inner, f"{path}.{key}".lstrip("."))
    elif isinstance(value, list | tuple):
        if value:
            yield path, ", ".join(_text(each) for each in value)
    elif value is not None:
        yield path, str(value)


def _has_models(value: object) -> bool:
    return isinstance(value, list | tuple) and any(isinstance(each, Model) for each in value)


def _inside(value: object) -> Iterator[tuple[object, object]]:
    if isinstance(value, Model):
        fields = type(value).model_fields
        yield from ((field, getattr(value, field)) for field in fields if field not in UNSAID)
    elif isinstance(value, Mapping):
        yield from value.items()
    elif isinstance(value, list | tuple):
        for number, each in enumerate(value, 1):
            # Ports go by where they are, not by their place in the list.
            scope = getattr(each, "scope", None)
            yield (f"{scope} {each.type}" if scope else number), each


def _text(value: object) -> str:
    return value.text if isinstance(value, Fact) else str(value)


def differences(first: Mapping[str, str], second: Mapping[str, str]) -> Iterator[str]:
    """Yield the fields in which two sides differ, in words."""
    one, other = _gathered(first, second), _gathered(second, first)
    for field in dict.fromkeys((*one, *other)):
        mine, theirs = one.get(field, ""), other.get(field, "")
        if mine != theirs:
            yield f"{field.replace('_', ' ')} {mine or 'not stated'} → {theirs or 'not stated'}"


def _gathered(held: Mapping[str, str], others: Mapping[str, str]) -> dict[str, str]:
    """Return fields by name; a list or mapping of which the other side has nothing is one field."""
    there = {path.partition(".")[0] for path in others}
    found: dict[str, str] = {}
    for path, said in held.items():
        name, _, inner = path.partition(".")
        if inner and name not in there:
            found[name] = "stated"
        else:
            found[path] = said
    return found


def side_by_side(
    group: str, first: Iterable[tuple[str, str]], second: Iterable[tuple[str, str]]
) -> Iterator[Compared]:
    """Yield a row for each name that either side has, with what each says of it."""
    mine, theirs = dict(first), dict(second)
    for name in dict.fromkeys((*mine, *theirs)):
        one, other = mine.get(name), theirs.get(name)
        yield Compared(group, name, one or "", other or "", word_of(one, other))

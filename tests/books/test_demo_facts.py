"""The demo books hold every number of the scenario, each as a typed fact."""

from __future__ import annotations

from fnmatch import fnmatchcase
from fractions import Fraction
from typing import Any

import pytest

from baywright.facts.book import facts_of
from baywright.facts.fact import Fact
from baywright.facts.model import Model
from baywright.units import Quantity, parse

from .demo import BOOKS, book
from .demo_numbers import numbers


def items_of(value: Any) -> dict[str, Any]:
    if isinstance(value, Model):
        return {name: getattr(value, name) for name in type(value).model_fields}
    if isinstance(value, list):
        return {str(position): inner for position, inner in enumerate(value)}
    return dict(value)


def at(value: Any, path: str) -> list[Any]:
    """Return what stands at a path, in which ``*`` matches any key at its level."""
    if not path:
        return [value]
    key, _, rest = path.partition(".")
    found = [inner for name, inner in items_of(value).items() if fnmatchcase(name, key)]
    return [leaf for inner in found for leaf in at(inner, rest)]


def plain(value: Any) -> Any:
    if isinstance(value, list):
        return [plain(inner) for inner in value]
    return value.known if isinstance(value, Fact) else value


def as_written(expected: str, like: Any) -> Any:
    """Read an expected value as the kind of value that stands in the book."""
    if isinstance(like, list):
        return [as_written(text, like[0]) for text in expected.split(", ")]
    if isinstance(like, bool):
        return {"yes": True, "no": False}[expected]
    if isinstance(like, Quantity):
        return parse(expected, like.dimension)
    if isinstance(like, int | Fraction):
        number = Fraction(expected.removesuffix("%").strip())
        return number / 100 if expected.endswith("%") else number
    return expected if isinstance(like, str) else type(like).fromisoformat(expected)


@pytest.mark.parametrize(("name", "path", "expected"), numbers(), ids=str)
def test_number_of_the_scenario(name: str, path: str, expected: str) -> None:
    found = [plain(value) for value in at(book(name), path)]
    assert found, f"nothing stands at {path}"
    assert None not in found
    assert found == [as_written(expected, value) for value in found]


@pytest.mark.parametrize("name", BOOKS)
def test_every_source_is_used(name: str) -> None:
    used = {fact.source for fact in facts_of(book(name))} | {book(name).book.source}
    assert used - {""} == set(book(name).sources)


@pytest.mark.parametrize("name", BOOKS)
def test_no_source_is_newer_than_the_edition(name: str) -> None:
    edition = book(name).book.edition.known
    late = [key for key, source in book(name).sources.items() if source.date.known > edition]
    assert late == []


@pytest.mark.parametrize("name", BOOKS)
def test_every_part_has_a_price_and_a_mass(name: str) -> None:
    bare = [key for key, part in book(name).parts.items() if not (part.price and part.mass)]
    assert bare == []

"""How a record of a running machine names what a book calls otherwise."""

from __future__ import annotations

from pydantic import Field

from baywright.facts.fact import Name
from baywright.facts.model import Model


class PlaceInRecord(Model):
    """How a record names a place."""

    locators: list[Name] = Field(
        description="labels of the place, or of what is in it; * stands for any signs"
    )


class PartInRecord(Model):
    """How a record names a part that its numbers do not tell from others."""

    names: list[Name] = Field(description="models, part numbers or names; * stands for any signs")


class RecordSection(Model):
    """How a record of a running machine names places, parts and interfaces."""

    places: dict[Name, PlaceInRecord] = Field(
        default_factory=dict, description="places; one left out goes by its id or its name"
    )
    parts: dict[Name, PartInRecord] = Field(
        default_factory=dict, description="parts; one left out goes by its id or its name"
    )
    interfaces: dict[Name, list[Name]] = Field(
        default_factory=dict,
        description="words of records for each interface of this book, such as NVMe for fast",
    )


def matches(pattern: str, text: str) -> bool:
    """Say whether a text fits a pattern; ``*`` stands for any signs, capitals do not matter.

    >>> matches("PROC 1 DIMM *", "Proc 1  DIMM A2")
    True
    """
    first, *others = _folded(pattern).split("*")
    rest = _folded(text)
    if not others:
        return rest == first
    *middle, last = others
    if not rest.startswith(first):
        return False
    rest = rest[len(first) :]
    for piece in middle:
        _, found, rest = rest.partition(piece) if piece else ("", "*", rest)
        if not found:
            return False
    return rest.endswith(last)


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())

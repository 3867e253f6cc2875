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

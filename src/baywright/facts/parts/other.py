"""Boot media, media bays, displays, kits and whatever a book adds that only takes a place."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baywright.facts.fact import Capacity, DataRate, Endurance, Name, Truth, Whole
from baywright.facts.parts.base import Part


class Boot(Part):
    """A medium the machine starts from."""

    kind: Literal["boot"]
    mirrored: Truth = Field(description="yes when one medium may fail")
    media: Whole | None = Field(None, description="cards or sticks in it")
    capacity: Capacity | None = Field(None, description="capacity of one medium")
    endurance: Endurance | None = Field(None, description="data that may be written over its life")


class Media(Part):
    """A removable-media unit."""

    kind: Literal["media"]
    capacity: Capacity | None = Field(None, description="capacity of one cartridge")
    rate: DataRate | None = Field(None, description="sustained rate")


class Display(Part):
    """A display or panel that takes a place."""

    kind: Literal["display"]
    shows: list[Name] = Field(default_factory=list, description="what it adds lights or codes for")


class Kit(Part):
    """A kit: cables, blanks, rails, brackets."""

    kind: Literal["kit"]

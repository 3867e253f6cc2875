"""Processors."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baywright.facts.fact import Power, TransferRate, Whole
from baywright.facts.parts.base import Part


class Processor(Part):
    """A processor for one socket."""

    kind: Literal["processor"]
    cores: Whole = Field(description="cores")
    tdp: Power = Field(description="thermal design power at its own pins")
    lanes: Whole | None = Field(None, description="lanes it offers to the machine")
    memory_speed: TransferRate | None = Field(None, description="fastest memory it drives")

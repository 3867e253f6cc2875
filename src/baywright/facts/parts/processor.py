"""Processors."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baywright.facts.fact import Factor, Name, Power, TransferRate, Whole
from baywright.facts.parts.base import Part


class Processor(Part):
    """A processor for one socket."""

    kind: Literal["processor"]
    cores: Whole = Field(description="cores")
    tdp: Power = Field(description="thermal design power at its own pins")
    lanes: Whole | None = Field(None, description="lanes it offers to the machine")
    lane_generation: Name | None = Field(
        None, description="generation of those lanes, such as PCIe 5.0"
    )
    performance: Factor | None = Field(
        None, description="what one adds to the processor result of the active efficiency tests"
    )
    memory_speed: TransferRate | None = Field(None, description="fastest memory it drives")

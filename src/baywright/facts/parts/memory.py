"""Memory modules."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baywright.facts.fact import MemorySize, Name, TransferRate, Whole
from baywright.facts.parts.base import Part


class MemoryModule(Part):
    """A memory module."""

    kind: Literal["memory"]
    size: MemorySize = Field(description="capacity of one module")
    generation: Name = Field("", description="such as DDR5")
    type: Name = Field("registered", description="registered, load-reduced or unbuffered")
    ranks: Whole | None = Field(None, description="ranks")
    speed: TransferRate | None = Field(None, description="fastest rate of the module itself")
    check_bits: Whole | None = Field(
        None, description="bits for error correction beside the 64 of data; 0 without"
    )

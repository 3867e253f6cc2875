"""Cards: controllers, accelerators, network modules and others."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baywright.facts.fact import Capacity, DataRate, Duration, IoRate, Name, Power, Whole
from baywright.facts.model import Model
from baywright.facts.parts.base import Card


class CacheFlush(Model):
    """What it takes to save the write cache when power is lost."""

    size: Capacity = Field(description="data to save")
    rate: DataRate = Field(description="rate of saving")
    power: Power = Field(description="draw while saving")


class External(Model):
    """Drives that a controller reaches outside the machine."""

    chains: Whole = Field(description="chains")
    enclosures: Whole = Field(description="enclosures on a chain")
    drives: Whole = Field(description="drives in an enclosure")
    lanes: Whole | None = Field(None, description="drive lanes to each chain")
    link_rate: DataRate | None = Field(None, description="signalling rate of one of those lanes")


class Controller(Card):
    """A storage controller."""

    kind: Literal["controller"]
    holds: list[Name] = Field(default_factory=list, description="interfaces it drives inside")
    drives_most: Whole | None = Field(None, description="most drives inside the machine")
    connectors: Whole | None = Field(None, description="connectors to cages inside")
    connector_lanes: Whole | None = Field(None, description="drive lanes of one connector")
    rate_most: DataRate | None = Field(None, description="most data it moves each second")
    io_most: IoRate | None = Field(None, description="most small I/O each second")
    flush: CacheFlush | None = Field(None, description="saving of the write cache, if it has one")
    external: External | None = Field(None, description="reach outside the machine")


class Accelerator(Card):
    """An accelerator card."""

    kind: Literal["accelerator"]
    surge: Power | None = Field(None, description="highest draw for a moment, DC")
    surge_time: Duration | None = Field(None, description="how long that moment lasts")


class Network(Card):
    """A network module or card."""

    kind: Literal["network"]
    speed: DataRate | None = Field(None, description="rate of one port")
    chips: Whole | None = Field(
        None, description="network chips on it; ports of one chip fail together"
    )


class OtherCard(Card):
    """Any other card."""

    kind: Literal["card"]

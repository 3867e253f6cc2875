"""What every part has."""

from __future__ import annotations

from pydantic import Field

from baywright.facts.fact import (
    CardHeight,
    CardLength,
    Date,
    Mass,
    Money,
    Name,
    Power,
    Ratio,
    Whole,
    Words,
)
from baywright.facts.model import Model, Port


class Part(Model):
    """Something that can be fitted."""

    kind: str = Field(description="kind of part")
    name: Name = Field(description="name as written in sentences and tables")
    power: Power | None = Field(None, description="peak draw, DC")
    typical: Power | None = Field(None, description="draw under a usual load, DC")
    idle: Power | None = Field(None, description="draw while idle, DC")
    price: Money | None = Field(None, description="list price of one")
    mass: Mass | None = Field(None, description="mass of one")
    announced: Date | None = Field(None, description="first day it may be named")
    ships: Date | None = Field(None, description="first day it ships")
    last_order: Date | None = Field(None, description="last day it can be ordered")
    at_most: Whole | None = Field(None, description="most of it in one machine")
    brings: dict[Name, Whole] = Field(
        default_factory=dict, description="parts that come with each one, such as a cable kit"
    )
    ports: list[Port] = Field(default_factory=list, description="ports it adds to the machine")
    failure_rate: Ratio | None = Field(None, description="share that fails in a year")
    mark: Words | None = Field(None, description="words on its handle, such as RUNNING OK")
    note: Words | None = Field(None, description="a remark for readers")


class Card(Part):
    """A part that plugs into a slot or a card position."""

    lanes: Whole | None = Field(None, description="lanes of its connector")
    generation: Name | None = Field(
        None, description="fastest generation of its lanes, such as PCIe 5.0"
    )
    length: CardLength | None = Field(None, description="half, full, or a length")
    height: CardHeight | None = Field(None, description="low, full, or a height")
    slots: Whole | None = Field(None, description="slot widths it takes, 1 unless given")
    slot_power: Power | None = Field(
        None, description="draw from the slot itself, where a cable carries the rest"
    )

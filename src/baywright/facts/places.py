"""Places: where parts can go. A new type of place is a model here and a line in ``AnyPlace``."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from baywright.facts.access import Way
from baywright.facts.fact import (
    CardHeight,
    CardLength,
    DataRate,
    Name,
    Power,
    Rise,
    Truth,
    Whole,
    Words,
)
from baywright.facts.model import Model, Outline


class PlaceBase(Model):
    """What every place has."""

    name: Name = Field(description="name as written in sentences and tables")
    at: list[Outline] = Field(default_factory=list, description="where it is drawn")
    inside: Name | None = Field(None, description="the place one has to reach into first")
    ways: list[Way] = Field(
        default_factory=list,
        description="ways in, one of which is enough; goes before inside for a plan of service",
    )
    blank: Name | None = Field(
        None, description="the part that closes it, or each position of it, while it is empty"
    )
    note: Words | None = Field(None, description="a remark for readers")


class Socket(PlaceBase):
    """A processor socket. Sockets are filled in the order the book lists them."""

    type: Literal["socket"]


class Bank(PlaceBase):
    """The memory sockets of one processor, or a set of them that is filled with one module."""

    type: Literal["bank"]
    owner: Name = Field(description="the processor socket that drives it")
    channels: Whole = Field(description="memory channels")
    per_channel: Whole = Field(description="module sockets on a channel")
    counts: list[Whole] = Field(description="numbers of modules that are allowed")


class Zone(PlaceBase):
    """Room for one cage and its drives, or for another part of the same size."""

    type: Literal["zone"]
    takes: list[Name] = Field(description="parts or kinds that fit")
    always: Name | None = Field(None, description="the cage that is always there")
    owner: Name | None = Field(None, description="the processor whose lanes reach it")
    controllers: list[Name] = Field(
        default_factory=list, description="slots whose controller its cables reach"
    )


class Slot(PlaceBase):
    """A slot for a card, or a row of interchangeable ones."""

    type: Literal["slot"]
    takes: list[Name] = Field(description="parts or kinds that fit")
    always: Name | None = Field(None, description="the card that is always there")
    positions: Whole | None = Field(None, description="interchangeable slots, 1 unless given")
    owner: Name | None = Field(None, description="the processor it works with")
    lanes: Whole | None = Field(None, description="lanes of each slot")
    generation: Name | None = Field(None, description="generation of its lanes, such as PCIe 5.0")
    length: CardLength | None = Field(None, description="longest card: half, full, or a length")
    height: CardHeight | None = Field(None, description="highest card: low, full, or a height")
    slots: Whole | None = Field(
        None, description="slot widths of its own room, the neighbour's not counted; 1 unless given"
    )
    power: Power | None = Field(None, description="most a card may draw from the slot itself")
    neighbour: Name | None = Field(None, description="the slot a double-wide card here also takes")


class SupplyCount(Model):
    """A number of supplies that may be fitted, and how many have to carry the load."""

    count: Whole = Field(description="supplies fitted")
    legal: Whole | None = Field(
        None, description="supplies that must carry the peak; all unless given"
    )
    redundant: Whole | None = Field(
        None, description="supplies that carry the peak when redundant; one fewer unless given"
    )


class Supplies(PlaceBase):
    """The bays for power supplies."""

    type: Literal["supplies"]
    positions: Whole = Field(description="bays")
    fitted: list[SupplyCount] = Field(description="numbers that may be fitted")
    identical: Truth | None = Field(None, description="yes unless given: all of one model")
    feeds: dict[Name, Whole] = Field(
        default_factory=dict, description="supplies on each feed, where the machine fixes it"
    )
    takes: list[Name] = Field(
        default_factory=lambda: ["supply"], description="parts or kinds that fit"
    )


class FanCount(Model):
    """How many fans a build has."""

    count: Whole = Field(description="fans fitted")
    when: Name | None = Field(None, description="expression that makes it so; always unless given")


class Fans(PlaceBase):
    """The fan positions."""

    type: Literal["fans"]
    positions: Whole = Field(description="positions")
    fitted: list[FanCount] = Field(description="number by build; the first that applies counts")
    takes: list[Name] = Field(
        default_factory=lambda: ["fan"], description="parts or kinds that fit"
    )


class Mount(PlaceBase):
    """A mount for the energy pack of a controller."""

    type: Literal["mount"]
    serves: list[Name] = Field(description="slots whose controller the pack can serve")
    takes: list[Name] = Field(
        default_factory=lambda: ["pack"], description="parts or kinds that fit"
    )
    rise: Rise | None = Field(
        None, description="how much warmer than the inlet a pack in it is at peak load"
    )


class PlacePort(Model):
    """The port behind a place; the first of a list that applies counts."""

    type: Name = Field(description="type of port, such as usb")
    speed: DataRate = Field(description="signalling rate")
    rate: DataRate | None = Field(None, description="data rate reached in practice")
    when: Name | None = Field(None, description="expression that makes it so; always unless given")


class Position(PlaceBase):
    """Any other place for a part: boot media, media bays, kits."""

    type: Literal["position"]
    takes: list[Name] = Field(description="parts or kinds that fit")
    always: Name | None = Field(None, description="the part that is always there")
    positions: Whole | None = Field(None, description="interchangeable positions, 1 unless given")
    ports: list[PlacePort] = Field(
        default_factory=list, description="the port that serves it, by build"
    )


AnyPlace: TypeAlias = Annotated[
    Socket | Bank | Zone | Slot | Supplies | Fans | Mount | Position, Field(discriminator="type")
]

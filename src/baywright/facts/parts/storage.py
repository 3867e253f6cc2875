"""Cages, drives and the energy packs of controllers."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baywright.facts.fact import (
    Capacitance,
    Capacity,
    DataRate,
    Duration,
    Endurance,
    IoRate,
    Name,
    Ratio,
    Rise,
    Temperature,
    Truth,
    Voltage,
    Whole,
)
from baywright.facts.parts.base import Part


class Cage(Part):
    """A cage with its backplane: what turns a zone into bays."""

    kind: Literal["cage"]
    bays: Whole = Field(description="bays")
    holds: list[Name] = Field(description="interfaces of the drives it holds, such as fast or sas")
    lanes_per_bay: Whole | None = Field(None, description="processor lanes to each bay")
    connectors: Whole | None = Field(
        None, description="connectors it takes on a controller; given when it needs one"
    )
    board_lanes: Whole | None = Field(
        None, description="drive lanes of the on-board connector it uses in place of a controller"
    )
    link_rate: DataRate | None = Field(None, description="signalling rate of one drive lane")
    mixed: Truth | None = Field(None, description="yes when one cage may hold different drives")
    filled: Truth | None = Field(None, description="yes when it always comes with every bay used")
    hot_swap: Truth | None = Field(None, description="no when drives are changed with power off")
    blank: Name | None = Field(None, description="the part that closes an empty bay of it")


class Drive(Part):
    """A drive."""

    kind: Literal["drive"]
    interface: Name = Field(description="such as fast, sas or sata")
    capacity: Capacity = Field(description="capacity as sold")
    endurance: Endurance | None = Field(None, description="data that may be written over its life")
    wears: Truth | None = Field(
        None, description="no when writing does not wear it out; yes unless given"
    )
    generation: Name | None = Field(
        None, description="fastest generation of its own lanes, such as PCIe 5.0"
    )
    read_rate: DataRate | None = Field(None, description="sustained rate of reading")
    write_rate: DataRate | None = Field(None, description="sustained rate of writing")
    reads: IoRate | None = Field(None, description="small reads at random each second")
    writes: IoRate | None = Field(None, description="small writes at random each second")
    unreadable: Ratio | None = Field(
        None, description="unreadable sectors for each bit read, such as 1e-15"
    )


class EnergyPack(Part):
    """An energy pack that saves a controller's write cache when power is lost."""

    kind: Literal["pack"]
    capacitance: Capacitance | None = Field(None, description="capacitance when new")
    full: Voltage | None = Field(None, description="voltage when charged")
    empty: Voltage | None = Field(None, description="lowest voltage the flush can use")
    usable: Ratio | None = Field(None, description="share of the energy that reaches the flush")
    life: Duration | None = Field(None, description="life at the life temperature")
    life_temperature: Temperature | None = Field(None, description="temperature of that life")
    halved_per: Rise | None = Field(None, description="rise that halves the life, and back")
    floor_temperature: Temperature | None = Field(None, description="below it life grows no more")

"""Supplies and fans."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baywright.facts.fact import (
    Current,
    Duration,
    Flow,
    Name,
    Power,
    Pressure,
    Ratio,
    Rotation,
    Sound,
)
from baywright.facts.model import Model
from baywright.facts.parts.base import Part


class Supply(Part):
    """A power supply."""

    kind: Literal["supply"]
    ratings: dict[Name, Power] = Field(
        description="DC rating on each line of the book; a line left out does not run it"
    )
    efficiency: dict[Name, Ratio] = Field(
        default_factory=dict, description="efficiency by load, such as 50 %: 0.96"
    )
    power_factor: Ratio | None = Field(None, description="power factor under load")
    inlet: Name = Field("", description="appliance inlet, such as C14")
    inlet_current: Current | None = Field(None, description="most current of the inlet")
    inrush: Current | None = Field(None, description="peak of the switch-on current")
    inrush_time: Duration | None = Field(None, description="how long the inrush lasts")
    leakage: Current | None = Field(None, description="current to earth")
    hold_up: Duration | None = Field(None, description="time it carries the load without input")


class FanPoint(Model):
    """A point of a fan curve, at full speed in air of 1.2 kg/m³."""

    flow: Flow = Field(description="air moved")
    pressure: Pressure = Field(description="static pressure against which it moves that")


class Fan(Part):
    """A fan."""

    kind: Literal["fan"]
    flow: Flow = Field(description="air moved at full speed")
    noise: Sound | None = Field(None, description="sound pressure at full speed")
    speed: Rotation | None = Field(None, description="full speed")
    curve: list[FanPoint] = Field(
        default_factory=list, description="fan curve, from no flow to no pressure"
    )

"""The base of every model of a book."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, Field

from baywright.facts.fact import DataRate, Length, Name, Whole


class Model(BaseModel):
    """A part of a book: unknown keys are problems, values never change after loading."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)


class Outline(Model):
    """A rectangle in one view of the machine, measured from the view's lower left corner.

    The view inside is from above, with the front at the lower edge; the side view has the front
    at the left edge.
    """

    view: Name = Field(description="front, rear, inside or side")
    x: Length = Field(description="from the left edge")
    y: Length = Field(description="from the lower edge")
    width: Length = Field(description="to the right")
    height: Length = Field(description="upwards")


class Port(Model):
    """Ports of one type at one side of the machine."""

    type: Name = Field(description="type of port, such as usb or video")
    count: Whole = Field(description="how many")
    scope: Name = Field(description="side they are reached from: front, rear or inside")
    speed: DataRate | None = Field(None, description="signalling rate of one port")
    at: list[Outline] = Field(
        default_factory=list, description="where they are drawn, one outline for each"
    )

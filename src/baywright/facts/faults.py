"""Signs of faults: lights, codes, log lines and what else can be seen; causes that are no part."""

from __future__ import annotations

from pydantic import Field

from baywright.facts.fact import Duration, Name, Ratio, Truth, Words
from baywright.facts.model import Model

BOARD, PARTS = "board", "parts"
"""Words for the board, and for every part and the board."""

NO_POWER, STOPPED = "no-power", "stopped"
"""Symptoms that any machine can show; a book may say more of them."""


class Sign(Model):
    """Something that can be seen of a fault.

    What it covers are ids and kinds of parts, `board`, `parts` for all of those, and ids of
    interlocks and causes.
    """

    name: Words | None = Field(
        None, description="what people call it, such as summary light; from its id unless given"
    )
    phrases: list[Words] = Field(default_factory=list, description="other words for it")
    covers: list[Name] = Field(default_factory=list, description="faults that always show it")
    each: Truth | None = Field(
        None, description="yes when each of what it covers has one of its own"
    )
    masked_by: list[Name] = Field(
        default_factory=list, description="faults while which it cannot be seen"
    )
    behind: list[Name] = Field(
        default_factory=list, description="steps of service.access that have to be off to see it"
    )
    by: Words | None = Field(None, description="what it is read with, when eyes are not enough")
    time: Duration | None = Field(None, description="time to look at it, the way in not counted")
    needs: Name | None = Field(None, description="part that has to be fitted for it")


class Symptom(Sign):
    """What can be seen of a fault beside lights: how the machine acts, or a line of its log."""


class Check(Model):
    """How one finds out whether a cause is there, and puts it right."""

    says: Words = Field(description="what is looked at and done, a sentence")
    behind: list[Name] = Field(
        default_factory=list, description="steps of service.access that have to be off for it"
    )
    time: Duration | None = Field(None, description="time it takes, the way in not counted")


class Cause(Model):
    """Something other than a part that a machine can fail by."""

    name: Words = Field(description="what it is, such as no feed is live")
    rate: Ratio | None = Field(None, description="share of machines that it befalls in a year")
    check: Check | None = Field(None, description="how one finds out")

"""Access: what has to be off, out or open before something in a machine can be reached."""

from __future__ import annotations

from pydantic import Field

from baywright.facts.fact import Duration, Mass, Name, Truth, Whole, Words
from baywright.facts.model import Model

POWER, CORDS = "power", "cords"
"""Steps that mean something by themselves: the machine is stopped, and all its cords are out."""


class Way(Model):
    """A way in: everything it names has to be off."""

    off: list[Name] = Field(description="steps of service.access that have to be off, all of them")


class Access(Model):
    """Something that is stopped, pulled, opened or taken off to reach what lies behind it.

    Unless it may be off while the machine runs, the machine is stopped and its cords are out first.
    """

    behind: list[Name] = Field(
        default_factory=list, description="steps that have to be off before it, all of them"
    )
    other_ways: list[Way] = Field(
        default_factory=list, description="other ways to it, each enough in place of behind"
    )
    when: Name | None = Field(
        None, description="expression of builds that have it; all unless given"
    )
    time: Duration | None = Field(None, description="time to take it off")
    back: Duration | None = Field(None, description="time to put it back; as long unless given")
    running: Truth | None = Field(
        None, description="yes when it may be off while the machine runs; no unless given"
    )
    carried: Truth | None = Field(
        None, description="yes when it may only while the other supplies carry the load"
    )
    guides_air: Truth | None = Field(
        None, description="yes when air goes astray without it: off for air.cover_off at most"
    )
    interlocks: list[Name] = Field(default_factory=list, description="interlocks that it acts on")
    people: Whole | None = Field(None, description="people it takes, 1 unless given")
    mass: Mass | None = Field(None, description="mass that is lifted, for the user's lifting rule")
    whole: Truth | None = Field(None, description="yes when the whole machine is lifted")
    tools: list[Words] = Field(default_factory=list, description="tools it takes")
    cautions: list[Name] = Field(
        default_factory=list, description="cautions that have to be said before it"
    )
    mark: Words | None = Field(None, description="words on its handle, such as OFF FIRST")
    says: Words | None = Field(
        None, description="the act in words; take off and its id unless given"
    )
    says_back: Words | None = Field(None, description="putting it back in words")
    checks: list[Words] = Field(
        default_factory=list, description="what is checked once it is back, each a sentence"
    )


def ways_to(access: Access) -> tuple[frozenset[str], ...]:
    """Return the ways to a step, each as the steps that have to be off for it."""
    others = (frozenset(way.off) for way in access.other_ways)
    return (frozenset(access.behind), *others)

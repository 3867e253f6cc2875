"""The sections of a book beside its parts and places."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baywright.facts.access import Access
from baywright.facts.fact import (
    Angle,
    Area,
    Date,
    Duration,
    Flow,
    Length,
    Mass,
    MemorySize,
    Money,
    Name,
    Power,
    Pressure,
    Ratio,
    Rise,
    Sound,
    Temperature,
    TransferRate,
    Truth,
    Voltage,
    Whole,
    Words,
)
from baywright.facts.faults import Check, Sign
from baywright.facts.model import Model, Outline, Port


class About(Model):
    """What the book is about."""

    id: Name = Field(description="short id of the machine")
    name: Name = Field(description="name of the machine")
    maker: Name = Field(description="who makes it")
    purpose: Words = Field(description="what it is for, a few words")
    edition: Date = Field(description="date of this edition; answers hold as of it unless asked")
    source: Name = Field(description="id of the source of every fact that names none")
    currency: Name = Field(description="three capital letters; the currency of all prices")
    predecessor: Name | None = Field(None, description="id of the book of the machine it follows")
    announced: Date | None = Field(None, description="first day it may be named")
    samples: Truth | None = Field(None, description="yes when only samples exist before it ships")
    ships: Date | None = Field(None, description="first day it ships")
    last_order: Date | None = Field(None, description="last day it can be ordered")
    skeleton: list[Name] = Field(
        default_factory=list,
        description="names that tell its main layouts apart, for lists and counts",
    )


class Source(Model):
    """A document the facts come from."""

    title: Words = Field(description="title")
    date: Date = Field(description="date of issue")


class Orientation(Model):
    """A way the machine can stand, seen by one who looks at its front."""

    name: Name = Field(description="name as written in sentences, such as on a wall")
    turn: Angle = Field(description="how far it is turned clockwise: 0, 90, 180 or 270 °")
    needs: Name | None = Field(None, description="the kit it stands by")


class Chassis(Model):
    """The machine without anything optional."""

    form: Words = Field(description="how it stands: rack, shelf, wall")
    height: Length = Field(description="height; 2 U and millimetres are both lengths")
    width: Length = Field(description="width of the body")
    width_over_ears: Length | None = Field(None, description="width over the rack ears")
    depth: Length = Field(description="depth of the body")
    rails_from: Length | None = Field(None, description="shortest rail reach")
    rails_to: Length | None = Field(None, description="longest rail reach")
    side_by_side: Whole | None = Field(None, description="machines beside each other in a tray")
    tray_height: Length | None = Field(None, description="rack height of that tray")
    mass_empty: Mass = Field(description="mass without parts")
    mass_most: Mass = Field(description="most it can weigh")
    centre_depth: Length | None = Field(
        None, description="depth of the centre of its empty mass behind the front"
    )
    slide_travel: Length | None = Field(
        None, description="how far its slides let it out of the rack; its depth unless given"
    )
    price: Money = Field(description="list price without parts")
    failure_rate: Ratio | None = Field(None, description="share of boards that fail in a year")
    ports: list[Port] = Field(default_factory=list, description="ports that are always there")
    orientations: dict[Name, Orientation] = Field(
        default_factory=dict,
        description="ways it can stand, the usual one first; one that bears the name of a value "
        "of a setting goes with that value",
    )


class Line(Model):
    """A kind of input power."""

    name: Name = Field(description="name as written in sentences")
    volts_from: Voltage = Field(description="lowest voltage")
    volts_to: Voltage = Field(description="highest voltage")
    current: Literal["AC", "DC"] = Field(description="AC or DC")


class PowerSection(Model):
    """Input power and the draw of what is always there."""

    base: Power = Field(description="peak draw of the board and all that has no part of its own")
    base_typical: Power | None = Field(None, description="that draw under a usual load")
    base_idle: Power | None = Field(None, description="that draw while idle")
    processor_conversion: Ratio | None = Field(
        None, description="efficiency of the processor regulators; peak is TDP over it"
    )
    lines: dict[Name, Line] = Field(description="kinds of input power by id")


class ProcessorSection(Model):
    """What holds for the processors together."""

    counts: list[Whole] = Field(description="numbers of processors that may be fitted")
    identical: Truth | None = Field(None, description="yes unless given: all of one model")


class MemorySpeed(Model):
    """The memory speed of a population; the first of a list whose conditions hold counts."""

    speed: TransferRate = Field(description="data rate")
    per_channel: Whole | None = Field(None, description="modules on the fullest channel")
    size: MemorySize | None = Field(None, description="size of the module")
    ranks: Whole | None = Field(None, description="ranks of the module")


class MemorySection(Model):
    """What holds for memory in the whole machine."""

    speeds: list[MemorySpeed] = Field(description="speed by population")
    one_size: Truth | None = Field(None, description="yes when all modules are of one size")
    same_everywhere: Truth | None = Field(
        None, description="yes when every fitted processor has the same modules"
    )
    ranks_per_channel: Whole | None = Field(None, description="most ranks on a channel")


class Link(Model):
    """Lanes from a processor that a set of places shares."""

    owner: Name = Field(description="the processor socket")
    lanes: Whole = Field(description="lanes")
    feeds: list[Name] = Field(description="places that use them")
    switched: Truth | None = Field(
        None, description="yes when a switch shares them, so that the places may offer more"
    )


class InletLimit(Model):
    """The highest inlet temperature of a build; the first of a list that applies counts."""

    limit: Temperature = Field(description="highest inlet temperature at low altitude")
    when: Name | None = Field(None, description="expression that makes it so; always unless given")


class Derating(Model):
    """How the inlet limit falls with altitude."""

    above: Length = Field(description="altitude from which it falls")
    by: Rise = Field(description="fall")
    per: Length = Field(description="rise in altitude for that fall")
    up_to: Length | None = Field(None, description="highest altitude of use")


class Resistance(Model):
    """What the air path resists, by build; the first of a list that applies counts.

    Pressure rises with the square of the flow.
    """

    flow: Flow = Field(description="a flow through the machine")
    pressure: Pressure = Field(description="pressure that takes, in air of 1.2 kg/m³")
    when: Name | None = Field(None, description="expression that makes it so; always unless given")


class AirSection(Model):
    """Cooling."""

    rise: Rise = Field(description="allowed rise from inlet to outlet")
    inlet_limits: list[InletLimit] = Field(description="highest inlet temperature by build")
    derating: Derating = Field(description="fall of that limit with altitude")
    cover_off: Duration | None = Field(None, description="longest time to run without its cover")
    resistance: list[Resistance] = Field(
        default_factory=list, description="resistance of the air path, by build"
    )
    grille: Area | None = Field(None, description="area of the intake grille")
    grille_open: Ratio | None = Field(None, description="open share of the grille")
    noise_idle: Sound | None = Field(None, description="sound pressure at idle, 1 m in front")
    noise_full: Sound | None = Field(None, description="sound pressure at full speed, 1 m in front")
    noise_distance: Length | None = Field(
        None, description="distance in front at which noise is stated, 1 m unless given"
    )


class Setting(Model):
    """A choice that fits no part."""

    name: Name = Field(description="name as written in sentences")
    values: dict[Name, Words] = Field(description="values and what each means")


class Rule(Model):
    """An exception the book states itself."""

    says: Words = Field(description="the reason in words")
    holds: Name = Field(description="expression that every legal build keeps")


class MustSay(Model):
    """A sentence that no draft about its matter may leave out."""

    says: Words = Field(description="the sentence")
    counts: list[Words] = Field(
        default_factory=list,
        description="other phrases; a draft that has one of them has said it",
    )
    about: list[Words] = Field(
        default_factory=list,
        description="phrases of which a draft that has to say it has one; any draft unless given",
    )


class Interlock(Model):
    """An action and what the machine does by itself."""

    action: Words = Field(description="what a person does")
    effect: Words = Field(description="what the machine does")
    while_: Name = Field("running", alias="while", description="running or starting")
    after: Duration | None = Field(None, description="delay of the effect")
    rate: Ratio | None = Field(
        None, description="share of machines in which it is found to be so in a year"
    )
    check: Check | None = Field(None, description="how one finds out whether it is so")
    at: list[Outline] = Field(default_factory=list, description="where it is drawn")


class Lock(Model):
    """What a lock holds, and what it does not."""

    name: Words = Field(description="name")
    covers: list[Words] = Field(description="what cannot be reached while it is locked")
    leaves: list[Words] = Field(default_factory=list, description="what still can")
    key: Words | None = Field(None, description="what opens it, and where that is kept")
    time: Duration | None = Field(None, description="time to unlock it, and to lock it again")
    note: Words | None = Field(None, description="a remark for readers")


class Light(Sign):
    """A fault light or code."""

    shows: Words = Field(description="what lights it")
    seen: Words = Field(description="when or from where it can be seen")
    lasts: Duration | None = Field(None, description="how long it stays lit without power")
    codes: dict[Name, Words] = Field(
        default_factory=dict,
        description="code it shows by what it covers; of several faults, that of the first here",
    )


OTHER_WORK = ("cable", "setting")
"""Work that is done on no part."""


class Work(Model):
    """What it takes to fit one part of a kind, or to take it out."""

    time: Duration | None = Field(None, description="time for one, fitting or taking out")
    swap: Duration | None = Field(
        None, description="time to take one out and fit another; twice the time unless given"
    )
    running: Truth | None = Field(
        None, description="yes when it is done while the machine runs; no unless given"
    )
    running_most: Whole | None = Field(
        None, description="most of them that are changed on one occasion while the machine runs"
    )
    behind: list[Name] = Field(
        default_factory=list,
        description="steps of service.access that have to be off beside those of the place",
    )
    people: Whole | None = Field(None, description="people it takes, 1 unless given")
    tools: list[Words] = Field(default_factory=list, description="tools it takes")
    wait: Name | None = Field(None, description="id of the wait before it, in waits")
    cautions: list[Name] = Field(
        default_factory=list, description="cautions that have to be said before it"
    )
    checks: list[Words] = Field(
        default_factory=list, description="what is checked after it, each a sentence"
    )


class Service(Model):
    """Facts of service work."""

    order: list[Words] = Field(default_factory=list, description="what comes off, from outside in")
    running: list[Words] = Field(default_factory=list, description="work allowed while running")
    waits: dict[Name, Duration] = Field(default_factory=dict, description="waits before a step")
    marks: dict[Name, Words] = Field(default_factory=dict, description="words on handles and where")
    stop: Duration | None = Field(
        None, description="time to stop the machine, pull its cords and open it"
    )
    start: Duration | None = Field(
        None, description="time to close it, plug its cords in and start it"
    )
    access: dict[Name, Access] = Field(
        default_factory=dict,
        description="what is off, out or open to reach the places; a step of the order may stand "
        "here, `power` is the orderly stop and `cords` are all cords",
    )
    work: dict[Name, Work] = Field(
        default_factory=dict,
        description="what work takes, by id or kind of part; cable and setting for those",
    )


class Firmware(Model):
    """The lowest firmware of a part under some systems."""

    part: Name = Field(description="the part")
    at_least: Words = Field(description="lowest version")
    systems: list[Name] = Field(description="values of the setting system it holds for")


class FirmwareSection(Model):
    """Firmware."""

    update_order: list[Words] = Field(default_factory=list, description="order of updates")
    minimum: list[Firmware] = Field(default_factory=list, description="lowest versions")

"""The site of a build: where it stands, what feeds it, and what is asked of it there."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baywright.facts.fact import (
    Angle,
    Capacity,
    Current,
    DataRate,
    Duration,
    Energy,
    Factor,
    IoRate,
    Length,
    Mass,
    Money,
    Name,
    Power,
    Ratio,
    Rise,
    Sound,
    Temperature,
    Voltage,
    Volume,
    Whole,
    Words,
)
from baywright.facts.model import Model


class Feed(Model):
    """A feed: one breaker and what hangs on it."""

    current: Current = Field(description="rating of the breaker or fuse")
    voltage: Voltage | None = Field(
        None, description="voltage of one phase; that of the site unless given"
    )
    phases: Whole | None = Field(None, description="1 or 3; 1 unless given")
    continuous: Ratio | None = Field(
        None, description="share of the rating that local rules let run without end"
    )
    cord: Current | None = Field(None, description="most current of one cord on it")
    outlets: Whole | None = Field(None, description="outlets on it")
    leakage_most: Current | None = Field(None, description="most current to earth allowed on it")


class Ups(Model):
    """A battery that carries machines through dips."""

    energy: Energy | None = Field(None, description="energy of the battery when new")
    to_load: Ratio = Field(description="share of that energy that reaches the machine")
    aged: Ratio | None = Field(None, description="share that an aged battery still holds")
    ride_through: Duration | None = Field(None, description="how long it has to carry")
    peukert: Factor | None = Field(
        None, description="Peukert exponent, 1 or more; 1 means that the rate does not matter"
    )
    rated_time: Duration | None = Field(
        None, description="discharge time at which the energy was stated"
    )
    power_most: Power | None = Field(None, description="most power it can give")


class Hours(Model):
    """A stretch of the day at one load."""

    load: Ratio = Field(description="share of the way from idle to peak")
    hours: Duration = Field(description="hours of a day at that load")


class Tariff(Model):
    """What energy costs."""

    price: Money = Field(description="price of the energy below")
    per: Energy = Field(description="energy that the price buys, such as 1 kWh")


class Room(Model):
    """The room the machine stands in."""

    heat_most: Power | None = Field(None, description="heat that the room can carry away")
    noise_most: Sound | None = Field(None, description="most sound at the distance below")
    noise_distance: Length | None = Field(None, description="from the front of the machine")
    heat_other: Power | None = Field(None, description="heat of all else in it; none unless given")
    volume: Volume | None = Field(None, description="volume of its air")
    rise: Rise | None = Field(
        None, description="rise of its air that is allowed between supply and return"
    )
    noise_there: Sound | None = Field(None, description="sound there without the machines")
    machines: Whole | None = Field(
        None, description="machines of this build side by side, 1 unless given"
    )
    grille_blocked: Ratio | None = Field(
        None, description="share of the open intake that labels, dust or cables block"
    )


class LiftBand(Model):
    """The user's own rule for lifting: up to a mass, so many people."""

    up_to: Mass = Field(description="most mass of the band")
    by: Words = Field(description="how it is lifted, such as two people")


class Rack(Model):
    """The rack, and the room that is left in it."""

    units: Whole | None = Field(None, description="free rack units")
    runs: list[Whole] = Field(
        default_factory=list, description="free runs of units, where they are not one run"
    )
    mass_most: Mass | None = Field(None, description="most mass it may still take")
    mass_empty: Mass | None = Field(None, description="mass of the rack with what is in it")
    centre_height: Length | None = Field(None, description="height of the centre of that mass")
    centre_depth: Length | None = Field(
        None, description="depth of that centre behind the front feet"
    )
    width: Length | None = Field(None, description="width of its feet")
    depth: Length | None = Field(None, description="depth of its feet")
    setback: Length | None = Field(
        None, description="depth of the front rails behind the front feet"
    )
    tip_factor: Factor | None = Field(
        None, description="least ratio of the righting to the tipping moment; 1 unless given"
    )
    mounted_at: Length | None = Field(
        None, description="height of the underside of the machine above the floor"
    )
    floor_most: Mass | None = Field(
        None, description="most mass that a square metre of the floor bears"
    )
    depth_free: Length | None = Field(None, description="depth from the front rail to the door")
    rails: Length | None = Field(None, description="distance of front and rear rails")
    lift_bands: list[LiftBand] = Field(
        default_factory=list, description="the user's own rule for lifting, lightest first"
    )


class Pool(Model):
    """A store that software keeps over several machines alike."""

    machines: Whole = Field(description="machines")
    copies: Whole = Field(description="copies of all data, each on another machine")
    fill: Ratio = Field(description="share of the drives that may be filled")
    lost: Whole | None = Field(None, description="machines that may fail, with room for all copies")
    data: Capacity | None = Field(None, description="data that has to fit, one copy counted")


class Lift(Model):
    """How the machine is lifted, for the limit recommended to one person."""

    horizontal: Length = Field(description="distance of the hands in front of the ankles")
    vertical: Length = Field(description="height of the hands at the start")
    travel: Length = Field(description="how far up or down they go")
    turned: Angle | None = Field(None, description="how far the body is turned; 0 unless given")
    every: Duration | None = Field(
        None, description="time from one lift to the next; 5 min or more unless given"
    )
    lasts: Duration | None = Field(
        None, description="how long the lifting goes on; an hour or less unless given"
    )
    coupling: Literal["good", "fair", "poor"] = Field(
        description="how well the hands hold it: good, fair or poor"
    )


class Workload(Model):
    """What is asked of the drives."""

    reads: Ratio | None = Field(None, description="share of the I/O that reads")
    io_size: Capacity | None = Field(None, description="size of one I/O")
    io_rate: IoRate | None = Field(None, description="I/O wanted each second")
    data: Capacity | None = Field(None, description="data that has to fit")
    written: Capacity | None = Field(None, description="data written each day")
    write_amplification: Factor | None = Field(
        None, description="data that reaches the drives for each datum written, 1 or more"
    )
    boot_written: Capacity | None = Field(
        None, description="data written to the boot medium each day"
    )
    backup: Capacity | None = Field(None, description="data of one backup")
    backup_window: Duration | None = Field(None, description="time a backup may take")
    backups_kept: Whole | None = Field(None, description="backups that are kept")
    failures: Whole | None = Field(None, description="drive failures the data has to survive")
    spares: Whole | None = Field(None, description="drives behind each controller kept as spares")
    pool: Pool | None = Field(None, description="a store over several machines that it is part of")


class Upkeep(Model):
    """How the machine is looked after."""

    repair: Duration | None = Field(
        None, description="from a failure to a healthy part, rebuild not included"
    )
    rebuild_rate: DataRate | None = Field(None, description="rate of a rebuild without other load")
    years: Duration | None = Field(None, description="how long the machine is kept")
    machines: Whole | None = Field(None, description="machines that one stock of spares serves")
    lead_time: Duration | None = Field(None, description="time until a spare is replaced")
    unit_lead_time: Duration | None = Field(
        None, description="that time for a whole machine, where it differs"
    )
    unit_failure_rate: Ratio | None = Field(
        None, description="share of machines that are replaced whole in a year"
    )
    service_level: Ratio | None = Field(None, description="odds wanted that a spare is there")
    network_failure_rate: Ratio | None = Field(
        None, description="share of network connections outside the machine that fail in a year"
    )
    feed_failure_rate: Ratio | None = Field(None, description="share of feeds that fail in a year")
    down_time_most: Duration | None = Field(None, description="most down time wanted in a year")


class Site(Model):
    """Where the machine stands. What is left out is not taken into account."""

    voltage: Voltage | None = Field(None, description="voltage of the feeds")
    altitude: Length | None = Field(None, description="altitude above sea level")
    inlet: Temperature | None = Field(None, description="temperature of the air it takes in")
    feeds: dict[Name, Feed] = Field(default_factory=dict, description="feeds by name")
    ups: Ups | None = Field(None, description="battery in front of the machine")
    day: list[Hours] = Field(default_factory=list, description="load over a day")
    tariff: Tariff | None = Field(None, description="what energy costs")
    room: Room | None = Field(None, description="the room")
    rack: Rack | None = Field(None, description="the rack")
    lift: Lift | None = Field(None, description="how it is lifted")
    workload: Workload | None = Field(None, description="what is asked of the drives")
    upkeep: Upkeep | None = Field(None, description="how it is looked after")

"""Needs: what a customer asks for, before anybody has chosen a part."""

from __future__ import annotations

from pydantic import Field

from baywright.facts.fact import (
    Capacity,
    DataRate,
    Factor,
    MemorySize,
    Money,
    Name,
    Power,
    Ratio,
    Truth,
    Whole,
    Words,
)
from baywright.facts.model import Model
from baywright.facts.site import Site


class Guests(Model):
    """Virtual machines, all alike."""

    count: Whole = Field(description="virtual machines")
    cores: Factor | None = Field(None, description="virtual cores of each")
    memory: MemorySize | None = Field(None, description="memory of each")
    storage: Capacity | None = Field(None, description="data of each, one copy counted")


class Users(Model):
    """People who use it at the same time, all alike."""

    count: Whole = Field(description="users at the same time")
    cores: Factor | None = Field(None, description="cores of each, such as 0.1")
    memory: MemorySize | None = Field(None, description="memory of each")
    storage: Capacity | None = Field(None, description="data of each, one copy counted")
    network: DataRate | None = Field(None, description="network rate of each")


class Accelerators(Model):
    """Accelerator cards."""

    count: Whole = Field(description="cards")
    power: Power | None = Field(None, description="least power of each; any card unless given")


class Demand(Model):
    """What the workload takes. Amounts are for all machines together."""

    guests: Guests | None = Field(None, description="virtual machines")
    virtual_cores_per_core: Factor | None = Field(
        None, description="virtual cores that share a core; 1 unless given"
    )
    memory_overhead: Ratio | None = Field(
        None, description="share of their memory that virtual machines take on top"
    )
    memory_kept_back: MemorySize | None = Field(
        None, description="memory that each machine keeps for itself"
    )
    users: Users | None = Field(None, description="users")
    cores: Whole | None = Field(None, description="cores beside those of machines and users")
    memory: MemorySize | None = Field(None, description="memory beside that of the others")
    capacity: Capacity | None = Field(None, description="data beside that of the others")
    drive_failures: Whole | None = Field(
        None, description="drive failures that each array survives wherever they fall: 0, 1 or 2"
    )
    copies: Whole | None = Field(
        None, description="copies that software keeps of all data, each on another machine"
    )
    fill: Ratio | None = Field(None, description="share of the drives that may be filled")
    restored: Truth | None = Field(
        None, description="whether every copy is made again on the machines left after a loss"
    )
    accelerators: Accelerators | None = Field(None, description="accelerator cards")
    network: DataRate | None = Field(None, description="rate of all network ports, one direction")


class Growth(Model):
    """How the workload grows before machines are added."""

    share: Ratio = Field(description="growth in a year")
    years: Whole = Field(description="years")


class Survive(Model):
    """What may fail while the rest carries the whole workload."""

    hosts: Whole | None = Field(None, description="machines; none unless given")
    supplies: Whole | None = Field(
        None, description="1 for the loss that the supplies are made for"
    )
    fans: Whole | None = Field(None, description="1 for one fan")
    feeds: Whole | None = Field(
        None, description="1 for one feed, 0 for none; 1 where the site has several"
    )


class Need(Model):
    """What is needed, where, for how much, and what has to hold besides."""

    book: Name = Field(description="id of the book")
    name: Words = Field(description="what the need is called")
    demand: Demand = Field(default_factory=Demand, description="what the workload takes")
    growth: Growth | None = Field(None, description="how it grows")
    survive: Survive = Field(default_factory=Survive, description="what may fail")
    hosts: Whole | None = Field(None, description="machines; as many as it takes unless given")
    sites: Whole | None = Field(None, description="sites that share the machines evenly; 1")
    racks: Whole | None = Field(
        None, description="racks at each site; as many as it takes unless given"
    )
    repeat: Whole | None = Field(
        None, description="how often the whole is bought, each time by itself; 1 unless given"
    )
    site: Site = Field(default_factory=Site, description="where each machine stands")
    budget: Money | None = Field(None, description="most price of all machines, repeats included")
    must: list[Name] = Field(default_factory=list, description="expressions that have to hold")
    may: list[Name] = Field(default_factory=list, description="expressions that are welcome")
    must_not: list[Name] = Field(default_factory=list, description="expressions that may not hold")
    prefer: list[Name] = Field(
        default_factory=list, description="numbers of which more is better, such as cores"
    )
    note: Words | None = Field(None, description="a remark for readers")

"""What sizing asks of builds where a need puts them: its limits, and the room of racks."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

import numpy as np

from baywright.facts.fact import Fact
from baywright.facts.need import Need
from baywright.facts.site import Pool, Room, Site, Workload
from baywright.laws.machine import Machine
from baywright.sizing.case import Case, Codes, Surroundings
from baywright.sizing.demand import data_of, lost_hosts
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Limit, Sheet
from baywright.sizing.limits import sheets
from baywright.sizing.pool import hosts_in_rack
from baywright.sizing.registry import SUBJECTS
from baywright.units import Quantity

STATED = (
    "power.cord",
    "power.leakage",
    "rack.",
    "storage.",
    "energy.ride-through",
    "energy.ups-load",
    "availability.",
    "air.noise",
    "air.room",
)
"""Limits that refuse a build because the site states their bound, by the start of their key."""

NOT_ASKED = (
    "rack.mass",
    "storage.bay",
    "storage.connector",
    "storage.controller",
    "storage.uplink",
)
"""Limits of the machine itself that are told and do not refuse."""

BY_LOAD = ("power", "rack", "energy")
"""Subjects of sizing with limits on what a build draws."""

_BY_LOAD = (
    "power.redundancy",
    "power.feed",
    "power.inlet",
    "power.cord",
    "rack.room_heat",
    "energy.ride-through",
    "energy.ups-load",
    "hosts.feeds",
)

RACK_COUNTS: Mapping[str, str] = {
    "rack.machines.space": "rack units",
    "rack.machines.mass": "mass on the rack",
    "rack.machines.floor": "mass on the floor",
}
"""Figures that count the machines of a rack, and the words of what binds them."""


@dataclass(frozen=True, slots=True)
class Check:
    """Something that a build may not pass where it stands.

    Args:
        key: its identity.
        words: what is limited, with its condition.
        breaks: what happens past it, one sentence.
        room: what is left to the bound for each build, negative past it; not-a-number where it
            is not decided.
        limit: the limit of sizing, unless it counts machines.
    """

    key: str
    words: str
    breaks: str
    room: Reals
    limit: Limit | None = None

    @property
    def by_load(self) -> bool:
        """Whether it depends on nothing but the supplies and what they carry."""
        return self.key.startswith(_BY_LOAD)


@dataclass(frozen=True)
class Standing:
    """Where some equal machines of a need stand.

    Args:
        need: the need.
        hosts: how many machines.
    """

    need: Need
    hosts: int

    @property
    def sites(self) -> int:
        """Sites that share the machines."""
        return self.need.sites.known if self.need.sites else 1

    @property
    def at_site(self) -> int:
        """Machines at the fullest site."""
        return math.ceil(self.hosts / self.sites)

    @property
    def in_rack(self) -> int:
        """Machines that the fullest rack has to bear; one where there may be more racks."""
        racks = self.need.racks
        return hosts_in_rack(self.hosts, self.sites, racks.known) if racks else 1

    @property
    def feed_lost(self) -> bool:
        """Whether one feed may fail: unless said, where there are several."""
        asked = self.need.survive.feeds
        return bool(asked.known) if asked else len(self.need.site.feeds) > 1

    @cached_property
    def site(self) -> Site:
        """The site of one machine, with the others beside it."""
        site = self.need.site
        changes: dict[str, object] = {}
        if site.room is not None and site.room.machines is None:
            beside = Fact(self.at_site, str(self.at_site))
            changes["room"] = _changed_room(site.room, beside)
        workload = self._workload(site.workload)
        if workload is not None:
            changes["workload"] = workload
        return site.model_copy(update=changes)

    def _workload(self, stated: Workload | None) -> Workload | None:
        """Return the workload with the data of the need, so that margins count it."""
        data = data_of(self.need)
        if not data:
            return stated
        told = stated or Workload()
        demand, there = self.need.demand, _bytes(data)
        if demand.copies is None:
            own = _bytes(data / self.hosts)
            return told.model_copy(update={"data": own, "failures": demand.drive_failures})
        lost = lost_hosts(self.need) if demand.restored and demand.restored.known else 0
        pool = Pool(
            machines=Fact(self.hosts, str(self.hosts)),
            copies=demand.copies,
            fill=demand.fill or Fact(Fraction(1), "100 %"),
            lost=Fact(lost, str(lost)),
            data=there,
        )
        return told.model_copy(update={"pool": pool})

    @cached_property
    def own(self) -> frozenset[str]:
        """Limits that the wishes of the need hold already."""
        return frozenset(("storage.usable", "storage.pool")) if data_of(self.need) else frozenset()

    def refuses(self, limit: Limit) -> bool:
        """Say whether a build past a limit of sizing is refused."""
        key, survive = limit.figure.key, self.need.survive
        if limit.legal or key == "power.inlet.all":
            return True
        if key == "power.inlet.left":
            return bool(survive.supplies and survive.supplies.known)
        if key in ("power.feed.left", "power.feed_loss"):
            return self.feed_lost
        if key == "power.feed.all":
            return bool(self.need.site.feeds)
        return key.startswith(STATED) and key not in NOT_ASKED and key not in self.own

    def checks(self, case: Case, subjects: Collection[str] = ()) -> list[Check]:
        """Return all that some builds may not pass.

        Args:
            case: the builds at ``site``.
            subjects: names of the subjects of sizing to look at, all unless given.
        """
        found = sheets(case) if not subjects else _some(case, subjects)
        return [*self._limits(found, case), *self._counts(found, case)]

    def _limits(self, found: Mapping[str, Sheet], case: Case) -> Iterator[Check]:
        for sheet in found.values():
            for limit in sheet.limits:
                if self.refuses(limit):
                    figure = limit.figure
                    words = ", ".join(filter(None, (figure.name, figure.condition)))
                    room = _column(case, limit.room)
                    yield Check(figure.key, words, limit.breaks, room, limit)

    def _counts(self, found: Mapping[str, Sheet], case: Case) -> Iterator[Check]:
        """Yield the machines that racks and feeds bear, against those they have to."""
        need = self.in_rack
        for key, (words, machines) in self.counted(found, case).items():
            breaks = f"A rack has to bear {need}."
            yield Check(key, f"machines by {words}", breaks, machines - need)

    def counted(self, found: Mapping[str, Sheet], case: Case) -> dict[str, tuple[str, Reals]]:
        """Return how many machines a rack bears, by what binds, with its words."""
        counts: dict[str, tuple[str, Reals]] = {}
        feeds = "power.hosts.left" if self.feed_lost else "power.hosts.all"
        words = "feeds when one is lost" if self.feed_lost else "feeds"
        wanted = {feeds: ("hosts.feeds", words)} if self.need.site.feeds else {}
        wanted |= {key: (key, said) for key, said in RACK_COUNTS.items()}
        for sheet in found.values():
            for figure in sheet.figures:
                if figure.key in wanted:
                    key, said = wanted[figure.key]
                    counts[key] = said, _column(case, figure.values)
        return counts

    def case(self, machine: Machine, builds: Sequence[Mapping[str, int]]) -> Case:
        """Return builds as sizing reads them, at this site.

        Args:
            machine: the compiled book.
            builds: value index by name of the choice, one build after the other.
        """
        names = [name for name, fitting in machine.frame.fittings.items() if not fitting.derived]
        codes: dict[str, Codes] = {
            name: np.array([build[name] for build in builds], np.intp) for name in names
        }
        return Case(machine.frame, codes, Surroundings.of(self.site))


def _some(case: Case, subjects: Collection[str]) -> dict[str, Sheet]:
    return {each.name: each.sheet(case) for each in SUBJECTS if each.name in subjects}


def _column(case: Case, values: object) -> Reals:
    column = np.ravel(np.asarray(values, np.float64))
    return np.broadcast_to(column, (max(case.size, column.size),))


def _changed_room(room: Room, machines: Fact[int]) -> Room:
    return room.model_copy(update={"machines": machines})


def _bytes(data: Fraction) -> Fact[Quantity]:
    held = Quantity(data, "B", "capacity")
    return Fact(held, str(held))

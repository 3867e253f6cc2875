"""A need said in the simplest way: every legal build, for every number of machines."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from baywright.desk.fit.candidates import Candidate
from baywright.desk.fit.hosts import Explorer
from baywright.desk.fit.standing import Standing
from baywright.facts.need import Need
from baywright.facts.parts import Drive
from baywright.laws.controllers import cable_of
from baywright.laws.linear import Linear
from tests.laws.random_books import Sample


@dataclass(frozen=True)
class Plain:
    """A random book with a need.

    Args:
        sample: the book.
        need: the need.
        explorer: what is tested; only the numbers that are compared come from it.
    """

    sample: Sample
    need: Need
    explorer: Explorer

    def candidates(self, hosts: int) -> Iterator[Candidate]:
        """Yield every legal build that meets the need with so many machines."""
        builds = [build for build in self.sample.legal() if self._meets(build, hosts)]
        if not builds:
            return
        standing = Standing(self.need, hosts)
        checks = standing.checks(standing.case(self.sample.machine, builds))
        for position, build in enumerate(builds):
            if not any(check.room[position] < 0 for check in checks):
                space = self.explorer.space_of(hosts)
                yield self.explorer.compared.candidate(hosts, build, space)

    def _meets(self, build: Mapping[str, int], hosts: int) -> bool:
        demand, survive = self.need.demand, self.need.survive
        left = hosts - (survive.hosts.known if survive.hosts else 0)
        wanted = {
            "cores": Fraction(demand.cores.known if demand.cores else 0),
            "memory": demand.memory.known.canonical if demand.memory else Fraction(0),
        }
        kept = demand.memory_kept_back.known.canonical if demand.memory_kept_back else Fraction(0)
        asked = {name: amount / left for name, amount in wanted.items()}
        asked["memory"] += kept
        if demand.guests and demand.guests.cores and demand.guests.memory:
            fullest = math.ceil(Fraction(demand.guests.count.known, left))
            asked["cores"] += fullest * demand.guests.cores.known
            asked["memory"] += fullest * demand.guests.memory.known.canonical
        if any(self._number(name, build) < amount for name, amount in asked.items()):
            return False
        budget = self.need.budget
        if budget and hosts * self._number("price", build) > budget.known.canonical:
            return False
        return self._redundant(build) and self._keeps(build, hosts)

    def _number(self, name: str, build: Mapping[str, int]) -> Fraction:
        meaning = self.sample.machine.names[name].meaning
        assert isinstance(meaning, Linear)
        return meaning.value(build)

    def _redundant(self, build: Mapping[str, int]) -> bool:
        if not (self.need.survive.supplies and self.need.survive.supplies.known):
            return True
        return self._number("load", build) <= self._number("supplies_carry_redundant", build)

    def _keeps(self, build: Mapping[str, int], hosts: int) -> bool:
        """Say whether the drives keep the data: in copies, in arrays, or simply."""
        demand = self.need.demand
        data = demand.capacity.known.canonical if demand.capacity else Fraction(0)
        raw = self._number("raw_capacity", build)
        if demand.copies:
            fill = demand.fill.known if demand.fill else Fraction(1)
            return hosts * raw * fill >= data * demand.copies.known
        failures = demand.drive_failures.known if demand.drive_failures else 0
        if not failures:
            return hosts * raw >= data
        groups = self._groups(build)
        if not groups or len({drive for _, drive in groups}) > 1:
            return False
        if any(count <= failures for count in groups.values()):
            return False
        usable = sum(
            (count - failures) * self._capacity(drive) for (_, drive), count in groups.items()
        )
        return hosts * usable >= data

    def _groups(self, build: Mapping[str, int]) -> dict[tuple[object, str], int]:
        frame, found = self.sample.machine.frame, dict[tuple[object, str], int]()
        for name, fitting in frame.fittings.items():
            if fitting.derived:
                continue
            cable = cable_of(fitting.place)
            there = cable in frame.fittings
            slot = frame.options(cable)[build[cable]].value if there else None
            for part, held, count in frame.parts_in(fitting.options[build[name]]):
                if isinstance(held, Drive):
                    found[slot, part] = found.get((slot, part), 0) + count
        return found

    def _capacity(self, drive: str) -> Fraction:
        part = self.sample.machine.book.parts[drive]
        assert isinstance(part, Drive)
        return part.capacity.known.canonical

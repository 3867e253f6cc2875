"""How many machines: every count that can matter, each with its exact front, physics included."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import TypeAlias

from baywright.answers.fronts import FrontFinder
from baywright.answers.inquiry import Inquiry, StoppedError
from baywright.answers.reasons import explain_refusal
from baywright.answers.verdicts import Proof, Reason
from baywright.desk.fit.asked import lasting, linear_of, wishes_for
from baywright.desk.fit.candidates import Candidate, Level, Measures, fronts_of, levels, unbeaten
from baywright.desk.fit.cuts import load_cuts, mass_cuts, no_good, refused
from baywright.desk.fit.standing import Check, Standing
from baywright.engines.contract import Limit, Objective
from baywright.engines.preparation import Deadline
from baywright.facts.need import Need
from baywright.laws.linear import whole
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, with_wishes
from baywright.sizing.demand import Demand, demands, lost_hosts
from baywright.sizing.pool import units_taken
from baywright.sizing.rack.machine import mounted

MOST_ROUNDS = 60
"""A front of which sizing refuses builds is taken again so often at most."""

MOST_HOSTS = 400
"""No more machines than this are looked at."""


@dataclass(frozen=True, slots=True)
class Count:
    """One number of machines.

    Args:
        hosts: the number.
        wishes: what each machine has to have, and what sizing refuses.
        candidates: what no other with as many machines beats; none where there is none.
        proof: who answered and who proved it again.
    """

    hosts: int
    wishes: tuple[Wish, ...]
    candidates: tuple[Candidate, ...]
    proof: Proof


@dataclass(frozen=True, slots=True)
class Explored:
    """All numbers of machines that were looked at.

    Args:
        counts: the numbers, in order.
        front: the candidates that none beats, over all of them.
        least: for each demand, the least number of machines if each had the most of it.
        from_on: from so many machines on, none is cheaper, draws less or takes less space than
            one found; ``None`` where more were not asked for or it was not proven.
        stopped: why not all numbers were looked at, or empty.
        reasons: why one machine fewer than the fewest is impossible.
    """

    counts: tuple[Count, ...]
    front: tuple[Candidate, ...]
    least: tuple[tuple[Demand, Fraction, int | None], ...]
    from_on: int | None
    stopped: str = ""
    reasons: tuple[Reason, ...] = ()


Watch: TypeAlias = Callable[[Sequence[Count]], None]
"""Told how far a search has come."""


def unwatched(counts: Sequence[Count]) -> None:
    """Take no notice of how far a search has come."""


@dataclass
class Explorer:
    """Looks at one number of machines after the other.

    Args:
        machine: the compiled book.
        need: the need.
        compared: what builds are compared by.
        inquire: starts an inquiry.
        finder: the engine that finds fronts.
        limit: the time for all of it.
        watch: told after each number of machines what was looked at by then.
    """

    machine: Machine
    need: Need
    compared: Measures
    inquire: Callable[[], Inquiry]
    finder: FrontFinder
    limit: Limit
    watch: Watch = unwatched
    counts: list[Count] = field(default_factory=list)

    def explore(self) -> Explored:
        """Look at every number of machines that can matter.

        Raises:
            Problems: for an expression that makes no sense.
            StoppedError: when nothing was found before a limit.
            RecheckError: when an engine's result fails its re-check.
        """
        deadline, from_on, stopped = Deadline(self.limit), None, ""
        try:
            for hosts in self._numbers():
                if self._beaten(hosts):
                    from_on = hosts
                    break
                self._count(hosts, deadline)
                self.watch(self.counts)
        except StoppedError as late:
            if not any(count.candidates for count in self.counts):
                raise
            stopped = late.tried
        front = unbeaten(each for count in self.counts for each in count.candidates)
        reasons = self._why_not_fewer() if front else ()
        return Explored(
            tuple(self.counts), tuple(front), tuple(self._least()), from_on, stopped, reasons
        )

    def at(self, hosts: int) -> Count:
        """Return one number of machines with its front.

        Raises:
            StoppedError: at the limit.
        """
        self._count(hosts, Deadline(self.limit))
        return self.counts[-1]

    @property
    def first(self) -> int:
        """The least number of machines that makes sense."""
        demand, lost = self.need.demand, lost_hosts(self.need)
        copies = demand.copies.known if demand.copies else 1
        restored = bool(demand.restored and demand.restored.known)
        return max(lost + 1, copies + (lost if restored else 0))

    def _numbers(self) -> Iterator[int]:
        """Yield the numbers of machines to look at, in order."""
        if self.need.hosts is not None:
            yield self.need.hosts.known
            return
        for hosts in range(self.first, MOST_HOSTS + 1):
            yield hosts
            if self._least_of_any is None or self._too_dear(hosts + 1):
                return
            if not demands(self.need) and self.counts[-1].candidates:
                return
        raise StoppedError(f"no more than {MOST_HOSTS} machines are looked at")

    def _too_dear(self, hosts: int) -> bool:
        """Say whether so many machines cost more than the budget whatever they are."""
        budget, least = self.need.budget, self._least_of_any
        times = hosts * (self.need.repeat.known if self.need.repeat else 1)
        return bool(budget and least and times * least[0] > budget.known.canonical)

    def _beaten(self, hosts: int) -> bool:
        """Say whether so many machines, and any more, are beaten by some found already."""
        least = self._least_of_any
        if least is None or not any(count.candidates for count in self.counts):
            return False
        space = self.space_of(hosts)
        return any(
            each.price <= hosts * least[0] and each.load <= hosts * least[1] and each.space <= space
            for count in self.counts
            for each in count.candidates
        )

    @cached_property
    def _least_of_any(self) -> tuple[Fraction, Fraction] | None:
        """The least price and draw of a machine that could take part; ``None`` if none could."""
        space = with_wishes(self.machine.space, lasting(self.machine, self.need))
        inquiry, both = self.inquire(), (self.compared.price, self.compared.load)
        found = [inquiry.best(space, Objective(tuple(whole(total).items()))) for total in both]
        if found[0] is None or found[1] is None:
            return None
        return both[0].value(found[0].values), both[1].value(found[1].values)

    def space_of(self, hosts: int) -> int:
        """Return the rack units of some machines, or their number where the book has none."""
        build = dict.fromkeys(self.machine.frame.fittings, 0)
        how = mounted(Standing(self.need, 1).case(self.machine, [build]))
        return hosts if how.missing else units_taken(hosts, int(how.units), how.beside)

    def _count(self, hosts: int, deadline: Deadline) -> None:
        """Take the front of one number of machines, again where sizing refuses some of it."""
        if self.counts and not deadline.left:
            raise StoppedError(f"the time was up before {hosts} machines")
        standing, inquiry = Standing(self.need, hosts), self.inquire()
        wishes = [
            *wishes_for(self.machine, self.need, hosts),
            *load_cuts(self.machine, standing),
            *mass_cuts(self.machine, standing),
        ]
        space = with_wishes(self.machine.space, wishes)
        if inquiry.possible(space) is None:
            self.counts.append(Count(hosts, tuple(wishes), (), inquiry.proof(refusal=True)))
            return
        kept: list[Level] = []
        pending = levels(inquiry, self.compared, space)
        for round_ in range(MOST_ROUNDS):
            found = fronts_of(inquiry, self.compared, space, self.finder, pending, deadline)
            refusals = [list(self._refusals(standing, level.builds)) for level in found]
            kept += [each for each, broken in zip(found, refusals, strict=True) if not broken]
            pending = [each.given for each, broken in zip(found, refusals, strict=True) if broken]
            if not pending:
                self._keep(hosts, wishes, kept)
                return
            if not deadline.left:
                raise StoppedError(f"the time was up at {hosts} machines")
            refused_ = [pair for broken in refusals for pair in broken]
            wishes += self._no_goods(standing, refused_, round_)
            space = with_wishes(self.machine.space, wishes)
        raise StoppedError(f"sizing refused the front of {hosts} machines {MOST_ROUNDS} times")

    def _keep(self, hosts: int, wishes: Sequence[Wish], kept: Sequence[Level]) -> None:
        space = self.space_of(hosts)
        builds = (build for level in kept for build in level.builds)
        found = unbeaten(self.compared.candidate(hosts, build, space) for build in builds)
        self.counts.append(Count(hosts, tuple(wishes), tuple(found), _joined(kept)))

    def _refusals(
        self, standing: Standing, builds: Sequence[Mapping[str, int]]
    ) -> Iterator[tuple[Mapping[str, int], Check]]:
        """Yield each build that sizing refuses, with the first thing it does not pass."""
        if builds:
            checks = standing.checks(standing.case(self.machine, builds))
            for build, broken in zip(builds, refused(checks, len(builds)), strict=True):
                if broken:
                    yield build, broken[0]

    def _no_goods(
        self, standing: Standing, found: Sequence[tuple[Mapping[str, int], Check]], round_: int
    ) -> Iterator[Wish]:
        """Yield a wish against each kind of build that sizing refuses."""
        for position, (build, check) in enumerate(found):
            yield no_good(self.machine, standing, build, check, f"{round_}.{position}")

    def _least(self) -> Iterator[tuple[Demand, Fraction, int | None]]:
        """Yield, for each demand, the most that a machine can have and the number it makes."""
        space = with_wishes(self.machine.space, lasting(self.machine, self.need))
        inquiry = self.inquire()
        for demand in demands(self.need):
            linear = linear_of(self.machine, demand.resource)
            best = inquiry.best(space, Objective(tuple(whole(linear).items())).negated())
            most = linear.value(best.values) if best else Fraction(0)
            yield demand, most, demand.least_hosts(most)

    def _why_not_fewer(self) -> tuple[Reason, ...]:
        fewest = min(count.hosts for count in self.counts if count.candidates)
        below = [c for c in self.counts if c.hosts == fewest - 1 and not c.candidates]
        if not below:
            return ()
        space = with_wishes(self.machine.space, below[0].wishes)
        try:
            return explain_refusal(self.inquire(), space, below[0].wishes).reasons
        except StoppedError:
            return ()


def _joined(found: Sequence[Level]) -> Proof:
    """Return who answered and who proved it again, over some levels."""
    checkers = {level.proof.rechecked_by for level in found}
    answered = found[-1].proof
    checker = "" if "" in checkers else ", ".join(sorted(checkers))
    spent = max(level.proof.milliseconds for level in found)
    return Proof(answered.answered_by, checker, spent)

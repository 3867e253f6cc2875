"""The states that a plan goes through, the steps between them, and what each costs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, NamedTuple, TypeAlias

from baywright.service.access.graph import Barrier, Graph, Ways, needed_by_all, relevant

Least: TypeAlias = Literal["time", "off"]
"""What a plan has least of: time in all, or time with the machine off."""

Kind: TypeAlias = Literal["out", "work", "back"]

Cost: TypeAlias = tuple[int, int, int]
"""Time, steps and time off; or, where time off is to be least, time off, time and steps."""

NOTHING: Cost = (0, 0, 0)


@dataclass(frozen=True, slots=True)
class Move:
    """A step of a plan.

    Args:
        kind: ``out`` takes a barrier off, ``back`` puts it back, ``work`` does one part of a job.
        name: the barrier or the job.
    """

    kind: Kind
    name: str


class State(NamedTuple):
    """Where a plan stands; barriers go by their position.

    Args:
        off: barriers off, the last one last.
        mask: the same, one bit for each.
        spent: for each of them that has a longest time, how long it has been off while the
            machine runs.
        done: how many parts of each job are done.
        pushed: whether the last step took a barrier off.
    """

    off: tuple[int, ...]
    mask: int
    spent: tuple[int, ...]
    done: tuple[int, ...]
    pushed: bool


class Moves:
    """The steps that can be taken in each state.

    Args:
        graph: barriers and jobs; only barriers on some way to some job are taken off.
        least: what a plan has least of.
    """

    def __init__(self, graph: Graph, least: Least) -> None:
        wanted = relevant(graph)
        self.least = least
        self.names = [name for name in graph.barriers if name in wanted]
        self.barriers = [graph.barriers[name] for name in self.names]
        self.jobs = list(graph.jobs)
        self.numbers = [job.number for job in graph.jobs.values()]
        self._bits = {name: 1 << at for at, name in enumerate(self.names)}
        self._power = self._bits.get(graph.power, 0)
        self._scale = _scale(graph, self.barriers)
        self._ways = [self._masks(each.ways) for each in self.barriers]
        self._job_ways = [self._masks(job.ways) for job in graph.jobs.values()]
        self._out = [self._whole(each.out) for each in self.barriers]
        self._back = [self._whole(each.back) for each in self.barriers]
        self._works = [self._whole(job.time) for job in graph.jobs.values()]
        self._take_needs(graph)
        longest = [each.longest for each in self.barriers]
        self._longest = [None if time is None else self._whole(time) for time in longest]

    def _take_needs(self, graph: Graph) -> None:
        """Keep, as bits, what each job needs whatever the way, and what is only off at rest."""
        needed = needed_by_all(graph)
        self._needs = [self._mask(needed[f"job: {name}"]) for name in graph.jobs]
        resting = [n for n in self.names if n == graph.power or graph.power in needed[n]]
        self._at_rest = self._mask(resting)
        self._sums: dict[int, tuple[int, int, int]] = {}

    def _mask(self, names: Iterable[str]) -> int:
        return sum(self._bits[name] for name in names if name in self._bits)

    def _masks(self, ways: Ways) -> tuple[int, ...]:
        """Return ways as bits; one that names a barrier that is not there leads nowhere."""
        held = (way for way in ways if all(name in self._bits for name in way))
        return tuple(map(self._mask, held))

    def _whole(self, time: Fraction) -> int:
        return int(time * self._scale)

    @property
    def start(self) -> State:
        """The state in which everything is on and nothing done."""
        return State((), 0, (), (0,) * len(self.jobs), pushed=False)

    def is_end(self, state: State) -> bool:
        """Say whether all is done and back."""
        return not state.off and list(state.done) == self.numbers

    def bound(self, state: State) -> Cost:
        """Return what a state still costs at least.

        All that is off goes back, what is left is done, and whatever that needs on every way has
        to come off before and go back after it.
        """
        back = [self._back[at] for at in state.off]
        time, steps = sum(back), sum(not self.barriers[at].silent for at in state.off)
        # What came off after the stop goes back before the start.
        begun = next((i for i, at in enumerate(state.off) if 1 << at == self._power), len(back))
        resting, missing = sum(back[begun:]), 0
        for at, needs in enumerate(self._needs):
            left = self.numbers[at] - state.done[at]
            if left:
                missing |= needs & ~state.mask
                time, steps = time + left * self._works[at], steps + left
                resting += left * self._works[at] if self._rests(at) else 0
        more = self._there_and_back(missing)
        return self._ordered(time + more[0], steps + more[1], resting + more[2])

    def _rests(self, job: int) -> bool:
        """Say whether the machine is always off for a job."""
        return bool(self._needs[job] & self._power)

    def _there_and_back(self, mask: int) -> tuple[int, int, int]:
        """Return time, steps and time at rest to take some barriers off and put them back."""
        if mask not in self._sums:
            held = [at for at in range(len(self.names)) if mask & 1 << at]
            times = {at: self._out[at] + self._back[at] for at in held}
            steps = sum(0 if self.barriers[at].silent else 2 for at in held)
            resting = sum(time for at, time in times.items() if self._at_rest & 1 << at)
            self._sums[mask] = sum(times.values()), steps, resting
        return self._sums[mask]

    def of(self, state: State) -> Iterator[tuple[Move, State, Cost]]:
        """Yield each step that can be taken in a state, where it leads, and what it costs.

        A job that is open, and that would cost no less later, is done at once.
        """
        works = list(self._working(state))
        at_once = next((work for work in works if self._no_better_later(state, work)), None)
        if at_once is not None:
            yield at_once
            return
        yield from works
        yield from self._opening(state)
        # What is put back as soon as it is off has served nothing.
        if state.off and not state.pushed:
            yield from self._closing(state)

    def _working(self, state: State) -> Iterator[tuple[Move, State, Cost]]:
        for at, name in enumerate(self.jobs):
            if state.done[at] < self.numbers[at] and _is_open(self._job_ways[at], state.mask):
                time = self._works[at]
                spent = self._passed(state.off, state.spent, time, runs=self._runs(state.mask))
                if spent is not None:
                    done = (*state.done[:at], state.done[at] + 1, *state.done[at + 1 :])
                    after = State(state.off, state.mask, spent, done, pushed=False)
                    yield Move("work", name), after, self._cost(state.mask, time)

    def _no_better_later(self, state: State, work: tuple[Move, State, Cost]) -> bool:
        """Say whether a job costs the same whenever it is done, or more time at rest later.

        Done while the machine runs, it must not take time from what may only be off for a while.
        """
        runs = self._runs(state.mask)
        return not state.spent if runs else self._rests(self.jobs.index(work[0].name))

    def _opening(self, state: State) -> Iterator[tuple[Move, State, Cost]]:
        for at, ways in enumerate(self._ways):
            if state.mask & 1 << at or not _is_open(ways, state.mask):
                continue
            if state.pushed and self._other_way_round(state, at):
                continue
            after = self._opened(state, at)
            if after is not None:
                silent = self.barriers[at].silent
                price = self._cost(after.mask, self._out[at], silent=silent)
                yield Move("out", self.names[at]), after, price

    def _opened(self, state: State, at: int) -> State | None:
        time, runs = self._out[at], self._runs(state.mask)
        spent = self._passed(state.off, state.spent, time, runs=runs)
        off = (*state.off, at)
        if spent is not None and self._longest[at] is not None:
            begun = (*spent, time if runs else 0)
            spent = None if self._late(off, begun) else begun
        if spent is None:
            return None
        return State(off, state.mask | 1 << at, spent, state.done, pushed=True)

    def _closing(self, state: State) -> Iterator[tuple[Move, State, Cost]]:
        at, off = state.off[-1], state.off[:-1]
        mask, time = state.mask & ~(1 << at), self._back[at]
        spent = self._passed(state.off, state.spent, time, runs=self._runs(mask))
        if spent is not None:
            kept = spent if self._longest[at] is None else spent[:-1]
            after = State(off, mask, kept, state.done, pushed=False)
            price = self._cost(state.mask, time, silent=self.barriers[at].silent)
            yield Move("back", self.names[at]), after, price

    def _other_way_round(self, state: State, at: int) -> bool:
        """Say whether the last two could as well have come off in the order of the graph.

        Neither time nor what is open afterwards depends on their order then, and what was behind
        one of them can be done while both are off; so only one of the orders is gone through.
        """
        last = state.off[-1]
        plain = all(self._longest[each] is None and 1 << each != self._power for each in (last, at))
        return plain and at < last and _is_open(self._ways[at], state.mask & ~(1 << last))

    def _runs(self, mask: int) -> bool:
        return not mask & self._power

    def _passed(
        self, off: tuple[int, ...], spent: tuple[int, ...], time: int, *, runs: bool
    ) -> tuple[int, ...] | None:
        """Return how long each has been off some time later, or ``None`` when that is too long.

        While it is being stopped or started, the machine counts as running.
        """
        if not (runs and spent):
            return spent
        later = tuple(each + time for each in spent)
        return None if self._late(off, later) else later

    def _late(self, off: tuple[int, ...], spent: tuple[int, ...]) -> bool:
        bounds = [bound for bound in (self._longest[at] for at in off) if bound is not None]
        return any(each > bound for each, bound in zip(spent, bounds, strict=True))

    def _cost(self, mask: int, time: int, *, silent: bool = False) -> Cost:
        """Return what a step costs, with the barriers that are off during it."""
        return self._ordered(time, 0 if silent else 1, 0 if self._runs(mask) else time)

    def _ordered(self, time: int, steps: int, resting: int) -> Cost:
        return (time, steps, resting) if self.least == "time" else (resting, time, steps)


def plus(first: Cost, second: Cost) -> Cost:
    """Return the sum of two costs."""
    return first[0] + second[0], first[1] + second[1], first[2] + second[2]


def _is_open(ways: Iterable[int], mask: int) -> bool:
    return any(way & mask == way for way in ways)


def _scale(graph: Graph, barriers: Iterable[Barrier]) -> int:
    """Return a number by which all times are whole."""
    times = [time for each in barriers for time in (each.out, each.back, each.longest)]
    times += [job.time for job in graph.jobs.values()]
    return math.lcm(*(Fraction(time).denominator for time in times if time is not None))

"""The shortest plan: a way through the states of an and-or graph.

What is taken off is put back in the exact reverse order, so a state is a stack of barriers, with
the jobs done so far and, for barriers that may be off for a time only while the machine runs, how
long they have been. Of all plans the one is found that takes the least time, then the fewest steps,
then has the machine off for the shortest time; or with the time it is off before the others.
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal, NamedTuple, TypeAlias

from baywright.service.access.graph import Barrier, Graph, Job, is_open, relevant

Least: TypeAlias = Literal["time", "off"]
"""What a plan has least of: time in all, or time with the machine off."""

Kind: TypeAlias = Literal["out", "work", "back"]
Cost: TypeAlias = tuple[int, int, int]

MOST = 400_000
"""States that are looked at, at most."""


class OutOfStatesError(Exception):
    """More states would have to be looked at than may be."""


@dataclass(frozen=True, slots=True)
class Move:
    """A step of a plan.

    Args:
        kind: ``out`` takes a barrier off, ``back`` puts it back, ``work`` does one part of a job.
        name: the barrier or the job.
    """

    kind: Kind
    name: str


class _State(NamedTuple):
    """Where a plan stands.

    Args:
        off: barriers off, the last one last.
        spent: for each of those that has a longest time, how long it has been off while the
            machine runs.
        done: how many parts of each job are done.
        pushed: whether the last step took a barrier off.
    """

    off: tuple[str, ...]
    spent: tuple[int, ...]
    done: tuple[int, ...]
    pushed: bool


def shortest(graph: Graph, least: Least = "time", most: int = MOST) -> tuple[Move, ...] | None:
    """Return the best plan, or ``None`` where there is none.

    Args:
        graph: barriers and jobs.
        least: what it has least of.
        most: most states that are looked at.

    Raises:
        OutOfStatesError: when it takes more states.
    """
    search = _Search(graph, least)
    start = _State((), (), (0,) * len(graph.jobs), pushed=False)
    costs: dict[_State, Cost] = {start: (0, 0, 0)}
    came: dict[_State, tuple[_State, Move]] = {}
    numbers = itertools.count()
    heap = [((0, 0, 0), next(numbers), start)]
    settled: set[_State] = set()
    while heap:
        cost, _, state = heapq.heappop(heap)
        if state in settled:
            continue
        settled.add(state)
        if search.is_end(state):
            return tuple(_back(state, came))
        if len(settled) > most:
            raise OutOfStatesError
        for move, after, price in search.moves(state):
            total = (cost[0] + price[0], cost[1] + price[1], cost[2] + price[2])
            if after not in costs or total < costs[after]:
                costs[after], came[after] = total, (state, move)
                heapq.heappush(heap, (total, next(numbers), after))
    return None


def _back(state: _State, came: dict[_State, tuple[_State, Move]]) -> list[Move]:
    moves: list[Move] = []
    while state in came:
        state, move = came[state]
        moves.append(move)
    return moves[::-1]


@dataclass(frozen=True)
class _Search:
    """The steps that can be taken in a state, and what each costs."""

    graph: Graph
    least: Least

    @cached_property
    def barriers(self) -> dict[str, Barrier]:
        """The barriers on some way to some job, in the order of the graph."""
        wanted = relevant(self.graph)
        return {name: each for name, each in self.graph.barriers.items() if name in wanted}

    @cached_property
    def scale(self) -> int:
        """A number by which all times are whole."""
        times = [t for each in self.barriers.values() for t in (each.out, each.back)]
        times += [each.longest for each in self.barriers.values() if each.longest is not None]
        times += [job.time for job in self.graph.jobs.values()]
        return math.lcm(*(Fraction(time).denominator for time in times))

    @cached_property
    def jobs(self) -> list[tuple[str, Job]]:
        return list(self.graph.jobs.items())

    @cached_property
    def places(self) -> dict[str, int]:
        return {name: place for place, name in enumerate(self.barriers)}

    def is_end(self, state: _State) -> bool:
        """Say whether all is done and back."""
        done = all(each.number == n for (_, each), n in zip(self.jobs, state.done, strict=True))
        return done and not state.off

    def moves(self, state: _State) -> Iterator[tuple[Move, _State, Cost]]:
        """Yield each step that can be taken, where it leads, and what it costs."""
        yield from self._works(state)
        yield from self._outs(state)
        if state.off:
            yield from self._backs(state)

    def _works(self, state: _State) -> Iterator[tuple[Move, _State, Cost]]:
        for at, (name, job) in enumerate(self.jobs):
            if state.done[at] < job.number and is_open(job.ways, state.off):
                time = self._whole(job.time)
                spent = self._passed(state, time, running=self._runs(state.off))
                if spent is not None:
                    done = (*state.done[:at], state.done[at] + 1, *state.done[at + 1 :])
                    after = _State(state.off, spent, done, pushed=False)
                    yield Move("work", name), after, self._cost(state.off, time)

    def _outs(self, state: _State) -> Iterator[tuple[Move, _State, Cost]]:
        for name, barrier in self.barriers.items():
            if name in state.off or not is_open(barrier.ways, state.off):
                continue
            if state.pushed and self._other_way_round(state.off, name):
                continue
            time, off = self._whole(barrier.out), (*state.off, name)
            spent = self._passed(state, time, running=self._runs(state.off))
            if spent is None:
                continue
            if barrier.longest is not None:
                spent = (*spent, time if self._runs(state.off) else 0)
                if self._late(off, spent):
                    continue
            yield (
                Move("out", name),
                _State(off, spent, state.done, pushed=True),
                self._cost(off, time, silent=barrier.silent),
            )

    def _backs(self, state: _State) -> Iterator[tuple[Move, _State, Cost]]:
        name = state.off[-1]
        barrier, off = self.barriers[name], state.off[:-1]
        time = self._whole(barrier.back)
        spent = self._passed(state, time, running=self._runs(off))
        if spent is not None:
            spent = spent[:-1] if barrier.longest is not None else spent
            after = _State(off, spent, state.done, pushed=False)
            yield Move("back", name), after, self._cost(state.off, time, silent=barrier.silent)

    def _other_way_round(self, off: tuple[str, ...], name: str) -> bool:
        """Say whether the last two could as well have come off in the order of the graph.

        Neither time nor what is open afterwards depends on their order then, and what was behind
        one of them can be done while both are off; so only one of the orders is gone through.
        """
        last = off[-1]
        plain = all(
            each != self.graph.power and self.barriers[each].longest is None
            for each in (last, name)
        )
        later = self.places[name] < self.places[last]
        return plain and later and is_open(self.barriers[name].ways, off[:-1])

    def _whole(self, time: Fraction) -> int:
        return int(time * self.scale)

    def _runs(self, off: tuple[str, ...]) -> bool:
        return self.graph.power not in off

    def _passed(self, state: _State, time: int, *, running: bool) -> tuple[int, ...] | None:
        """Return how long each has been off some time later, or ``None`` when that is too long.

        While it is being stopped or started, the machine counts as running.
        """
        spent = tuple(each + time for each in state.spent) if running else state.spent
        return None if self._late(state.off, spent) else spent

    def _late(self, off: tuple[str, ...], spent: tuple[int, ...]) -> bool:
        longest = [self.barriers[name].longest for name in off]
        bounds = [self._whole(each) for each in longest if each is not None]
        return any(each > bound for each, bound in zip(spent, bounds, strict=True))

    def _cost(self, off: tuple[str, ...], time: int, *, silent: bool = False) -> Cost:
        """Return what a step costs, with the barriers that are off during it."""
        resting = 0 if self._runs(off) else time
        steps = 0 if silent else 1
        return (time, steps, resting) if self.least == "time" else (resting, time, steps)

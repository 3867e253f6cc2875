"""The best order of changes: a shortest way through the states between two builds.

A step makes one change, or several at once where no state between them may be. Of all orders the
one is found that, in this order of weight, leaves the machine running without a protection in the
fewest states, switches it off the fewest times, keeps it off for the shortest time, makes the
fewest changes at once, has it without a protection in the fewest states while it is off, adds
before it moves and moves before it takes out, and follows the book.
"""

from __future__ import annotations

import heapq
import itertools
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from typing import TypeAlias

Cost: TypeAlias = tuple[int, int, Fraction, int, int, int, int]
"""Protections lacking in states in which it runs, times switched off, time switched off, changes at
once beyond the first of each step, protections lacking in states in which it is off, pairs against
the order of ranks, pairs against the order of the book."""

Done: TypeAlias = int
"""The changes made so far, one bit for each."""

NOTHING: Cost = (0, 0, Fraction(0), 0, 0, 0, 0)


class OutOfStatesError(Exception):
    """More states would have to be looked at than may be."""


@dataclass(frozen=True, slots=True)
class Task:
    """A change of one choice.

    Args:
        rank: 0 for what is added, 1 for what is moved, 2 for what is taken out.
        time: how long it takes [s].
    """

    rank: int
    time: Fraction


@dataclass(frozen=True, slots=True)
class Move:
    """A step of an order.

    Args:
        tasks: positions of the changes made at once.
        off: whether the machine is off while they are made.
    """

    tasks: tuple[int, ...]
    off: bool


@dataclass(frozen=True, slots=True)
class Ground:
    """What is known of the states between.

    Args:
        tasks: the changes.
        allowed: whether a state may be.
        running: whether a change can be made in a state while the machine runs.
        exposed: how many protections a state lacks that both ends have, when it runs and when
            it is off.
        most: most states that are looked at.
    """

    tasks: Sequence[Task]
    allowed: Callable[[Done], bool]
    running: Callable[[Done, int], bool]
    exposed: Callable[[Done], tuple[int, int]]
    most: int = 50_000

    def best(self) -> tuple[Move, ...]:
        """Return the best order.

        Raises:
            OutOfStatesError: when it takes more states than may be looked at.
        """
        last = (1 << len(self.tasks)) - 1
        start = (0, False)
        cost: dict[tuple[Done, bool], Cost] = {start: NOTHING}
        came: dict[tuple[Done, bool], tuple[tuple[Done, bool], Move]] = {}
        heap: list[tuple[Cost, Done, bool]] = [(NOTHING, *start)]
        for _ in range(self.most):
            spent, done, off = heapq.heappop(heap)
            if done == last:
                return tuple(_back((done, off), came))
            for move in self._moves(done):
                state = (done | _bits(move.tasks), move.off)
                total = _plus(spent, self.cost(done, move, off=off))
                if state not in cost or total < cost[state]:
                    cost[state], came[state] = total, ((done, off), move)
                    heapq.heappush(heap, (total, *state))
        raise OutOfStatesError

    def step_by_step(self, smallest: Callable[[Done], tuple[int, ...]]) -> Iterator[Move]:
        """Yield an order whose every step is the best where it stands, not the best order.

        While the machine is off, what cannot be done while it runs goes before what can.

        Args:
            smallest: the fewest changes that, made at once in a state, lead to one that may be.
        """
        done, off, last = 0, False, (1 << len(self.tasks)) - 1
        while done != last:
            left = [i for i in range(len(self.tasks)) if not done >> i & 1]
            alone = [i for i in left if self.allowed(done | 1 << i)]
            moves = list(self._alone(done, alone)) or [Move(smallest(done), off=True)]
            move = min(moves, key=partial(self._handy, done, off=off))
            yield move
            done, off = done | _bits(move.tasks), move.off

    def _handy(self, done: Done, move: Move, *, off: bool) -> tuple[bool, Cost]:
        later = off and any(self.running(done, task) for task in move.tasks)
        return later, self.cost(done, move, off=off)

    def cost(self, done: Done, move: Move, *, off: bool) -> Cost:
        """Return what a step costs in a state, in which the machine is off or runs."""
        after = done | _bits(move.tasks)
        running, resting = self.exposed(after)
        if off and not move.off:
            # A machine that was off is started first, in the state it is in.
            running += self.exposed(done)[0]
        times = (self.tasks[i].time for i in move.tasks if move.off)
        left = [i for i in range(len(self.tasks)) if not after >> i & 1]
        pairs = list(itertools.product(move.tasks, left))
        ranks = sum(self.tasks[i].rank > self.tasks[other].rank for i, other in pairs)
        return (
            0 if move.off else running,
            int(move.off and not off),
            sum(times, Fraction(0)),
            len(move.tasks) - 1,
            resting if move.off else 0,
            ranks,
            sum(i > other for i, other in pairs),
        )

    def _moves(self, done: Done) -> Iterator[Move]:
        """Yield the steps from a state; of several changes at once only those all needed."""
        left = [i for i in range(len(self.tasks)) if not done >> i & 1]
        alone = [i for i in left if self.allowed(done | 1 << i)]
        yield from self._alone(done, alone)
        for tasks in self._at_once(done, [i for i in left if i not in alone]):
            yield Move(tasks, off=True)

    def _alone(self, done: Done, alone: Sequence[int]) -> Iterator[Move]:
        """Yield the steps of one change; what may run is also done off, in case it is exposed."""
        for task in alone:
            if self.running(done, task):
                yield Move((task,), off=False)
            yield Move((task,), off=True)

    def _at_once(self, done: Done, left: Sequence[int]) -> Iterator[tuple[int, ...]]:
        """Yield the least sets of changes that lead to a state that may be.

        Changes made at once that could be made one after the other cost more and nothing else
        less, so larger sets are in no best order.
        """
        found: list[Done] = []
        for number in range(2, len(left) + 1):
            for tasks in itertools.combinations(left, number):
                bits = _bits(tasks)
                if not any(bits & less == less for less in found) and self.allowed(done | bits):
                    found.append(bits)
                    yield tasks


def _bits(tasks: Sequence[int]) -> Done:
    return sum(1 << task for task in tasks)


def _plus(one: Cost, other: Cost) -> Cost:
    a, b, c, d, e, f, g = one
    t, u, v, w, x, y, z = other
    return (a + t, b + u, c + v, d + w, e + x, f + y, g + z)


def _back(
    state: tuple[Done, bool], came: dict[tuple[Done, bool], tuple[tuple[Done, bool], Move]]
) -> list[Move]:
    moves: list[Move] = []
    while state in came:
        state, move = came[state]
        moves.append(move)
    return moves[::-1]

"""The shortest plan: a way through the states of an and-or graph.

What is taken off is put back in the exact reverse order, so a state is a stack of barriers, with
the jobs done so far and, for barriers that may be off for a time only while the machine runs, how
long they have been. Of all plans the one is found that takes the least time, then the fewest steps,
then has the machine off for the shortest time; or with the time it is off before the others.

What is off has to go back, and what is left has to be done with all that has to be off for it on
every way. That bounds from below what a state still costs, and states are gone through in the order
of what they cost with it: A* search, with a bound that is consistent, so that a state is settled by
a best way to it.
"""

from __future__ import annotations

import heapq
import itertools

from baywright.service.access.graph import Graph, is_open, reachable
from baywright.service.access.moves import NOTHING, Cost, Least, Move, Moves, State, plus

MOST = 100_000
"""States that are looked at, at most."""


class OutOfStatesError(Exception):
    """More states would have to be looked at than may be."""


def shortest(graph: Graph, least: Least = "time", most: int = MOST) -> tuple[Move, ...] | None:
    """Return the best plan, or ``None`` where there is none.

    Args:
        graph: barriers and jobs.
        least: what it has least of.
        most: most states that are looked at.

    Raises:
        OutOfStatesError: when it takes more states.
    """
    within = reachable(graph)
    if not all(is_open(job.ways, within) for job in graph.jobs.values()):
        return None
    moves = Moves(graph, least)
    costs: dict[State, Cost] = {moves.start: NOTHING}
    came: dict[State, tuple[State, Move]] = {}
    numbers = itertools.count()
    heap = [(NOTHING, NOTHING, next(numbers), moves.start)]
    settled: set[State] = set()
    while heap:
        state = heapq.heappop(heap)[-1]
        if state in settled:
            continue
        settled.add(state)
        if moves.is_end(state):
            return tuple(_back(state, came))
        if len(settled) > most:
            raise OutOfStatesError
        for move, after, price in moves.of(state):
            total = plus(costs[state], price)
            if after not in costs or total < costs[after]:
                costs[after], came[after] = total, (state, move)
                left = moves.bound(after)
                heapq.heappush(heap, (plus(total, left), left, next(numbers), after))
    return None


def _back(state: State, came: dict[State, tuple[State, Move]]) -> list[Move]:
    moves: list[Move] = []
    while state in came:
        state, move = came[state]
        moves.append(move)
    return moves[::-1]

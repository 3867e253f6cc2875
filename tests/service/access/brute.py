"""Plans by going through everything: slow, plain, and with none of the search's own code.

``exhaustive`` relaxes the cost of every state until nothing changes. A state is what is off, in any
order, what is done, and how long each thing with a limit has been off while the machine runs. With
``reverse`` what came off last goes back first; without it anything may go back that can still be
reached and shuts nothing in. ``sequences`` goes through sequences of steps one by one, for graphs
that are tiny.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from fractions import Fraction

from baywright.service.access.graph import Graph, Ways
from baywright.service.access.moves import Least, Move

Cost = tuple[Fraction | int, Fraction | int, Fraction | int]
State = tuple[tuple[str, ...], tuple[int, ...], tuple[tuple[str, Fraction], ...]]


def open_to(ways: Ways, off: tuple[str, ...]) -> bool:
    return any(all(name in off for name in way) for way in ways)


def needed(graph: Graph) -> list[str]:
    """Return the barriers that stand in some way of a job; others never help."""
    found: list[str] = []
    waiting = [name for job in graph.jobs.values() for way in job.ways for name in sorted(way)]
    while waiting:
        name = waiting.pop()
        if name in graph.barriers and name not in found:
            found.append(name)
            waiting += [each for way in graph.barriers[name].ways for each in sorted(way)]
    return found


def exhaustive(graph: Graph, least: Least = "time", *, reverse: bool = True) -> Cost | None:
    """Return the least cost of a plan, or ``None`` where there is none."""
    names = needed(graph)
    start: State = ((), (0,) * len(graph.jobs), ())
    best: dict[State, Cost] = {start: (Fraction(0), 0, Fraction(0))}
    waiting = deque([start])
    while waiting:
        state = waiting.popleft()
        for _, after, price in steps(graph, names, state, reverse=reverse):
            cost = added(best[state], ordered(price, least))
            if after not in best or cost < best[after]:
                best[after] = cost
                waiting.append(after)
    wanted = tuple(job.number for job in graph.jobs.values())
    return best.get(((), wanted, ()))


def ordered(price: Cost, least: Least) -> Cost:
    time, count, resting = price
    return (time, count, resting) if least == "time" else (resting, time, count)


def added(first: Cost, second: Cost) -> Cost:
    return first[0] + second[0], first[1] + second[1], first[2] + second[2]


def steps(
    graph: Graph, names: list[str], state: State, *, reverse: bool
) -> Iterator[tuple[Move, State, Cost]]:
    yield from outs(graph, names, state, reverse=reverse)
    yield from backs(graph, state, reverse=reverse)
    yield from works(graph, state)


def outs(
    graph: Graph, names: list[str], state: State, *, reverse: bool
) -> Iterator[tuple[Move, State, Cost]]:
    off, done, spent = state
    for name in names:
        barrier = graph.barriers[name]
        if name in off or not open_to(barrier.ways, off):
            continue
        then = later(graph, off, spent, barrier.out)
        if barrier.longest is not None:
            then = (*then, (name, barrier.out if graph.power not in off else Fraction(0)))
        if within(graph, then):
            more = (*off, name)
            after = (more if reverse else tuple(sorted(more)), done, tuple(sorted(then)))
            yield (
                Move("out", name),
                after,
                price(graph, more, barrier.out, silent=barrier.silent),
            )


def backs(graph: Graph, state: State, *, reverse: bool) -> Iterator[tuple[Move, State, Cost]]:
    off, done, spent = state
    for name in off[-1:] if reverse else off:
        barrier = graph.barriers[name]
        rest = tuple(each for each in off if each != name)
        then = later(graph, rest, spent, barrier.back)
        if within(graph, then) and (reverse or free(graph, name, rest)):
            kept = tuple(each for each in then if each[0] != name)
            paid = price(graph, off, barrier.back, silent=barrier.silent)
            yield Move("back", name), (rest, done, kept), paid


def works(graph: Graph, state: State) -> Iterator[tuple[Move, State, Cost]]:
    off, done, spent = state
    for at, (name, job) in enumerate(graph.jobs.items()):
        then = later(graph, off, spent, job.time)
        if done[at] < job.number and open_to(job.ways, off) and within(graph, then):
            more = (*done[:at], done[at] + 1, *done[at + 1 :])
            yield Move("work", name), (off, more, then), price(graph, off, job.time)


def free(graph: Graph, name: str, rest: tuple[str, ...]) -> bool:
    """Say whether something can go back: it is reached, and all that stays off can be as well."""
    others = all(
        open_to(graph.barriers[each].ways, tuple(n for n in rest if n != each)) for each in rest
    )
    return others and open_to(graph.barriers[name].ways, rest)


def later(
    graph: Graph, off: tuple[str, ...], spent: tuple[tuple[str, Fraction], ...], time: Fraction
) -> tuple[tuple[str, Fraction], ...]:
    if graph.power in off:
        return spent
    return tuple((name, gone + time) for name, gone in spent)


def within(graph: Graph, spent: tuple[tuple[str, Fraction], ...]) -> bool:
    limits = ((gone, graph.barriers[name].longest) for name, gone in spent)
    return all(limit is None or gone <= limit for gone, limit in limits)


def price(graph: Graph, off: tuple[str, ...], time: Fraction, *, silent: bool = False) -> Cost:
    return time, 0 if silent else 1, time if graph.power in off else Fraction(0)


def cost_of(graph: Graph, moves: tuple[Move, ...], least: Least = "time") -> Cost:
    """Return what a plan costs, and fail where a step of it cannot be taken."""
    state: State = ((), (0,) * len(graph.jobs), ())
    total: Cost = (Fraction(0), 0, Fraction(0))
    for move in moves:
        can = steps(graph, needed(graph), state, reverse=True)
        found = {step: (after, paid) for step, after, paid in can}
        assert move in found, f"{move} cannot be done with {state[0]} off"
        state, paid = found[move]
        total = added(total, ordered(paid, least))
    assert state == ((), tuple(job.number for job in graph.jobs.values()), ())
    return total


def sequences(graph: Graph, most: int) -> Iterator[tuple[Move, ...]]:
    """Yield every complete plan of at most so many steps, one sequence after the other."""
    start: State = ((), (0,) * len(graph.jobs), ())
    wanted = ((), tuple(job.number for job in graph.jobs.values()), ())
    waiting: list[tuple[State, tuple[Move, ...]]] = [(start, ())]
    while waiting:
        state, moves = waiting.pop()
        if state == wanted:
            yield moves
        elif len(moves) + len(state[0]) <= most:
            for move, after, _ in steps(graph, needed(graph), state, reverse=True):
                waiting.append((after, (*moves, move)))

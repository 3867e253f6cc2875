"""Orders of changes said in the simplest way: every ordered partition, costed step by step."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from fractions import Fraction

from baywright.desk.upgrade.sequence import Cost, Ground, Move


def every_order(ground: Ground) -> Iterator[list[Move]]:
    """Yield every order of a ground whose states may all be, on and off where either may be."""
    for groups in _partitions(list(range(len(ground.tasks)))):
        done, fits = 0, True
        ways: list[list[bool]] = []
        for group in groups:
            alone = len(group) == 1 and ground.running(done, group[0])
            ways.append([True, False] if alone else [True])
            done |= sum(1 << task for task in group)
            fits = fits and ground.allowed(done)
        if fits:
            for offs in itertools.product(*ways):
                yield [Move(tuple(g), off) for g, off in zip(groups, offs, strict=True)]


def _partitions(tasks: Sequence[int]) -> Iterator[list[list[int]]]:
    if not tasks:
        yield []
    for number in range(1, len(tasks) + 1):
        for group in itertools.combinations(tasks, number):
            rest = [task for task in tasks if task not in group]
            yield from ([list(group), *others] for others in _partitions(rest))


def cost_of(ground: Ground, moves: Sequence[Move]) -> Cost:
    """Return what an order costs, counted from its states and not step by step."""
    states = [0]
    for move in moves:
        states.append(states[-1] | sum(1 << task for task in move.tasks))
    offs = [False, *(move.off for move in moves)]
    running = 0
    for number, move in enumerate(moves, 1):
        if not move.off:
            running += ground.exposed(states[number])[0]
            if offs[number - 1]:
                running += ground.exposed(states[number - 1])[0]
    order = [(number, task) for number, move in enumerate(moves) for task in move.tasks]
    pairs = [(a, b) for (i, a), (j, b) in itertools.permutations(order, 2) if i < j]
    return (
        running,
        sum(now and not before for before, now in itertools.pairwise(offs)),
        sum((ground.tasks[t].time for m in moves if m.off for t in m.tasks), Fraction(0)),
        sum(len(move.tasks) - 1 for move in moves),
        sum(ground.exposed(s)[1] for s, move in zip(states[1:], moves, strict=True) if move.off),
        sum(ground.tasks[a].rank > ground.tasks[b].rank for a, b in pairs),
        sum(a > b for a, b in pairs),
    )

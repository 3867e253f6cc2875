"""Exact counts over a compiled form.

The form is deterministic, so every build is one way through it: the builds below a state are the
products of those below the two states of each of its arcs, added up. All numbers are computed
modulo several primes whose product is larger than the count, which is put together from its
residues.

Without a limit one pass over the arcs is enough. With limits there is a pass for each total that
builds can have, each at another point (see ``layout``); they go on at the same time, in stretches
of points, between which the deadline is looked at.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from typing import TypeAlias

import numpy as np

from baywright.engines.contract import OutOfTime
from baywright.engines.diagram.compiled import Carried
from baywright.engines.diagram.evaluating import BLOCK, shared, summed, turned_back
from baywright.engines.diagram.form import Form
from baywright.engines.diagram.layout import Layout, TooWide, laid_out, more_than
from baywright.engines.diagram.passes import ways_below, ways_beside
from baywright.engines.diagram.projecting import counted_apart
from baywright.engines.diagram.residues import Circle, circles_beyond, from_residues, primes_beyond
from baywright.engines.loops import Flags, Longs
from baywright.engines.preparation import Deadline

THREADS = min(4, os.cpu_count() or 1)
"""Stretches of points worked on at a time; each needs room for all states."""

_STRETCH = 200_000_000
"""Arcs times points that are worked on between two looks at the clock: about 20 ms."""

_FASTEST = 5e10
"""Arcs times points a second that no thread passes; a count that would need more is not begun."""

Evaluated: TypeAlias = Callable[[Circle, int, int], int | Longs]
"""A loop that adds up what the points of a circle give, from one to the one before another."""


def counted(form: Form, limits: Sequence[Carried], allowed: Flags, deadline: Deadline) -> int:
    """Return the number of builds of a form that keep some limits, using allowed values alone.

    Raises:
        OutOfTime: at the deadline, or at once when it cannot be kept.
    """
    if not form.states:
        return 0
    if not limits:
        return _freely_counted(form, allowed)
    try:
        layout = laid_out(form, limits, allowed)
    except TooWide:
        return _counted_one_by_one(form, limits, allowed, deadline)
    if layout is None:
        return 0
    found = _Evaluation(layout, limits, deadline).means(partial(summed, layout.plan))
    return from_residues((prime for prime, _ in found), (int(mean) for _, mean in found))


def counted_values(
    form: Form, limits: Sequence[Carried], allowed: Flags, deadline: Deadline
) -> list[int]:
    """Return for each value how many builds have it, of those that keep some limits.

    This takes about three times as long as one count, however many values there are.

    Raises:
        OutOfTime: at the deadline, or at once when it cannot be kept.
        TooWide: when the limits have too many totals to be evaluated.
    """
    if not form.states:
        return [0] * len(allowed)
    if not limits:
        return _freely_counted_values(form, allowed)
    numbers = [0] * len(allowed)
    layout = laid_out(form, limits, allowed)
    if layout is not None:
        arcs = np.concatenate([layout.plan.fixed, layout.plan.arcs])
        evaluated = partial(shared, layout.plan, turned_back(arcs))
        found = _Evaluation(layout, limits, deadline).means(evaluated)
        primes = [prime for prime, _ in found]
        columns = np.stack([means for _, means in found], axis=1)
        for value, residues in zip(layout.values.tolist(), columns.tolist(), strict=True):
            numbers[value] = from_residues(primes, residues)
    return numbers


def _freely_counted(form: Form, allowed: Flags) -> int:
    primes = primes_beyond(more_than(form, form.arcs, allowed))
    ways = (ways_below(form.arcs, form.state_of, allowed, form.states, p) for p in primes)
    return from_residues(primes, (int(below[form.root]) for below in ways))


def _freely_counted_values(form: Form, allowed: Flags) -> list[int]:
    """Return for each value how many builds of a form have it: those beside the state it has."""
    primes = primes_beyond(more_than(form, form.arcs, allowed))
    below = (ways_below(form.arcs, form.state_of, allowed, form.states, p) for p in primes)
    beside = [ways_beside(form.arcs, ways, p) for ways, p in zip(below, primes, strict=True)]
    states = np.unique(form.state_of[form.state_of >= 0])
    columns = np.stack([ways[states] for ways in beside], axis=1).tolist()
    of_state = {
        state: from_residues(primes, column)
        for state, column in zip(states.tolist(), columns, strict=True)
    }
    return [
        of_state[state] if may and state >= 0 else 0
        for state, may in zip(form.state_of.tolist(), allowed.tolist(), strict=True)
    ]


def _counted_one_by_one(
    form: Form, limits: Sequence[Carried], allowed: Flags, deadline: Deadline
) -> int:
    """Count the totals that occur, one by one, where there may be too many of them to evaluate."""
    if len(limits) > 1:
        raise OutOfTime(f"{_named(limits)} have too many totals to count at the same time")
    (limit,) = limits
    return counted_apart(form, frozenset(), limit.weights, limit.at_most, allowed, deadline)


def _named(limits: Sequence[Carried]) -> str:
    return " and ".join(limit.keys[0] for limit in limits)


@dataclass(frozen=True, slots=True)
class _Evaluation:
    """The evaluation of a count.

    Args:
        layout: the count.
        limits: its limits.
        deadline: when to stop.
    """

    layout: Layout
    limits: Sequence[Carried]
    deadline: Deadline

    def means(self, evaluated: Evaluated) -> list[tuple[int, Longs]]:
        """Return the mean over all points modulo each prime that the count needs, with the prime.

        Raises:
            OutOfTime: at the deadline, or at once when it cannot be kept.
        """
        layout = self.layout
        circles = circles_beyond(layout.more, layout.points, layout.strides)
        self._check_hope(sum(circle.points for circle in circles))
        stretches = list(self._stretches(circles))

        def part(number: int) -> int | Longs:
            self._check_time(number / len(stretches))
            return evaluated(*stretches[number])

        with ThreadPoolExecutor(THREADS) as pool:
            parts = list(pool.map(part, range(len(stretches))))
        of_circle: dict[Circle, list[int | Longs]] = {circle: [] for circle in circles}
        for (circle, _, _), found in zip(stretches, parts, strict=True):
            of_circle[circle].append(found)
        return [(circle.prime, _mean(circle, found)) for circle, found in of_circle.items()]

    def _stretches(self, circles: Sequence[Circle]) -> Iterator[tuple[Circle, int, int]]:
        """Yield circles, each with the numbers of a first point and of the one after a last."""
        length = BLOCK * max(1, _STRETCH // (self.layout.plan.work * BLOCK))
        for circle in circles:
            for first in range(0, circle.points, length):
                yield circle, first, min(first + length, circle.points)

    def _check_hope(self, points: int) -> None:
        seconds = self.layout.plan.work * points / _FASTEST / THREADS
        if seconds > self.deadline.left:
            raise OutOfTime(f"{self._said}, which would take more than {seconds:,.1f} s")

    def _check_time(self, done: float) -> None:
        if not self.deadline.left:
            raise OutOfTime(f"{self._said}, of which {done:.0%} was done")

    @property
    def _said(self) -> str:
        """What is being done, and what is known of the number already."""
        digits = len(str(self.layout.more))
        return f"counting fewer than 10^{digits} builds under {_named(self.limits)}"


def _mean(circle: Circle, parts: Sequence[int | Longs]) -> Longs:
    total: Longs = np.sum(np.array(parts), axis=0) % circle.prime
    mean: Longs = total * pow(circle.points, -1, circle.prime) % circle.prime
    return mean

"""Exact counts over a compiled form.

The form is deterministic, so every build is one way through it: the builds below a state are the
products of those below the two states of each of its arcs, added up.

With a budget the numbers become polynomials, one coefficient for each total weight. They are
computed modulo several primes whose product is larger than any coefficient can be, and the count is
put together from its residues.
"""

from __future__ import annotations

import math
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np

from baywright.engines.diagram.centring import Centred, centred
from baywright.engines.diagram.form import Form
from baywright.engines.diagram.passes import downwards, upwards, ways_below, ways_roughly
from baywright.engines.diagram.polynomials import Terms, multiplied, summed
from baywright.engines.diagram.residues import from_residues, primes_beyond
from baywright.engines.loops import Flags, Ids, Longs
from baywright.engines.preparation import Deadline

THREADS = 2
"""Primes worked on at a time."""


def counted(form: Form, allowed: Flags) -> int:
    """Return the number of builds of a form without a budget, using allowed values alone."""
    if not form.states:
        return 0
    primes = primes_beyond(more_than(form, allowed))
    ways = (ways_below(form.arcs, form.state_of, allowed, form.states, p) for p in primes)
    return from_residues(primes, (int(below[form.root]) for below in ways))


def more_than(form: Form, allowed: Flags) -> int:
    """Return a number that is greater than the number of builds."""
    rough = ways_roughly(form.arcs, form.state_of, allowed, form.states)
    if math.isfinite(rough):
        return 2 * int(rough) + 2
    return math.prod(np.diff(form.values).tolist())


@dataclass(frozen=True, slots=True)
class Weighing:
    """A form with a budget, prepared for counting.

    Args:
        form: the form.
        weights: the weight of each value, from 0.
        at_most: the bound.
        centre: the form hung at its largest join, or ``None`` when it has none.
    """

    form: Form
    weights: Longs
    at_most: int
    centre: Centred | None


def weighing(form: Form, weights: Longs, at_most: int) -> Weighing:
    """Prepare a form for counting under a budget."""
    centre = centred(form, weights, at_most) if len(form.arcs) else None
    return Weighing(form, weights, at_most, centre)


def counted_within(weighed: Weighing, allowed: Flags, deadline: Deadline) -> int:
    """Return the number of builds whose weight is at most the bound.

    Raises:
        OutOfTime: at the deadline.
    """
    if weighed.centre is None or not weighed.form.states:
        return counted(weighed.form, allowed & (weighed.weights <= weighed.at_most))
    live = live_part(weighed, weighed.centre, allowed)
    primes = primes_beyond(more_than(weighed.form, allowed))
    with ThreadPoolExecutor(THREADS) as pool:
        residues = pool.map(lambda p: _count_modulo(live, weighed.at_most, p, deadline), primes)
        return from_residues(primes, residues)


@dataclass(frozen=True, slots=True)
class Live:
    """What takes part in one count.

    Args:
        steps: arcs in the order of work, without those that no build within the bound takes.
        middle: arcs of the join in the middle, likewise.
        most: the greatest weight that matters there.
        leaves: rows of the state, the weight and the number of the values that may be used.
    """

    steps: tuple[Ids, ...]
    middle: Ids
    most: Longs
    leaves: Longs


def live_part(weighed: Weighing, centre: Centred, allowed: Flags) -> Live:
    """Leave out what no build within the bound uses."""
    form, at_most = weighed.form, weighed.at_most
    up, down = np.empty(form.states, np.int64), np.empty(form.states, np.int64)
    upwards(form.arcs, len(allowed), form.state_of, weighed.weights, allowed, up)
    downwards(form.arcs, up, down)
    least, most = np.concatenate([up, down]), at_most - np.concatenate([down, up])
    live = least <= most
    used = np.flatnonzero(allowed.view(np.bool_) & (form.state_of >= 0))
    rows = np.stack([form.state_of[used].astype(np.int64), weighed.weights[used]], axis=1)
    pairs, counts = np.unique(rows, axis=0, return_counts=True)
    leaves = np.column_stack([pairs, counts])
    return Live(
        tuple(arcs[live[arcs].all(axis=1)] for arcs in centre.steps),
        centre.middle[live[centre.middle].all(axis=1)],
        np.where(live, most, -1),
        leaves[leaves[:, 1] <= most[leaves[:, 0]]],
    )


def _count_modulo(live: Live, at_most: int, prime: int, deadline: Deadline) -> int:
    states = len(live.most)
    terms, used = leaf_terms(live, states)
    for arcs in live.steps:
        deadline.check()
        terms, used = multiplied(arcs, terms, used, live.most, prime)
    deadline.check()
    return int(summed(live.middle, terms, at_most, prime))


def leaf_terms(live: Live, states: int) -> tuple[Terms, int]:
    """Return the polynomials of the leaves, and that of the outside of the root, which is 1."""
    root = np.array([[states - 1, 0, 1]])
    rows = np.concatenate([live.leaves, root])
    begins = np.searchsorted(rows[:, 0], np.arange(states)).astype(np.int64)
    ends = np.searchsorted(rows[:, 0], np.arange(states), side="right").astype(np.int64)
    weights, counts = np.ascontiguousarray(rows[:, 1]), np.ascontiguousarray(rows[:, 2])
    return Terms(begins, ends, weights, counts), len(rows)

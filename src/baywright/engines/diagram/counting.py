"""Exact counts over a compiled form.

The form is deterministic, so every build is one way through it: the builds below a state are the
products of those below the two states of each of its arcs, added up.

With a budget the numbers become polynomials, one coefficient for each total weight. They are
computed modulo several primes whose product is larger than any coefficient can be, and the count is
put together from its residues (Chinese remainder theorem), so nothing is rounded or overflows.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np

from baywright.engines.diagram.centring import Centred, centred
from baywright.engines.diagram.form import Form
from baywright.engines.diagram.loops import Flags, Ids, Longs
from baywright.engines.diagram.passes import downwards, upwards, ways_modulo, ways_roughly
from baywright.engines.diagram.polynomials import PRIME_BITS, Terms, multiplied, summed
from baywright.engines.preparation import Deadline

_PRIMES: list[int] = []
"""The largest primes of ``PRIME_BITS`` bits, found when they are first needed."""

_THREADS = 2


def counted(form: Form, allowed: Flags) -> int:
    """Return the number of builds of a form without a budget, using allowed values alone."""
    if not form.states:
        return 0
    primes = _primes_beyond(_more_than(form, allowed))
    ways = (ways_modulo(form.arcs, form.state_of, allowed, form.states, p) for p in primes)
    return _from_residues(primes, ways)


def _more_than(form: Form, allowed: Flags) -> int:
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
    live = _live(weighed, weighed.centre, allowed)
    primes = _primes_beyond(_more_than(weighed.form, allowed))
    with ThreadPoolExecutor(_THREADS) as pool:
        residues = pool.map(lambda p: _count_modulo(live, weighed.at_most, p, deadline), primes)
        return _from_residues(primes, residues)


def _primes_beyond(most: int) -> list[int]:
    """Return primes of ``PRIME_BITS`` bits whose product is greater than a number."""
    count = most.bit_length() // (PRIME_BITS - 1) + 1
    while len(_PRIMES) < count:
        number = _PRIMES[-1] - 2 if _PRIMES else (1 << PRIME_BITS) - 1
        while not all(number % divisor for divisor in range(3, math.isqrt(number) + 1, 2)):
            number -= 2
        _PRIMES.append(number)
    return _PRIMES[:count]


def _from_residues(primes: Iterable[int], residues: Iterable[int]) -> int:
    """Return the number below the product of some primes that has these residues."""
    number, modulus = 0, 1
    for prime, residue in zip(primes, residues, strict=True):
        number += modulus * ((residue - number) * pow(modulus, -1, prime) % prime)
        modulus *= prime
    return number


@dataclass(frozen=True, slots=True)
class _Live:
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


def _live(weighed: Weighing, centre: Centred, allowed: Flags) -> _Live:
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
    return _Live(
        tuple(arcs[live[arcs].all(axis=1)] for arcs in centre.steps),
        centre.middle[live[centre.middle].all(axis=1)],
        np.where(live, most, -1),
        leaves[leaves[:, 1] <= most[leaves[:, 0]]],
    )


def _count_modulo(live: _Live, at_most: int, prime: int, deadline: Deadline) -> int:
    states = len(live.most)
    terms, used = _leaf_terms(live, states)
    for arcs in live.steps:
        deadline.check()
        terms, used = multiplied(arcs, terms, used, live.most, prime)
    deadline.check()
    return int(summed(live.middle, terms, at_most, prime))


def _leaf_terms(live: _Live, states: int) -> tuple[Terms, int]:
    """Return the polynomials of the leaves, and that of the outside of the root, which is 1."""
    root = np.array([[states - 1, 0, 1]])
    rows = np.concatenate([live.leaves, root])
    begins = np.searchsorted(rows[:, 0], np.arange(states)).astype(np.int64)
    ends = np.searchsorted(rows[:, 0], np.arange(states), side="right").astype(np.int64)
    weights, counts = np.ascontiguousarray(rows[:, 1]), np.ascontiguousarray(rows[:, 2])
    return Terms(begins, ends, weights, counts), len(rows)

"""How many builds have each value, for all values at once.

Without a budget the builds with a value are those beside the state of its leaf: one pass up and one
down. With a budget, a count is made in polynomials as always and then followed back to the leaves,
which takes two to three times as long as the count, however many values there are.
"""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor

import numpy as np
from numpy.typing import NDArray

from baywright.engines.diagram.counting import (
    THREADS,
    Live,
    Weighing,
    leaf_terms,
    live_part,
    more_than,
)
from baywright.engines.diagram.form import Form
from baywright.engines.diagram.passes import ways_below, ways_beside
from baywright.engines.diagram.polynomials import multiplied
from baywright.engines.diagram.residues import from_residues, primes_beyond
from baywright.engines.diagram.returning import ways_back, ways_in_middle
from baywright.engines.loops import Flags, Longs
from baywright.engines.preparation import Deadline


def counted_values(form: Form, allowed: Flags) -> list[int]:
    """Return for each value how many builds of a form without a budget have it."""
    if not form.states:
        return [0] * len(allowed)
    primes = primes_beyond(more_than(form, allowed))
    below = (ways_below(form.arcs, form.state_of, allowed, form.states, p) for p in primes)
    beside = [ways_beside(form.arcs, ways, p) for ways, p in zip(below, primes, strict=True)]
    of_state = _numbers(primes, beside, np.unique(form.state_of[form.state_of >= 0]))
    return [
        of_state[state] if state >= 0 and may else 0
        for state, may in zip(form.state_of.tolist(), allowed.tolist(), strict=True)
    ]


def counted_values_within(weighed: Weighing, allowed: Flags, deadline: Deadline) -> list[int]:
    """Return for each value how many builds within the bound have it.

    Raises:
        OutOfTime: at the deadline.
    """
    form = weighed.form
    if weighed.centre is None or not form.states:
        return counted_values(form, allowed & (weighed.weights <= weighed.at_most))
    live = live_part(weighed, weighed.centre, allowed)
    primes = primes_beyond(more_than(form, allowed))
    with ThreadPoolExecutor(THREADS) as pool:
        ways = list(pool.map(lambda p: _ways(live, weighed.at_most, p, deadline), primes))
    numbers = _numbers(primes, ways, np.arange(len(live.leaves)))
    leaves = {(s, w): numbers[row] for row, (s, w, _) in enumerate(live.leaves.tolist())}
    states, weights = form.state_of.tolist(), weighed.weights.tolist()
    return [
        leaves.get((state, weight), 0) if may else 0
        for state, weight, may in zip(states, weights, allowed.tolist(), strict=True)
    ]


def _ways(live: Live, at_most: int, prime: int, deadline: Deadline) -> Longs:
    """Return for each row of the leaves how many builds one of its values has, modulo a prime."""
    terms, used = leaf_terms(live, len(live.most))
    for arcs in live.steps:
        deadline.check()
        terms, used = multiplied(arcs, terms, used, live.most, prime)
    deadline.check()
    ways = np.zeros(used, np.int64)
    ways_in_middle(live.middle, terms, at_most, prime, ways)
    for arcs in reversed(live.steps):
        deadline.check()
        ways_back(arcs, terms, live.most, prime, ways)
    return ways[: len(live.leaves)]


def _numbers(
    primes: Sequence[int], residues: Sequence[Longs], places: NDArray[np.integer]
) -> dict[int, int]:
    """Put the numbers at some places together from their residues."""
    columns = np.stack([of_prime[places] for of_prime in residues], axis=1).tolist()
    return {
        place: from_residues(primes, column)
        for place, column in zip(places.tolist(), columns, strict=True)
    }

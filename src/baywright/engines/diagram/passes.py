"""Passes over the arcs: what every question about a compiled form comes down to.

Upwards, each state gets the least weight of anything below it; downwards, the least weight of
anything beside and above it. The sum of the two is the least weight of a build through the state,
so a value is possible exactly when this, with the value's own weight, keeps the bound. This is
exact for one sum of which the diagram knows nothing else.
"""

from __future__ import annotations

import numpy as np

from baywright.engines.loops import Doubles, Flags, Ids, Longs, compiled

LARGEST = 1 << 58
"""The greatest total that a sum of weights may have."""

NEVER = np.int64(1) << 60
"""A weight above all weights that occur; two of them still fit into 64 bits."""


@compiled
def upwards(
    arcs: Ids, values: int, state_of: Ids, weights: Longs, allowed: Flags, up: Longs
) -> None:
    """Write the least weight below each state, ``NEVER`` where there is nothing.

    Args:
        arcs: the arcs of the form.
        values: number of values.
        state_of: the state of each value.
        weights: the weight of each value.
        allowed: which values may be used.
        up: for each state, written.
    """
    up[:] = NEVER
    for value in range(values):
        if allowed[value] and state_of[value] >= 0:
            up[state_of[value]] = min(up[state_of[value]], weights[value])
    for arc in range(len(arcs)):
        weight = up[arcs[arc, 0]] + up[arcs[arc, 1]]
        up[arcs[arc, 2]] = min(up[arcs[arc, 2]], weight)


@compiled
def downwards(arcs: Ids, up: Longs, down: Longs) -> None:
    """Write the least weight beside and above each state, ``NEVER`` where no build goes through.

    Args:
        arcs: the arcs of the form.
        up: the least weight below each state.
        down: for each state, written.
    """
    down[:] = NEVER
    down[-1] = 0
    for arc in range(len(arcs) - 1, -1, -1):
        left, right = arcs[arc, 0], arcs[arc, 1]
        above = down[arcs[arc, 2]]
        down[left] = min(down[left], above + up[right])
        down[right] = min(down[right], above + up[left])


@compiled
def possible_values(
    arcs: Ids,
    state_of: Ids,
    weights: Longs,
    allowed: Flags,
    at_most: int,
    up: Longs,
    down: Longs,
    possible: Flags,
) -> None:
    """Write for each value whether some build within the bound has it.

    Args:
        arcs: the arcs of the form.
        state_of: the state of each value.
        weights: the weight of each value.
        allowed: which values may be used.
        at_most: the bound, below ``NEVER``.
        up: for each state, written.
        down: for each state, written.
        possible: for each value, written.
    """
    upwards(arcs, len(state_of), state_of, weights, allowed, up)
    downwards(arcs, up, down)
    for value in range(len(state_of)):
        state = state_of[value]
        possible[value] = allowed[value] and state >= 0 and down[state] + weights[value] <= at_most


@compiled
def ways_below(arcs: Ids, state_of: Ids, allowed: Flags, states: int, prime: int) -> Longs:
    """Return how many assignments there are below each state, modulo a prime below 2**31.

    Args:
        arcs: the arcs of the form.
        state_of: the state of each value.
        allowed: which values may be used.
        states: number of states.
        prime: the prime.
    """
    below = np.zeros(states, np.int64)
    for value in range(len(state_of)):
        if allowed[value] and state_of[value] >= 0:
            below[state_of[value]] += 1
    for arc in range(len(arcs)):
        ways = below[arcs[arc, 0]] * below[arcs[arc, 1]]
        if ways:
            below[arcs[arc, 2]] = (below[arcs[arc, 2]] + ways) % prime
    return below


@compiled
def ways_beside(arcs: Ids, below: Longs, prime: int) -> Longs:
    """Return how many assignments there are of everything not below each state, modulo a prime.

    Args:
        arcs: the arcs of the form.
        below: how many there are below each state.
        prime: the prime.
    """
    beside = np.zeros(len(below), np.int64)
    beside[-1] = 1
    for arc in range(len(arcs) - 1, -1, -1):
        left, right = arcs[arc, 0], arcs[arc, 1]
        above = beside[arcs[arc, 2]]
        if above:
            beside[left] = (beside[left] + above * below[right]) % prime
            beside[right] = (beside[right] + above * below[left]) % prime
    return beside


@compiled
def ways_roughly(arcs: Ids, state_of: Ids, allowed: Flags, states: int) -> float:
    """Return the number of builds as a floating-point number, infinite when it is too large.

    All that is added and multiplied is 0 or more, so the relative error is at most about the number
    of choices and arcs above one another times the precision of such a number.
    """
    below = np.zeros(states, np.float64)
    for value in range(len(state_of)):
        if allowed[value] and state_of[value] >= 0:
            below[state_of[value]] += 1.0
    for arc in range(len(arcs)):
        below[arcs[arc, 2]] += below[arcs[arc, 0]] * below[arcs[arc, 1]]
    return float(below[-1])


@compiled
def log_ways(arcs: Ids, state_of: Ids, allowed: Flags, weights: Doubles, states: int) -> float:
    """Return the logarithm of the sum, over all builds, of e to the power of their weight.

    Args:
        arcs: the arcs of the form, or some of them.
        state_of: the state of each value.
        allowed: which values may be used.
        weights: the weight of each value, none above 0.
        states: number of states.
    """
    below = np.full(states, -np.inf)
    for value in range(len(state_of)):
        if allowed[value] and state_of[value] >= 0:
            below[state_of[value]] = np.logaddexp(below[state_of[value]], weights[value])
    for arc in range(len(arcs)):
        both = below[arcs[arc, 0]] + below[arcs[arc, 1]]
        below[arcs[arc, 2]] = np.logaddexp(below[arcs[arc, 2]], both)
    return float(below[-1])

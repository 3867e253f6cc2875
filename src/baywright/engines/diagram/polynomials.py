"""Polynomials modulo a prime, kept sparse: the loops of a count under a budget.

A polynomial says how many assignments there are of each total weight. Its terms are kept with
rising weights; the polynomials of all states stand one after the other.

Residues of coefficients are kept from 1 to the prime, not from 0 to the prime less 1. So there is a
term exactly for each weight that some assignment has, whatever the prime, even where the prime
happens to divide the number of assignments.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from baywright.engines.loops import Ids, Longs, compiled

REDUCE = 127
"""Products of two residues that can be added in 64 bits before they have to be reduced."""


class Terms(NamedTuple):
    """Sparse polynomials.

    Args:
        begins: for each state, where its terms begin.
        ends: for each state, where they end.
        weights: the weight of each term.
        counts: its coefficient modulo the prime, from 1 to the prime.
    """

    begins: Longs
    ends: Longs
    weights: Longs
    counts: Longs


class Scratch(NamedTuple):
    """Room for dense polynomials, all 0 between uses, and for the terms of one.

    Args:
        total: a coefficient for each weight.
        bundle: the same for another polynomial.
        weights: weights of terms.
        counts: coefficients of terms.
    """

    total: Longs
    bundle: Longs
    weights: Longs
    counts: Longs


@compiled
def scratch(most: int) -> Scratch:
    """Return room for polynomials up to a weight."""
    return Scratch(
        np.zeros(most + 1, np.int64),
        np.zeros(most + 1, np.int64),
        np.empty(most + 1, np.int64),
        np.empty(most + 1, np.int64),
    )


@compiled
def multiplied(arcs: Ids, terms: Terms, used: int, most: Longs, prime: int) -> tuple[Terms, int]:
    """Give polynomials to the states that arcs make: products of the two sides, added up.

    Args:
        arcs: rows of one side, the other side and the state made, sorted by the last two.
        terms: the polynomials so far.
        used: number of terms so far.
        most: the greatest weight that matters at each state.
        prime: the prime.

    Returns:
        The polynomials, in larger arrays when they did not fit; and the number of terms.
    """
    room = scratch(int(np.max(most)))
    total = room.total
    arc = 0
    while arc < len(arcs):
        made = arcs[arc, 2]
        high = most[made]
        low, top = high + 1, -1
        added = 0
        while arc < len(arcs) and arcs[arc, 2] == made:
            other = arcs[arc, 1]
            after = arc + 1
            while after < len(arcs) and arcs[after, 2] == made and arcs[after, 1] == other:
                after += 1
            length = bundled(arcs[arc:after], terms, high, room, prime)
            weights, counts = room.weights[:length], room.counts[:length]
            begin, end = terms.begins[other], terms.ends[other]
            second, third = terms.weights[begin:end], terms.counts[begin:end]
            if length and len(second):
                low = min(low, weights[0] + second[0])
                top = max(top, min(high, weights[-1] + second[-1]))
            if length < len(second):
                added = _convolved(weights, counts, second, third, total, high, added, prime)
            else:
                added = _convolved(second, third, weights, counts, total, high, added, prime)
            arc = after
        if used + top - low + 1 > len(terms.weights):
            terms = _larger(terms, used + top - low + 1)
        terms.begins[made] = used
        for weight in range(low, top + 1):
            if total[weight]:
                terms.weights[used] = weight
                terms.counts[used] = (total[weight] - 1) % prime + 1
                total[weight] = 0
                used += 1
        terms.ends[made] = used
    return terms, used


@compiled
def bundled(arcs: Ids, terms: Terms, high: int, room: Scratch, prime: int) -> int:
    """Add the polynomials of the first side of some arcs, up to a weight.

    Returns:
        The number of terms, which are written to the scratch room.
    """
    bundle = room.bundle
    low, top = high + 1, -1
    for arc in range(len(arcs)):
        for place in range(terms.begins[arcs[arc, 0]], terms.ends[arcs[arc, 0]]):
            weight = terms.weights[place]
            if weight > high:
                break
            bundle[weight] += terms.counts[place]
            low, top = min(low, weight), max(top, weight)
    used = 0
    for weight in range(low, top + 1):
        if bundle[weight]:
            room.weights[used] = weight
            room.counts[used] = (bundle[weight] - 1) % prime + 1
            bundle[weight] = 0
            used += 1
    return used


@compiled
def _convolved(
    few: Longs,
    few_counts: Longs,
    many: Longs,
    many_counts: Longs,
    total: Longs,
    high: int,
    added: int,
    prime: int,
) -> int:
    """Add a product of two polynomials to a dense one, up to a weight.

    Args:
        few: weights of the one with fewer terms.
        few_counts: its coefficients.
        many: weights of the other one.
        many_counts: its coefficients.
        total: the dense one.
        high: the greatest weight that matters.
        added: products added to one coefficient since it was last reduced.
        prime: the prime.

    Returns:
        ``added`` afterwards.
    """
    for one in range(len(few)):
        if added == REDUCE:
            for weight in range(high + 1):
                if total[weight]:
                    total[weight] = (total[weight] - 1) % prime + 1
            added = 1
        shift, count = few[one], few_counts[one]
        for other in range(len(many)):
            weight = shift + many[other]
            if weight > high:
                break
            total[weight] += count * many_counts[other]
        added += 1
    return added


@compiled
def _larger(terms: Terms, least: int) -> Terms:
    """Return the same polynomials in larger arrays."""
    room = max(2 * len(terms.weights), least)
    weights, counts = np.empty(room, np.int64), np.empty(room, np.int64)
    for place in range(len(terms.weights)):
        weights[place], counts[place] = terms.weights[place], terms.counts[place]
    return Terms(terms.begins, terms.ends, weights, counts)


@compiled
def summed(arcs: Ids, terms: Terms, at_most: int, prime: int) -> int:
    """Return how many ways three sides have together to weigh at most a bound, added over arcs.

    Args:
        arcs: rows of three states, sorted by the last two.
        terms: the polynomials.
        at_most: the bound.
        prime: the prime; the result is modulo this.
    """
    upto, room = np.zeros(at_most + 1, np.int64), scratch(at_most)
    result = 0
    arc = 0
    while arc < len(arcs):
        second, third = arcs[arc, 1], arcs[arc, 2]
        after = arc + 1
        while after < len(arcs) and arcs[after, 1] == second and arcs[after, 2] == third:
            after += 1
        length = bundled(arcs[arc:after], terms, at_most, room, prime)
        arc = after
        if length:
            add_up(room.weights[:length], room.counts[:length], upto, prime)
            result += _paired(terms, second, third, upto, room.weights[0], prime)
            result %= prime
    return result


@compiled
def add_up(weights: Longs, counts: Longs, upto: Longs, prime: int) -> None:
    """Write for each weight how many ways there are to weigh at most that."""
    count = 0
    weight = weights[0]
    for place in range(len(weights)):
        while weight < weights[place]:
            upto[weight] = count
            weight += 1
        count = (count + counts[place]) % prime
    for rest in range(weight, len(upto)):
        upto[rest] = count


@compiled
def _paired(terms: Terms, second: int, third: int, upto: Longs, least: int, prime: int) -> int:
    """Return the ways of two states and of a third side, of which ``upto`` tells the sums."""
    last = len(upto) - 1
    result = 0
    for one in range(terms.begins[second], terms.ends[second]):
        room = last - terms.weights[one]
        ways, added = 0, 0
        for other in range(terms.begins[third], terms.ends[third]):
            left = room - terms.weights[other]
            if left < least:
                break
            ways += terms.counts[other] * upto[left]
            added += 1
            if added == REDUCE:
                ways, added = ways % prime, 1
        result = (result + ways % prime * terms.counts[one]) % prime
    return result

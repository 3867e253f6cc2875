"""From a count back to its parts: how many builds each term of each polynomial takes part in.

A count under a budget is a sum of products in which each value of each choice stands once at most.
So what it becomes with one value alone is a partial derivative, and all of them together come from
one pass back over the products, each of which hands on what it was multiplied by (reverse
accumulation, Linnainmaa 1970, cited from memory). The work is about twice that of the count.
"""

from __future__ import annotations

import numpy as np

from baywright.engines.diagram.polynomials import REDUCE, Scratch, Terms, add_up, bundled, scratch
from baywright.engines.loops import Ids, Longs, compiled


@compiled
def ways_in_middle(arcs: Ids, terms: Terms, at_most: int, prime: int, ways: Longs) -> None:
    """Write how many ways each term of the three sides in the middle has to be completed.

    Args:
        arcs: rows of three states that make whole builds, sorted by the last two.
        terms: the polynomials.
        at_most: the bound of the three together.
        prime: the prime; the ways are modulo this.
        ways: for each term, added to.
    """
    upto, pairs = np.zeros(at_most + 1, np.int64), np.zeros(at_most + 1, np.int64)
    room = scratch(at_most)
    arc = 0
    while arc < len(arcs):
        second, third = arcs[arc, 1], arcs[arc, 2]
        after = arc + 1
        while after < len(arcs) and arcs[after, 1] == second and arcs[after, 2] == third:
            after += 1
        length = bundled(arcs[arc:after], terms, at_most, room, prime)
        if length:
            add_up(room.weights[:length], room.counts[:length], upto, prime)
            _pair(terms, second, third, upto, room.weights[0], prime, ways, pairs)
            _hand_on(arcs[arc:after], terms, pairs, prime, ways)
        arc = after


@compiled
def _pair(
    terms: Terms,
    second: int,
    third: int,
    upto: Longs,
    least: int,
    prime: int,
    ways: Longs,
    pairs: Longs,
) -> None:
    """Pair the terms of two states; write the ways of each, and the pairs up to each weight.

    Args:
        terms: the polynomials.
        second: one state.
        third: the other state.
        upto: how many ways the first side has to weigh at most so much.
        least: the least that it weighs.
        prime: the prime.
        ways: for each term, added to.
        pairs: for each weight, written: how many pairs weigh at most that.
    """
    pairs[:] = 0
    last = len(upto) - 1
    begin, end = terms.begins[third], terms.ends[third]
    added = 0
    for one in range(terms.begins[second], terms.ends[second]):
        if added == REDUCE - 1:
            ways[begin:end] %= prime
            pairs %= prime
            added = 0
        room, count = last - terms.weights[one], terms.counts[one]
        mine, since = 0, 0
        for other in range(begin, end):
            left = room - terms.weights[other]
            if left < least:
                break
            mine += terms.counts[other] * upto[left]
            ways[other] += count * upto[left]
            pairs[last - left] += count * terms.counts[other]
            since += 1
            if since == REDUCE - 1:
                mine, since = mine % prime, 0
        ways[one] = (ways[one] + mine) % prime
        added += 1
    ways[begin:end] %= prime
    count = 0
    for weight in range(last + 1):
        count = (count + pairs[weight]) % prime
        pairs[weight] = count


@compiled
def _hand_on(arcs: Ids, terms: Terms, pairs: Longs, prime: int, ways: Longs) -> None:
    """Add the ways of the first side of some arcs that have the other two in common."""
    last = len(pairs) - 1
    for arc in range(len(arcs)):
        for place in range(terms.begins[arcs[arc, 0]], terms.ends[arcs[arc, 0]]):
            if terms.weights[place] > last:
                break
            ways[place] = (ways[place] + pairs[last - terms.weights[place]]) % prime


@compiled
def ways_back(arcs: Ids, terms: Terms, most: Longs, prime: int, ways: Longs) -> None:
    """Write the ways of the terms that were multiplied, from those of the terms they made.

    Args:
        arcs: rows of one side, the other side and the state made, sorted by the last two.
        terms: the polynomials.
        most: the greatest weight that matters at each state.
        prime: the prime.
        ways: how many ways there are to complete each term; added to for the two sides.
    """
    room = scratch(int(np.max(most)))
    above = np.zeros(len(room.total), np.int64)
    arc = 0
    while arc < len(arcs):
        made, other = arcs[arc, 2], arcs[arc, 1]
        begin, end = terms.begins[made], terms.ends[made]
        if arc == 0 or arcs[arc - 1, 2] != made:
            above[:] = 0
            for place in range(begin, end):
                above[terms.weights[place]] = ways[place]
        after = arc + 1
        while after < len(arcs) and arcs[after, 2] == made and arcs[after, 1] == other:
            after += 1
        length = bundled(arcs[arc:after], terms, most[made], room, prime)
        _divide(terms, other, above, length, most[made], room, prime, ways)
        for each in range(arc, after):
            for place in range(terms.begins[arcs[each, 0]], terms.ends[arcs[each, 0]]):
                if terms.weights[place] > most[made]:
                    break
                ways[place] = (ways[place] + room.total[terms.weights[place]]) % prime
        arc = after


@compiled
def _divide(
    terms: Terms,
    other: int,
    above: Longs,
    length: int,
    high: int,
    room: Scratch,
    prime: int,
    ways: Longs,
) -> None:
    """Hand the ways of a product on to its sides: to one state, and to the bundle in the room.

    Args:
        terms: the polynomials.
        other: the state that was multiplied by the bundle.
        above: the ways of the product, by weight.
        length: number of terms of the bundle.
        high: the greatest weight that matters.
        room: holds the bundle; the ways of its terms are written to the total, by weight.
        prime: the prime.
        ways: for each term, added to for the state.
    """
    begin, end = terms.begins[other], terms.ends[other]
    added = 0
    for one in range(length):
        if added == REDUCE - 1:
            ways[begin:end] %= prime
            added = 0
        shift, count = room.weights[one], room.counts[one]
        mine, since = 0, 0
        for place in range(begin, end):
            weight = shift + terms.weights[place]
            if weight > high:
                break
            mine += terms.counts[place] * above[weight]
            ways[place] += count * above[weight]
            since += 1
            if since == REDUCE - 1:
                mine, since = mine % prime, 0
        room.total[shift] = mine % prime
        added += 1
    ways[begin:end] %= prime

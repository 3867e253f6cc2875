"""How large a join would be: exactly where it is small, from a sample of pairs where it is not."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from baywright.engines.diagram.cluster import Cluster
from baywright.engines.diagram.joining import Joiner
from baywright.engines.hashing import distinct_rows
from baywright.engines.loops import Ids

_EXACT = 30_000
"""Pairs of states up to which a join is made rather than estimated."""

_SAMPLE = 10_000
_DRAWN = np.random.default_rng(2_031).random((2, _SAMPLE))
"""Drawn once, so that the same space always gives the same tree."""


@dataclass(frozen=True, slots=True)
class Estimate:
    """How large a join is or would be.

    Args:
        states: number of new states.
        arcs: number of pairs that live.
        made: the join itself, when it was small enough to make.
    """

    states: float
    arcs: float
    made: Cluster | None = None


def estimate(joiner: Joiner, left: Cluster, right: Cluster) -> Estimate:
    """Return how large the join of two clusters is or would be."""
    if left.size * right.size <= _EXACT:
        made = joiner.join(left, right)
        return Estimate(made.size, made.cost - left.cost - right.cost, made)
    return _sampled(joiner, left, right)


def _sampled(joiner: Joiner, left: Cluster, right: Cluster) -> Estimate:
    """Estimate from random pairs: the share that lives, and how often they meet in one state."""
    a = (_DRAWN[0] * left.size).astype(np.int32)
    b = (_DRAWN[1] * right.size).astype(np.int32)
    shared = sorted(left.masks.keys() & right.masks.keys())
    left_columns, right_columns = left.columns(set(shared)), right.columns(set(shared))
    matrices = joiner.matrices(left, right, shared)
    alive = np.ones(_SAMPLE, np.bool_)
    marks: list[Ids] = []
    for place in range(len(shared)):
        flat = matrices.begins[place] + left.states[a, left_columns[place]] * matrices.widths[place]
        classes = matrices.flat[flat + right.states[b, right_columns[place]]]
        alive &= classes >= 0
        if matrices.remain[place]:
            marks.append(classes)
    marks += [left.states[a, c] for c in left.columns(set(left.masks) - set(shared))]
    marks += [right.states[b, c] for c in right.columns(set(right.masks) - set(shared))]
    rows = np.stack([*marks, np.zeros(_SAMPLE, np.int32)], axis=1)[alive]
    if not len(rows):
        return Estimate(1.0, 1.0)
    _, first = distinct_rows(np.ascontiguousarray(rows))
    arcs = left.size * right.size * len(rows) / _SAMPLE
    return Estimate(min(_occupied(len(rows), len(first)), arcs), arcs)


def _occupied(drawn: int, seen: int) -> float:
    """Return how many equally likely states there are when so many draws saw so many of them.

    Solves ``seen = n (1 - exp(-drawn / n))`` for n by bisection.
    """
    if seen >= drawn:
        return math.inf
    low, high = float(seen), float(seen) * drawn + 1.0
    for _ in range(60):
        middle = (low + high) / 2
        if -middle * math.expm1(-drawn / middle) < seen:
            low = middle
        else:
            high = middle
    return high

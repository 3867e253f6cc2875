"""In which order clusters are joined: always the join that grows least, by a score.

The tree of joins is the decomposition of the space, and making it is compiling the space.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from baywright.engines.diagram.cluster import Cluster
from baywright.engines.diagram.estimating import Estimate, estimate
from baywright.engines.diagram.joining import Joiner

_NEIGHBOURS = 8
"""How many of the clusters that share rules with a new one are looked at. Interchangeable parts
are all alike, and comparing every one with every other gains nothing."""


@dataclass(slots=True)
class Estimates:
    """Estimates remembered by pair of clusters, for all trees tried over the same leaves."""

    joiner: Joiner
    _known: dict[tuple[int, int], tuple[Cluster, Cluster, Estimate]] = field(default_factory=dict)
    _joined: dict[tuple[int, int], Cluster] = field(default_factory=dict)

    def __call__(self, left: Cluster, right: Cluster) -> Estimate:
        """Return the estimate of a join."""
        key = id(left), id(right)
        if key not in self._known:
            # The clusters are kept as well, so that no other one can get their identity.
            self._known[key] = left, right, estimate(self.joiner, left, right)
        return self._known[key][2]

    def join(self, left: Cluster, right: Cluster) -> Cluster:
        """Return the join itself."""
        key = id(left), id(right)
        if key not in self._joined:
            made = self(left, right).made
            self._joined[key] = made or self.joiner.join(left, right)
        return self._joined[key]


def joined(leaves: Sequence[Cluster], estimates: Estimates, affinity: float) -> Cluster:
    """Join clusters until one is left.

    Args:
        leaves: one cluster for each choice; at least one.
        estimates: sizes of joins.
        affinity: how much it counts that two clusters share most of their rules. A high number
            closes rules early, before the clusters take in what lies around them.

    Raises:
        TooHard: when a limit is reached.
    """
    round_ = _Round(estimates, affinity)
    for cluster in leaves:
        round_.add(cluster)
    return round_.run()


class _Round:
    """One greedy run: the clusters that live, and a heap of the joins that are looked at."""

    def __init__(self, estimates: Estimates, affinity: float) -> None:
        self._estimates = estimates
        self._affinity = affinity
        self._live: dict[int, Cluster] = {}
        self._on_rule: dict[int, set[int]] = {}
        self._heap: list[tuple[float, int, int]] = []
        self._number = 0

    def add(self, cluster: Cluster) -> None:
        """Let a cluster take part."""
        self._live[self._number] = cluster
        for rule in cluster.masks:
            self._on_rule.setdefault(rule, set()).add(self._number)
        self._number += 1

    def run(self) -> Cluster:
        """Join until one cluster is left, those that share no rule last, the smallest first."""
        every = len(self._live)
        self._tell(every)
        for number in list(self._live):
            self._look(number)
        while len(self._live) > 1:
            left, right = self._next()
            made = self._estimates.join(self._live[left], self._live[right])
            self._remove(left)
            self._remove(right)
            self.add(made)
            self._tell(every)
            self._look(self._number - 1)
        return next(iter(self._live.values()))

    def _tell(self, every: int) -> None:
        """Note how far it is, for the case that time runs out."""
        arcs = sum(cluster.cost for cluster in self._live.values())
        joined_ = every - len(self._live)
        doing = f"joined {joined_:,} of {every:,} clusters, {arcs:,} arcs"
        self._estimates.joiner.watch.doing = doing

    def _next(self) -> tuple[int, int]:
        while self._heap:
            _, left, right = heapq.heappop(self._heap)
            if left in self._live and right in self._live:
                return left, right
        for number in self._live:
            self._look(number)
        if self._heap:
            return self._next()
        left, right = sorted(self._live, key=lambda n: (self._live[n].size, n))[:2]
        return left, right

    def _remove(self, number: int) -> None:
        for rule in self._live.pop(number).masks:
            self._on_rule[rule].discard(number)

    def _look(self, number: int) -> None:
        """Score the joins of a cluster with the neighbours that promise most.

        A rule that few clusters share binds them closely, and a small neighbour makes a small join.
        """
        ratings: dict[int, float] = {}
        for rule in self._live[number].masks:
            others = self._on_rule[rule]
            for other in others:
                if other != number:
                    ratings[other] = ratings.get(other, 0.0) + 1.0 / (len(others) - 1)
        best = sorted(ratings, key=lambda n: (-ratings[n] / math.log(self._live[n].size + 2), n))
        for other in best[:_NEIGHBOURS]:
            left, right = min(number, other), max(number, other)
            heapq.heappush(self._heap, (self._score(left, right), left, right))

    def _score(self, left: int, right: int) -> float:
        """Return how much a join grows: the lower, the better.

        For u states and t arcs made from n and m states, with s of r open rules shared,
        ``ln(u + 1) - ln(n + m + 1) + 0.1 ln(t + 0.02 n m + 1) - affinity s / r``. The weights were
        found by trial on synthetic spaces; any near them will do.
        """
        one, other = self._live[left], self._live[right]
        size = self._estimates(one, other)
        shared = len(one.masks.keys() & other.masks.keys())
        every = len(one.masks.keys() | other.masks.keys())
        return (
            math.log(size.states + 1)
            - math.log(one.size + other.size + 1)
            + 0.1 * math.log(size.arcs + 0.02 * one.size * other.size + 1)
            - self._affinity * shared / max(every, 1)
        )

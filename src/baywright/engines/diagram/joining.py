"""Leaves and joins: the two ways in which a cluster is made.

A leaf has the values of one choice, merged when they agree in the class of each rule. A join takes
each pair of a state on the left and one on the right; a rule that is open in both gets the class of
the union, and the pair is dropped when a rule says that nothing completes it. The pairs that are
left are the arcs.

States with equal classes of the shared rules are one *group*; groups are matched first, so that
pairs that die are seen once for the whole group.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from baywright.engines.diagram.cluster import Cluster, Joined, Leaf, closes
from baywright.engines.diagram.guards import TooHard, Watch
from baywright.engines.diagram.matching import Matrices, Side, emitted, matched
from baywright.engines.diagram.merging import merged
from baywright.engines.diagram.rules import Rule, Transitions
from baywright.engines.hashing import distinct_rows
from baywright.engines.loops import Ids, Longs

_BLOCK = 2_000_000
"""Pairs of groups matched between two looks at the clock."""


def leaf(
    rules: Sequence[Rule], choice: int, left: Ids, size: int, binding: Sequence[int]
) -> Cluster:
    """Return the cluster of one choice.

    Args:
        rules: all rules.
        choice: number of the choice.
        left: the values that are left.
        size: number of values.
        binding: numbers of the rules about this choice, in rising order.
    """
    masks: dict[int, int] = {}
    columns = [np.zeros(len(left), np.int32)]
    for number in binding:
        rule = rules[number]
        position = rule.scope.index(choice)
        masks[number] = 1 << position
        columns.append(rule.part(1 << position).class_of(rule.codes(position)[left]))
    rows = np.stack(columns, axis=1)[:, 1:]
    alive = np.flatnonzero((rows >= 0).all(axis=1))
    of_row, first = distinct_rows(np.ascontiguousarray(rows[alive]))
    numbers, states = merged(rules, masks, rows[alive[first]])
    state_of = np.full(size, -1, np.int32)
    state_of[left[alive]] = numbers[of_row]
    return Cluster(masks, states, Leaf(choice, state_of), 0)


def _side(cluster: Cluster, shared: set[int]) -> Side:
    together = cluster.columns(shared)
    alone = cluster.columns(set(cluster.masks) - shared)
    group, first = distinct_rows(np.ascontiguousarray(cluster.states[:, together]))
    own, own_first = distinct_rows(np.ascontiguousarray(cluster.states[:, alone]))
    members = np.argsort(group, kind="stable")
    starts = np.searchsorted(group[members], np.arange(len(first) + 1)).astype(np.int64)
    return Side(
        np.ascontiguousarray(cluster.states[first][:, together]),
        members,
        starts,
        own,
        np.ascontiguousarray(cluster.states[own_first][:, alone]),
    )


class Joiner:
    """Joins clusters under one set of rules and one watch."""

    def __init__(self, rules: Sequence[Rule], watch: Watch) -> None:
        self.rules = rules
        self.watch = watch
        self._transitions = Transitions(rules)

    def join(self, left: Cluster, right: Cluster) -> Cluster:
        """Return the cluster of both.

        Raises:
            TooHard: when a limit is reached.
        """
        shared = left.masks.keys() & right.masks.keys()
        one, other = _side(left, shared), _side(right, shared)
        found, common = self._match(left, right, sorted(shared), one, other)
        count = int(one.sizes() @ ((found >= 0) @ other.sizes())) if found.size else 0
        cost = left.cost + right.cost + count
        self.watch.weigh(cost)
        _check_key(one, other, common)
        arcs, keys = emitted(one, other, found, len(common), count)
        masks = self._masks(left, right)
        states = self._rows(masks, left, right, one, other, common, keys)
        numbers, states = merged(self.rules, masks, states)
        arcs[:, 2] = numbers[arcs[:, 2]]
        if np.any(numbers < 0):
            arcs = arcs[arcs[:, 2] >= 0]
        return Cluster(masks, states, Joined(left, right, arcs), cost)

    def matrices(self, left: Cluster, right: Cluster, shared: Sequence[int]) -> Matrices:
        """Return the transitions of the shared rules, one after the other."""
        each = [self._transitions(rule, left.masks[rule], right.masks[rule]) for rule in shared]
        remain = [
            not closes(self.rules[rule], left.masks[rule] | right.masks[rule]) for rule in shared
        ]
        return Matrices(
            np.concatenate([np.zeros(0, np.int32), *(matrix.ravel() for matrix in each)]),
            np.cumsum([0, *(matrix.size for matrix in each)], dtype=np.int64),
            np.array([matrix.shape[1] for matrix in each], np.int64),
            np.array(remain, np.uint8),
        )

    def _match(
        self, left: Cluster, right: Cluster, shared: Sequence[int], one: Side, other: Side
    ) -> tuple[Ids, Ids]:
        """Return, for each pair of groups, the number of their common row or -1; and the rows."""
        self.watch.pairs(len(one.groups) * len(other.groups))
        matrices = self.matrices(left, right, shared)
        found, rows, used = [], [], 0
        for begin, end in _blocks(len(one.groups), len(other.groups)):
            self.watch.clock()
            numbers, common = matched(one.groups[begin:end], other.groups, matrices)
            numbers[numbers >= 0] += used
            used += len(common)
            found.append(numbers)
            rows.append(common)
        if len(found) == 1:
            return found[0], rows[0]
        width = int(matrices.remain.sum())
        every = np.concatenate([np.zeros((0, width), np.int32), *rows])
        renumbered, first = distinct_rows(every)
        whole = np.concatenate([np.zeros((0, len(other.groups)), np.int32), *found])
        whole[whole >= 0] = renumbered[whole[whole >= 0]]
        return whole, every[first]

    def _masks(self, left: Cluster, right: Cluster) -> dict[int, int]:
        masks = {
            rule: left.masks.get(rule, 0) | right.masks.get(rule, 0)
            for rule in sorted(left.masks.keys() | right.masks.keys())
        }
        return {rule: mask for rule, mask in masks.items() if not closes(self.rules[rule], mask)}

    def _rows(
        self,
        masks: dict[int, int],
        left: Cluster,
        right: Cluster,
        one: Side,
        other: Side,
        common: Ids,
        keys: Longs,
    ) -> Ids:
        """Put the rows of the new states together from the three parts that their keys name."""
        pair, third = np.divmod(keys, max(len(common), 1))
        first, second = np.divmod(pair, max(len(other.own_rows), 1))
        shared = left.masks.keys() & right.masks.keys()
        remaining = [rule for rule in sorted(shared) if rule in masks]
        states = np.empty((len(keys), len(masks)), np.int32)
        place = {rule: column for column, rule in enumerate(masks)}
        states[:, [place[r] for r in left.masks if r not in shared]] = one.own_rows[first]
        states[:, [place[r] for r in right.masks if r not in shared]] = other.own_rows[second]
        states[:, [place[r] for r in remaining]] = common[third]
        return states


def _check_key(one: Side, other: Side, common: Ids) -> None:
    """Raise ``TooHard`` when the three numbers that make a state do not fit into one key."""
    if len(one.own_rows) * len(other.own_rows) * max(len(common), 1) >= 1 << 62:
        raise TooHard("a join with more kinds of states than can be told apart")


def _blocks(rows: int, width: int) -> Iterator[tuple[int, int]]:
    step = max(1, _BLOCK // max(width, 1))
    for begin in range(0, max(rows, 1), step):
        yield begin, min(begin + step, rows)

"""Reducing a tree of joins: states that the rest of the tree treats alike become one.

From the root downwards, two states of a child are alike when they go with the same states of the
other child to the same states of the parent. States that lead nowhere disappear.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from baywright.engines.diagram.cluster import Cluster, Joined, Leaf
from baywright.engines.hashing import mixed, slots_for
from baywright.engines.loops import Ids, Longs, compiled


@dataclass(frozen=True, slots=True, eq=False)
class Node:
    """A cluster after reduction.

    Args:
        size: number of states.
        choice: number of the choice of a leaf, or -1.
        state_of: for a leaf, the state of each value, -1 for a value that no build has.
        children: numbers of the two nodes below, in the list of all nodes; for a leaf (-1, -1).
        arcs: rows of a state on the left, a state on the right, and the state they make.
    """

    size: int
    choice: int
    state_of: Ids
    children: tuple[int, int]
    arcs: Ids


def reduced(root: Cluster) -> list[Node]:
    """Return the nodes of the reduced tree, children before parents, the root last."""
    nodes: list[Node] = []
    pending = [(root, np.zeros(root.size, np.int32), 1)]
    while pending:
        cluster, classes, size = pending.pop()
        match cluster.origin:
            case Leaf(choice, state_of):
                mapped = np.where(state_of >= 0, classes[state_of], -1).astype(np.int32)
                nodes.append(Node(size, choice, mapped, (-1, -1), np.zeros((0, 3), np.int32)))
            case Joined(left, right, arcs):
                arcs, one, other = _reduced(arcs, classes, left.size, right.size)
                nodes.append(Node(size, -1, np.zeros(0, np.int32), (-1, -1), arcs))
                pending += [(left, *one), (right, *other)]
    return _numbered(nodes)


def _numbered(visited: list[Node]) -> list[Node]:
    """Turn nodes in the order of their visit, right before left, round; number their children."""
    places: list[int] = []
    numbered: list[Node] = []
    for node in reversed(visited):
        children = (-1, -1)
        if node.choice < 0:
            right, left = places.pop(), places.pop()
            children = (left, right)
        places.append(len(numbered))
        numbered.append(Node(node.size, node.choice, node.state_of, children, node.arcs))
    return numbered


def _reduced(
    arcs: Ids, classes: Ids, lefts: int, rights: int
) -> tuple[Ids, tuple[Ids, int], tuple[Ids, int]]:
    """Reduce the arcs of one join.

    Returns:
        The arcs between classes; and for each side the class of each state and their number.
    """
    arcs = np.column_stack([arcs[:, :2], classes[arcs[:, 2]]]).astype(np.int32)
    arcs = arcs[arcs[:, 2] >= 0]
    left_classes, left_count = _alike(arcs[:, 0], arcs[:, 1:], lefts)
    arcs = _unique(np.column_stack([left_classes[arcs[:, 0]], arcs[:, 1:]]))
    right_classes, right_count = _alike(arcs[:, 1], arcs[:, ::2], rights)
    arcs = _unique(np.column_stack([arcs[:, 0], right_classes[arcs[:, 1]], arcs[:, 2]]))
    return arcs, (left_classes, left_count), (right_classes, right_count)


def _alike(states: Ids, uses: Ids, count: int) -> tuple[Ids, int]:
    """Number states alike that have the same set of uses; -1 for a state without any."""
    order = np.lexsort((uses[:, 1], uses[:, 0], states))
    uses = np.ascontiguousarray(uses[order])
    starts = np.searchsorted(states[order], np.arange(count + 1)).astype(np.int64)
    return equal_segments(uses, starts)


def _unique(arcs: Ids) -> Ids:
    """Return the distinct arcs, sorted by left and right state; both determine the third."""
    key = arcs[:, 0].astype(np.int64) << 32 | arcs[:, 1]
    _, first = np.unique(key, return_index=True)
    return np.ascontiguousarray(arcs[first].astype(np.int32))


@compiled
def equal_segments(rows: Ids, starts: Longs) -> tuple[Ids, int]:
    """Number segments of rows alike that have the same rows in the same order.

    Args:
        rows: all rows.
        starts: where each segment begins, and the end of the last.

    Returns:
        The number of each segment, -1 for an empty one; and how many numbers there are.
    """
    count = len(starts) - 1
    slots = np.full(slots_for(count), -1, np.int64)
    last = len(slots) - 1
    numbers = np.full(count, -1, np.int32)
    used = 0
    for segment in range(count):
        begin, length = starts[segment], starts[segment + 1] - starts[segment]
        if length == 0:
            continue
        key = 0
        for place in range(begin, begin + length):
            key = mixed(mixed(key ^ rows[place, 0]) ^ rows[place, 1])
        slot = key & last
        while slots[slot] >= 0:
            known = slots[slot]
            equal = starts[known + 1] - starts[known] == length
            offset = 0
            while equal and offset < length:
                here, there = begin + offset, starts[known] + offset
                equal = rows[here, 0] == rows[there, 0] and rows[here, 1] == rows[there, 1]
                offset += 1
            if equal:
                break
            slot = (slot + 1) & last
        if slots[slot] < 0:
            slots[slot] = segment
            numbers[segment] = used
            used += 1
        else:
            numbers[segment] = numbers[slots[slot]]
    return numbers, used

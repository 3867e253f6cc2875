"""The compiled form: the reduced tree as a few flat arrays, children before parents.

It is a deterministic tree automaton. Every build takes one way through it, from a value of each
choice to a state of its leaf, from two states to the state they make, and to the only state of the
root. Each question is a pass over the arcs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from baywright.engines.diagram.reducing import Node
from baywright.engines.loops import Ids, Longs


@dataclass(frozen=True, slots=True, eq=False)
class Form:
    """The compiled form of a model.

    States are numbered through all nodes. Values are numbered through all choices.

    Args:
        states: number of states; the last one is that of the root. 0 when no build is legal.
        arcs: rows of a state on the left, a state on the right and the state they make. Those of a
            node stand together, sorted by the state they make; nodes below come first.
        node_arcs: where the arcs of each node begin, and the end of the last.
        values: where the values of each choice begin, and the end of the last.
        state_of: for each value the state of its leaf, -1 for a value that no build has.
    """

    states: int
    arcs: Ids
    node_arcs: Longs
    values: Longs
    state_of: Ids

    @property
    def root(self) -> int:
        """The state in which all complete builds end."""
        return self.states - 1

    def most(self, weights: Longs) -> int:
        """Return a bound on what any build can total, for weights from 0."""
        return (len(self.values) - 1) * int(weights.max(initial=0))


def flat(nodes: Sequence[Node], sizes: Sequence[int]) -> Form:
    """Return the compiled form of a reduced tree.

    Args:
        nodes: the nodes, children before parents.
        sizes: number of values of each choice.
    """
    begins = np.cumsum([0, *(node.size for node in nodes)], dtype=np.int64)
    values = np.cumsum([0, *sizes], dtype=np.int64)
    state_of = np.full(values[-1], -1, np.int32)
    arcs: list[Ids] = [np.zeros((0, 3), np.int32)]
    for number, node in enumerate(nodes):
        if node.choice >= 0:
            states = np.where(node.state_of >= 0, node.state_of + begins[number], -1)
            state_of[values[node.choice] : values[node.choice + 1]] = states
        else:
            left, right = node.children
            moved = node.arcs + np.array([begins[left], begins[right], begins[number]])
            arcs.append(moved[np.argsort(moved[:, 2], kind="stable")].astype(np.int32))
    return Form(
        int(begins[-1]),
        np.concatenate(arcs),
        np.cumsum([0, *(len(a) for a in arcs[1:])], dtype=np.int64),
        values,
        state_of,
    )


def empty(sizes: Sequence[int]) -> Form:
    """Return the form of a model without a legal build."""
    values = np.cumsum([0, *sizes], dtype=np.int64)
    none = np.full(values[-1], -1, np.int32)
    return Form(0, np.zeros((0, 3), np.int32), np.zeros(1, np.int64), values, none)

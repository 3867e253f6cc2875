"""Where to hang a tree of joins so that polynomials stay small: at its largest join.

A tree may be looked at from any of its joins. Seen from the root, the largest join would need the
full product of two long polynomials for each of its arcs. Seen from that join itself, three parts
meet: what is below it on the left, on the right, and everything outside it. Of the three together
only the number within the bound is needed, and for that two of them have to be paired and the
third only summed up.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import prod

import numpy as np

from baywright.engines.diagram.form import Form
from baywright.engines.diagram.loops import Ids, Longs


@dataclass(frozen=True, slots=True)
class Centred:
    """A tree of joins hung at one of them.

    The outside of a state is everything that is not below it; as a state of its own it has the
    number of the state plus the number of all states.

    Args:
        steps: arcs in the order of work: one side, another side, and the state made, sorted by the
            last two.
        middle: arcs of the join in the middle: three states that make whole builds.
    """

    steps: tuple[Ids, ...]
    middle: Ids


def centred(form: Form, weights: Longs, at_most: int) -> Centred:
    """Hang a form that has joins at the one with the longest products.

    Args:
        form: the form.
        weights: the weight of each value.
        at_most: bound of the weights.
    """
    tree = _Tree(form)
    below = tree.totals_below(weights, at_most)
    beside = tree.totals_beside(below, at_most)
    sizes = {node: totals.bit_count() for node, totals in below.items()}
    middle = max(
        range(len(tree.joins)),
        key=lambda join: len(tree.joins[join]) * prod(sizes[c] for c in tree.children[join]),
    )
    path = tree.path(middle)
    steps = [arcs for join, arcs in enumerate(tree.joins) if join not in path]
    for above, node in pairwise(path):
        steps.append(_turned(tree.joins[above], tree.children[above].index(node), form.states))
    left, right = tree.children[middle]
    arcs = tree.joins[middle] + np.array([0, 0, form.states], np.int32)
    lengths = (sizes[left], sizes[right], beside[middle].bit_count())
    return Centred(tuple(_grouped(step) for step in steps), _paired(arcs, lengths))


class _Tree:
    """The joins of a form by number; a leaf has the number of its choice, less 1, negated."""

    def __init__(self, form: Form) -> None:
        self._form = form
        spans = zip(form.node_arcs[:-1].tolist(), form.node_arcs[1:].tolist(), strict=True)
        self.joins = [form.arcs[begin:end] for begin, end in spans]
        node_of = np.empty(form.states, np.int64)
        for choice in range(len(form.values) - 1):
            states = form.state_of[form.values[choice] : form.values[choice + 1]]
            node_of[states[states >= 0]] = -1 - choice
        for join, arcs in enumerate(self.joins):
            node_of[arcs[:, 2]] = join
        self.children: list[tuple[int, int]] = [
            (int(node_of[arcs[0, 0]]), int(node_of[arcs[0, 1]])) for arcs in self.joins
        ]

    def path(self, join: int) -> list[int]:
        """Return the joins from the root to one of them."""
        above = {child: parent for parent, pair in enumerate(self.children) for child in pair}
        path = [join]
        while path[-1] in above:
            path.append(above[path[-1]])
        return path[::-1]

    def totals_below(self, weights: Longs, at_most: int) -> dict[int, int]:
        """Return which totals each node can reach, as bits of a number, states not told apart."""
        form, totals = self._form, {}
        for choice in range(len(form.values) - 1):
            begin, end = form.values[choice], form.values[choice + 1]
            reached = 0
            for weight in np.unique(weights[begin:end][form.state_of[begin:end] >= 0]).tolist():
                reached |= 1 << weight
            totals[-1 - choice] = reached
        for join, (left, right) in enumerate(self.children):
            totals[join] = _added(totals[left], totals[right], at_most)
        return totals

    def totals_beside(self, below: dict[int, int], at_most: int) -> dict[int, int]:
        """Return which totals the outside of each node can reach."""
        totals = {len(self.joins) - 1: 1}
        for join in range(len(self.joins) - 1, -1, -1):
            left, right = self.children[join]
            totals[left] = _added(totals[join], below[right], at_most)
            totals[right] = _added(totals[join], below[left], at_most)
        return totals


def _added(one: int, other: int, at_most: int) -> int:
    """Return the totals of two parts together, up to a bound."""
    few, many = sorted((one, other), key=int.bit_count)
    result = 0
    while few:
        result |= many << ((few & -few).bit_length() - 1)
        few &= few - 1
    return result & (1 << at_most + 1) - 1


def _turned(arcs: Ids, side: int, states: int) -> Ids:
    """Turn arcs round: from the outside of the state made, and one side, to the other's outside."""
    columns = [arcs[:, 1 - side], arcs[:, 2] + states, arcs[:, side] + states]
    return np.stack(columns, axis=1).astype(np.int32)


def _grouped(arcs: Ids) -> Ids:
    """Sort arcs by the state made and by the side that has fewer different states with it."""
    swapped = arcs[:, [1, 0, 2]]
    fewer = arcs if _groups(arcs) <= _groups(swapped) else swapped
    order = np.lexsort((fewer[:, 1], fewer[:, 2]))
    return np.ascontiguousarray(fewer[order])


def _groups(arcs: Ids) -> int:
    return len(np.unique(arcs[:, 1].astype(np.int64) << 32 | arcs[:, 2]))


def _paired(arcs: Ids, lengths: tuple[int, int, int]) -> Ids:
    """Put that side first, to be summed up, which leaves least to be paired."""
    orders = ((0, 1, 2), (1, 0, 2), (2, 0, 1))
    first, second, third = min(
        orders, key=lambda o: _groups(arcs[:, o]) * lengths[o[1]] * lengths[o[2]]
    )
    turned = arcs[:, [first, second, third]]
    return np.ascontiguousarray(turned[np.lexsort((turned[:, 1], turned[:, 2]))])

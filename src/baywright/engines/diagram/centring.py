"""Where to hang a tree of joins so that polynomials stay short.

A tree may be looked at from any of its joins. Seen from the root, a large join high up needs the
full product of two long polynomials for each of its arcs. Seen from that join itself, three parts
meet: what is below it on the left, on the right, and everything outside it. Of the three together
only the number within the bound is needed, and for that two of them have to be paired and the
third only summed up. So the work is estimated for every join, and the tree hung where it is least.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from baywright.engines.diagram.form import Form
from baywright.engines.loops import Ids, Longs

_PAIR = 4.0
"""How much longer it takes to pair two terms than to multiply them, by measurement."""


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
    """Hang a form that has joins where there is least to do.

    Args:
        form: the form.
        weights: the weight of each value.
        at_most: bound of the weights.
    """
    tree = _Tree(form)
    below = tree.totals_below(weights, at_most)
    beside = tree.totals_beside(below, at_most)
    views = [_views(tree, join, below, beside) for join in range(len(tree.joins))]
    path = tree.path(_cheapest(tree, views))
    steps = [_grouped(arcs) for join, arcs in enumerate(tree.joins) if join not in path]
    for above, node in pairwise(path):
        steps.append(_grouped(_turned(tree.joins[above], tree.side(above, node), form.states)))
    arcs = tree.joins[path[-1]] + np.array([0, 0, form.states], np.int32)
    turned = arcs[:, views[path[-1]].order]
    order = np.lexsort((turned[:, 1], turned[:, 2]))
    return Centred(tuple(steps), np.ascontiguousarray(turned[order]))


@dataclass(frozen=True, slots=True)
class _Views:
    """The work of one join, in products of terms, depending on where the tree is hung.

    Args:
        above: when it is hung above the join.
        within: when it is hung below the left side, or below the right one.
        here: when it is hung at the join.
        order: which of its three parts is then summed up, and which two are paired.
    """

    above: float
    within: tuple[float, float]
    here: float
    order: tuple[int, int, int]


def _views(tree: _Tree, join: int, below: dict[int, int], beside: dict[int, int]) -> _Views:
    arcs = tree.joins[join]
    left, right = tree.children[join]
    sizes = (below[left].bit_count(), below[right].bit_count(), beside[join].bit_count())
    groups = [_groups(arcs[:, [i for i in range(3) if i != out]]) for out in range(3)]
    here, order = min(
        (groups[out] * sizes[one] * sizes[other], (out, one, other))
        for out, one, other in ((0, 1, 2), (1, 0, 2), (2, 0, 1))
    )

    def product(one: int, other: int) -> float:
        return min(groups[one], groups[other]) * sizes[one] * sizes[other]

    return _Views(product(0, 1), (product(1, 2), product(0, 2)), here, order)


def _cheapest(tree: _Tree, views: list[_Views]) -> int:
    """Return the join at which the whole work is least."""
    root = len(views) - 1
    # What hanging the tree below a join costs more than hanging it above all.
    more = {root: -views[root].above}
    for join in range(root, -1, -1):
        for child, work in zip(tree.children[join], views[join].within, strict=True):
            if child >= 0:
                more[child] = more[join] + work - views[child].above
    return min(range(root + 1), key=lambda join: (more[join] + _PAIR * views[join].here, join))


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

    def side(self, join: int, child: int) -> int:
        """Return whether a child is on the left, 0, or on the right, 1."""
        return self.children[join].index(child)

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
    fewer = arcs if _groups(arcs[:, 1:]) <= _groups(swapped[:, 1:]) else swapped
    order = np.lexsort((fewer[:, 1], fewer[:, 2]))
    return np.ascontiguousarray(fewer[order])


def _groups(pairs: Ids) -> int:
    """Return how many different pairs there are."""
    return len(np.unique(pairs[:, 0].astype(np.int64) << 32 | pairs[:, 1]))

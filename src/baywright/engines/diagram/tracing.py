"""Passes that remember their way, so that a build can be read off and checked for other sums."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from baywright.engines.diagram.form import Form
from baywright.engines.diagram.passes import NEVER, downwards
from baywright.engines.loops import Flags, Ids, Longs, compiled


@dataclass(frozen=True, slots=True, eq=False)
class Trace:
    """The lightest builds by one sum of weights, and what else they weigh.

    Args:
        weights: the weight of each value that was made least.
        up: the least weight below each state.
        via: the arc by which a state reaches it; for a leaf -1 less the value.
        below: for each other sum, the total below each state on that way.
    """

    form: Form
    weights: Longs
    up: Longs
    via: Ids
    below: Longs

    @property
    def least(self) -> int:
        """The least weight of any build, at least ``NEVER`` when there is none."""
        return int(self.up[self.form.root])

    def totals(self) -> list[int]:
        """Return the totals of a lightest build by the other sums."""
        totals: list[int] = self.below[:, self.form.root].tolist()
        return totals

    def chosen(self) -> Flags:
        """Mark the values of a lightest build."""
        chosen = np.zeros(len(self.form.state_of), np.uint8)
        pending = [self.form.root]
        while pending:
            via = int(self.via[pending.pop()])
            if via < 0:
                chosen[-1 - via] = 1
            else:
                pending += self.form.arcs[via, :2].tolist()
        return chosen

    def down(self) -> Longs:
        """Return the least weight beside and above each state."""
        down = np.empty(self.form.states, np.int64)
        downwards(self.form.arcs, self.up, down)
        return down

    def through(self, others: Longs, down: Longs) -> tuple[Longs, Longs]:
        """Return, for each value, a lightest build that has it.

        Args:
            others: for each other sum, the weight of each value.
            down: as returned by ``down``.

        Returns:
            The weight of that build, and its total by each other sum.
        """
        beside = np.zeros_like(self.below)
        add_beside(self.form.arcs, self.up, down, self.below, beside)
        state_of = np.maximum(self.form.state_of, 0)
        weight = np.where(self.form.state_of >= 0, down[state_of] + self.weights, NEVER)
        return weight, beside[:, state_of] + others


def trace(form: Form, weights: Longs, others: Longs, allowed: Flags) -> Trace:
    """Find the lightest builds of a form that has states.

    Args:
        form: the form.
        weights: the weight of each value, to be made least.
        others: for each other sum, the weight of each value.
        allowed: which values may be used.
    """
    up = np.full(form.states, NEVER, np.int64)
    via = np.zeros(form.states, np.int32)
    below = np.zeros((len(others), form.states), np.int64)
    traced(form.arcs, form.state_of, weights, others, allowed, up, via, below)
    return Trace(form, weights, up, via, below)


@compiled
def traced(
    arcs: Ids,
    state_of: Ids,
    weights: Longs,
    others: Longs,
    allowed: Flags,
    up: Longs,
    via: Ids,
    below: Longs,
) -> None:
    """Fill in ``up``, ``via`` and ``below`` of a trace; ``up`` is ``NEVER`` before."""
    for value in range(len(state_of)):
        state = state_of[value]
        if allowed[value] and state >= 0 and weights[value] < up[state]:
            up[state] = weights[value]
            via[state] = -1 - value
            for other in range(len(others)):
                below[other, state] = others[other, value]
    for arc in range(len(arcs)):
        left, right, made = arcs[arc, 0], arcs[arc, 1], arcs[arc, 2]
        if up[left] + up[right] < up[made]:
            up[made] = up[left] + up[right]
            via[made] = arc
            for other in range(len(others)):
                below[other, made] = below[other, left] + below[other, right]


@compiled
def add_beside(arcs: Ids, up: Longs, down: Longs, below: Longs, beside: Longs) -> None:
    """Write the totals of the other sums on the lightest way beside and above each state."""
    done = np.zeros(len(up), np.uint8)
    done[-1] = 1
    for arc in range(len(arcs) - 1, -1, -1):
        made = arcs[arc, 2]
        for side in range(2):
            state, sibling = arcs[arc, side], arcs[arc, 1 - side]
            if not done[state] and down[made] + up[sibling] == down[state]:
                done[state] = 1
                for other in range(len(below)):
                    beside[other, state] = beside[other, made] + below[other, sibling]

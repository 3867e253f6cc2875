"""Exact counts over a compiled form.

The form is deterministic, so every build is one way through it: the builds below a state are the
products of those below the two states of each of its arcs, added up. With a budget the numbers
become polynomials, one coefficient for each total weight, packed into one large whole number each:
the coefficient of weight w stands at bit w times a width that no coefficient can fill.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from baywright.engines.diagram.form import Form
from baywright.engines.diagram.loops import Flags, Longs
from baywright.engines.diagram.passes import NEVER, downwards, upwards
from baywright.engines.preparation import Deadline


def counted(form: Form, allowed: Flags) -> int:
    """Return the number of builds of a form without a budget, using allowed values alone."""
    if not form.states:
        return 0
    below = [0] * form.states
    for state in form.state_of[allowed.view(np.bool_) & (form.state_of >= 0)].tolist():
        below[state] += 1
    left, right, made = form.arcs.T.tolist()
    for a, b, p in zip(left, right, made, strict=True):
        below[p] += below[a] * below[b]
    return below[form.root]


@dataclass(frozen=True, slots=True)
class _Window:
    """Which total weights matter at each state, and how wide a coefficient is.

    Args:
        least: the least weight below each state.
        most: the greatest weight below it that the budget can still bear.
        width: bits of a coefficient.
    """

    least: Sequence[int]
    most: Sequence[int]
    width: int

    def cut(self, state: int, polynomial: int) -> int:
        """Return a polynomial without the weights that are too much."""
        bits = (self.most[state] - self.least[state] + 1) * self.width
        return polynomial & ((1 << bits) - 1) if polynomial.bit_length() > bits else polynomial


def counted_within(
    form: Form, weights: Longs, at_most: int, allowed: Flags, deadline: Deadline
) -> int:
    """Return the number of builds of a form whose weight is at most a bound.

    Raises:
        OutOfTime: at the deadline.
    """
    if not form.states:
        return 0
    up, down = np.empty(form.states, np.int64), np.empty(form.states, np.int64)
    upwards(form.arcs, len(weights), form.state_of, weights, allowed, up)
    downwards(form.arcs, up, down)
    if up[form.root] > at_most:
        return 0
    width = max(1, math.prod(np.diff(form.values).tolist()).bit_length())
    window = _Window(up.tolist(), (at_most - down).tolist(), width)
    below = _leaves(form, weights, allowed, window)
    _add_arcs(form, window, below, np.minimum(up, NEVER) + down <= at_most, deadline)
    total, ones = below[form.root], (1 << width) - 1
    count = 0
    while total:
        count += total & ones
        total >>= width
    return count


def _leaves(form: Form, weights: Longs, allowed: Flags, window: _Window) -> list[int]:
    below = [0] * form.states
    for value in np.flatnonzero(allowed.view(np.bool_) & (form.state_of >= 0)).tolist():
        state, weight = int(form.state_of[value]), int(weights[value])
        if weight <= window.most[state]:
            below[state] += 1 << (weight - window.least[state]) * window.width
    return below


def _add_arcs(
    form: Form,
    window: _Window,
    below: list[int],
    alive: np.typing.NDArray[np.bool_],
    deadline: Deadline,
) -> None:
    """Multiply and add along the arcs, node by node; what is used up is dropped."""
    least, width = window.least, window.width
    for begin, end in zip(form.node_arcs[:-1].tolist(), form.node_arcs[1:].tolist(), strict=True):
        arcs = form.arcs[begin:end]
        arcs = arcs[alive[arcs].all(axis=1)]
        for a, b, p in arcs.tolist():
            shift = (least[a] + least[b] - least[p]) * width
            if shift <= (window.most[p] - least[p]) * width:
                below[p] += below[a] * below[b] << shift
            deadline.check()
        for p in np.unique(arcs[:, 2]).tolist():
            below[p] = window.cut(p, below[p])
        for used in np.unique(form.arcs[begin:end, :2]).tolist():
            below[used] = 0

"""Random legal builds, each as likely as any other.

Without a budget, builds are drawn by counts: at each state an arc is taken with the share of the
builds below the state that go through it, with whole numbers, so the draw is exact. A budget and
other sums that are not in the form are kept by drawing again (rejection sampling, von Neumann 1951,
cited from memory): every build that keeps them is as likely as before. What no build within the
budget goes through is left out first.

Where few builds keep the budget, light ones are favoured: a build of weight w is drawn in
proportion to x ** w, and kept with the chance x ** (bound - w), which evens that out. Of all x,
which are whole multiples of 1/256, the one is taken with which most builds are kept; that is where
x ** bound / Z(x) is greatest, for Z(x) the sum of x ** w over all builds.

Where derived choices are not determined, builds are told apart by the others. A build with m
completions of these is drawn m times as often, and therefore kept once in m times.
"""

from __future__ import annotations

import math
from itertools import compress, pairwise
from random import Random

import numpy as np

from baywright.engines.contract import OutOfTime
from baywright.engines.diagram.compiled import Carried, Compiled
from baywright.engines.diagram.counting import counted
from baywright.engines.diagram.form import Form
from baywright.engines.diagram.passes import downwards, log_ways, upwards
from baywright.engines.loops import Flags, Longs
from baywright.engines.preparation import Deadline

_EVEN = 256
"""What x is counted in. As much as this favours nothing."""

_LONGEST = 20_000
"""Bound of a budget up to which light builds are favoured: powers have eight bits for each step."""


def drawn(
    compiled: Compiled, number: int, seed: int, allowed: Flags, deadline: Deadline
) -> list[Flags]:
    """Draw legal builds at random, with repetition.

    Args:
        compiled: the compiled space.
        number: how many.
        seed: the same one draws the same builds.
        allowed: which values may be used.
        deadline: when to stop.

    Returns:
        The values of each build; none at all when there is no legal build.

    Raises:
        OutOfTime: at the deadline, as when hardly any build drawn keeps the budget.
    """
    if not compiled.form.states:
        return []
    urn = _Urn(compiled, allowed)
    if not urn.ways[compiled.form.root]:
        return []
    chance = Random(seed)  # noqa: S311 - nothing here is a secret
    found: list[Flags] = []
    tried = 0
    while len(found) < number:
        if not deadline.left:
            keys = " and ".join(key for limit in compiled.limits for key in limit.keys)
            said = f"of {tried:,} builds drawn, {len(found):,} were kept"
            raise OutOfTime(f"{said}; {keys} had to be kept by chance" if keys else said)
        build = urn.draw(chance)
        tried += 1
        legal = _legal(compiled, build) and urn.keeps(build, chance)
        if legal and _once(compiled, build, allowed, chance, deadline):
            found.append(build)
    return found


def _legal(compiled: Compiled, build: Flags) -> bool:
    """Say whether a build keeps the sums that are not in the form."""
    chosen = np.flatnonzero(build)
    return all(int(limit.weights[chosen].sum()) <= limit.at_most for limit in compiled.limits)


def _once(
    compiled: Compiled, build: Flags, allowed: Flags, chance: Random, deadline: Deadline
) -> bool:
    """Keep a build once in as many times as others agree with it in all choices not derived."""
    if compiled.determined:
        return True
    alike = build.copy()
    for choice in compiled.derived:
        begin, end = compiled.form.values[choice : choice + 2]
        alike[begin:end] = allowed[begin:end]
    return not chance.randrange(_completions(compiled, alike, deadline))


def _completions(compiled: Compiled, alike: Flags, deadline: Deadline) -> int:
    """Count the legal builds with some values.

    Raises:
        OutOfTime: at the deadline, or at once when it cannot be kept.
    """
    return counted(compiled.form, compiled.limits, alike, deadline)


class _Urn:
    """The builds of a form, to be drawn from.

    Args:
        compiled: the compiled space.
        allowed: which values may be used.
    """

    def __init__(self, compiled: Compiled, allowed: Flags) -> None:
        form, budget = compiled.form, compiled.budget
        up, down = np.empty(form.states, np.int64), np.empty(form.states, np.int64)
        upwards(form.arcs, len(allowed), form.state_of, budget.weights, allowed, up)
        downwards(form.arcs, up, down)
        room = budget.at_most - down
        live = up[form.arcs[:, 0]] + up[form.arcs[:, 1]] <= room[form.arcs[:, 2]]
        self._form, self._budget = form, budget
        self._allowed = _within(form, budget, allowed, room)
        self._arcs = np.ascontiguousarray(form.arcs[live])
        self._pairs: list[tuple[int, int]] = [(a, b) for a, b, _ in self._arcs.tolist()]
        every = np.arange(form.states + 1)
        self._begins: list[int] = np.searchsorted(self._arcs[:, 2], every).tolist()
        binds = budget.at_most < form.most(budget.weights)
        self._favour = self._best_favour() if binds and budget.at_most <= _LONGEST else _EVEN
        self._values: list[list[int]] = [[] for _ in range(form.states)]
        for value in np.flatnonzero(self._allowed).tolist():
            self._values[form.state_of[value]].append(value)
        self._shares = self._value_shares()
        self.ways = [sum(self._shares[value] for value in values) for values in self._values]
        for state, (begin, end) in enumerate(pairwise(self._begins)):
            if begin < end:
                self.ways[state] = sum(self._through(arc) for arc in range(begin, end))

    def _best_favour(self) -> int:
        """Return 256 x for the x with which most builds that are drawn are kept."""
        low, high = 1, _EVEN
        while low < high:  # what is compared has one hill
            middle = (low + high) // 2
            if self._kept_by(middle) < self._kept_by(middle + 1):
                low = middle + 1
            else:
                high = middle
        return low

    def _kept_by(self, favour: int) -> float:
        """Return the logarithm of the share of drawn builds that is kept, up to a constant."""
        step = math.log(favour / _EVEN)
        form, weights = self._form, self._budget.weights
        scaled = (weights * step).astype(np.float64)
        drawn_ = log_ways(self._arcs, form.state_of, self._allowed, scaled, form.states)
        return self._budget.at_most * step - drawn_

    def _value_shares(self) -> list[int]:
        """Return how often each value is drawn, with the same denominator in each choice."""
        weights: list[int] = self._budget.weights.tolist()
        if self._favour == _EVEN:
            return [1] * len(weights)
        shares: list[int] = []
        for begin, end in pairwise(self._form.values.tolist()):
            usable = list(compress(weights[begin:end], self._allowed[begin:end].tolist()))
            most = max(usable, default=0)
            shares += [
                self._favour**weight * _EVEN ** (most - weight) if weight <= most else 0
                for weight in weights[begin:end]
            ]
        return shares

    def keeps(self, build: Flags, chance: Random) -> bool:
        """Keep a build within the budget with the chance that makes up for how it was favoured."""
        if self._favour == _EVEN:
            return True
        spare = self._budget.at_most - int(self._budget.weights[np.flatnonzero(build)].sum())
        ticket = chance.randrange(_EVEN**spare)
        return ticket < int(self._favour**spare)

    def _through(self, arc: int) -> int:
        left, right = self._pairs[arc]
        return self.ways[left] * self.ways[right]

    def draw(self, chance: Random) -> Flags:
        """Draw a build, in proportion to what the budget favours."""
        build = np.zeros(len(self._form.state_of), np.uint8)
        pending = [self._form.root]
        while pending:
            state = pending.pop()
            ticket = chance.randrange(self.ways[state])
            if self._values[state]:
                build[self._value(state, ticket)] = 1
                continue
            arc = self._begins[state]
            while ticket >= (through := self._through(arc)):
                ticket -= through
                arc += 1
            pending += self._pairs[arc]
        return build

    def _value(self, state: int, ticket: int) -> int:
        """Return the value of a leaf that a ticket falls on."""
        for value in self._values[state]:
            if ticket < self._shares[value]:
                return value
            ticket -= self._shares[value]
        raise IndexError(ticket)


def _within(form: Form, budget: Carried, allowed: Flags, room: Longs) -> Flags:
    """Return the allowed values that some build within the budget may have."""
    light = budget.weights <= room[np.maximum(form.state_of, 0)]
    return (allowed.view(np.bool_) & (form.state_of >= 0) & light).astype(np.uint8)

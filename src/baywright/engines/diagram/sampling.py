"""Random legal builds, each as likely as any other.

Without a budget, builds are drawn by counts: at each state an arc is taken with the share of the
builds below the state that go through it, with whole numbers, so the draw is exact. A budget and
other sums that are not in the form are kept by drawing again (rejection sampling, von Neumann 1951,
cited from memory): every build that keeps them is as likely as before. What no build within the
budget goes through is left out first, so that few draws are in vain.

Where derived choices are not determined, builds are told apart by the others. A build with m
completions of these is drawn m times as often, and therefore kept once in m times.
"""

from __future__ import annotations

from itertools import pairwise
from random import Random

import numpy as np

from baywright.engines.contract import OutOfTime
from baywright.engines.diagram.compiled import Compiled
from baywright.engines.diagram.counting import counted, counted_within
from baywright.engines.diagram.loops import Flags
from baywright.engines.diagram.passes import downwards, upwards
from baywright.engines.preparation import Deadline


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
        if _legal(compiled, build) and _once(compiled, build, allowed, chance, deadline):
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
        OutOfTime: at the deadline, or when more than one sum is not in the form.
    """
    if len(compiled.limits) > 1:
        raise OutOfTime("the diagram engine cannot tell how often each build would be drawn")
    if compiled.limits:
        return counted_within(compiled.weighing, alike, deadline)
    return counted(compiled.form, alike)


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
        arcs = form.arcs[up[form.arcs[:, 0]] + up[form.arcs[:, 1]] <= room[form.arcs[:, 2]]]
        self._form = form
        self._arcs: list[tuple[int, int]] = [(a, b) for a, b, _ in arcs.tolist()]
        every = np.arange(form.states + 1)
        self._begins: list[int] = np.searchsorted(arcs[:, 2], every).tolist()
        self._values: list[list[int]] = [[] for _ in range(form.states)]
        for value in np.flatnonzero(allowed.view(np.bool_) & (form.state_of >= 0)).tolist():
            state = int(form.state_of[value])
            if budget.weights[value] <= room[state]:
                self._values[state].append(value)
        self.ways = [len(values) for values in self._values]
        for state, (begin, end) in enumerate(pairwise(self._begins)):
            if begin < end:
                self.ways[state] = sum(self._through(arc) for arc in range(begin, end))

    def _through(self, arc: int) -> int:
        left, right = self._arcs[arc]
        return self.ways[left] * self.ways[right]

    def draw(self, chance: Random) -> Flags:
        """Draw a build, each as likely as any other."""
        build = np.zeros(len(self._form.state_of), np.uint8)
        pending = [self._form.root]
        while pending:
            state = pending.pop()
            ticket = chance.randrange(self.ways[state])
            if self._values[state]:
                build[self._values[state][ticket]] = 1
                continue
            arc = self._begins[state]
            while ticket >= (through := self._through(arc)):
                ticket -= through
                arc += 1
            pending += self._arcs[arc]
        return build

"""The diagram engine: a space compiled once, then every question a pass over its arcs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from pathlib import Path

import numpy as np

from baywright.engines.contract import (
    DEFAULT_LIMIT,
    NOTHING,
    Assumptions,
    Cut,
    Impossible,
    Limit,
    Objective,
    Optimum,
    OutOfTime,
    Possible,
    Proof,
    Question,
    Unsupported,
)
from baywright.engines.diagram.compiled import Compiled, Description
from baywright.engines.diagram.counting import counted, counted_values
from baywright.engines.diagram.extremes import best
from baywright.engines.diagram.fronts import FrontPoint, front
from baywright.engines.diagram.guards import Guards
from baywright.engines.diagram.layout import TooWide
from baywright.engines.diagram.passes import possible_values
from baywright.engines.diagram.projecting import counted_apart
from baywright.engines.diagram.sampling import drawn
from baywright.engines.diagram.session import Session
from baywright.engines.diagram.storing import Shelf
from baywright.engines.diagram.verifying import checked_build, decided
from baywright.engines.loops import Flags
from baywright.engines.preparation import Deadline, PerSpace, check_objective
from baywright.engines.search import Search
from baywright.space import Space

DEFAULT_GUARDS = Guards()


class Diagram:
    """Answers whether, what is left, how many and how little; it names no core.

    Args:
        guards: how large a diagram may become while it is compiled, and how long that may take.
        folder: where compiled spaces are kept from one process to the next; nowhere without one.
    """

    name = "diagram"
    can: frozenset[Question] = frozenset(("prove", "best", "options", "count"))

    def __init__(self, guards: Guards = DEFAULT_GUARDS, folder: Path | None = None) -> None:
        self._guards = guards
        self._search = Search()
        shelf = Shelf(folder) if folder is not None else None
        self._sessions = PerSpace(lambda _: Session(guards, shelf))

    def describe(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Description:
        """Say what the space was compiled to, and which sums are not compiled.

        Raises ``OutOfTime`` when the space could not be compiled.
        """
        return self._compiled(space, assumptions, Deadline(limit)).description()

    def prove(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Proof:
        """Find a legal build, the one lightest in the budget, or prove that none exists."""
        deadline = Deadline(limit)
        try:
            compiled = self._compiled(space, assumptions, deadline)
        except OutOfTime:
            return Cut()
        flags = compiled.flags(assumptions.allowed)
        if not compiled.form.states:
            return Impossible()
        found = checked_build(compiled, flags)
        if found.build is not None:
            return Possible(compiled.build(found.build))
        if found.impossible:
            return Impossible()
        return self._search.prove(space, assumptions, Limit(deadline.left))

    def options(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Mapping[str, frozenset[int]]:
        """Return, for every choice, the values that some legal build has."""
        deadline = Deadline(limit)
        compiled = self._compiled(space, assumptions, deadline)
        flags = compiled.flags(assumptions.allowed)
        form, budget = compiled.form, compiled.budget
        possible = np.zeros(len(flags), np.uint8)
        if form.states and len(compiled.limits) > 1:
            possible = self._verified(space, assumptions, compiled, flags, deadline)
        elif form.states:
            up, down = np.empty(form.states, np.int64), np.empty(form.states, np.int64)
            possible_values(
                form.arcs, form.state_of, budget.weights, flags, budget.at_most, up, down, possible
            )
        return compiled.options(possible)

    def best(
        self,
        space: Space,
        objective: Objective,
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> Optimum:
        """Find the least value of the objective over all legal builds, with proof."""
        check_objective(space, objective)
        deadline = Deadline(limit)
        try:
            compiled = self._compiled(space, assumptions, deadline)
        except OutOfTime:
            return Cut()
        flags = compiled.flags(assumptions.allowed)
        return best(compiled, objective, flags, self._guards.labels, deadline)

    def count(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> int:
        """Return the exact number of legal builds, told apart by the choices not derived.

        Derived choices need not be determined by the others; where they are, counting is faster.

        Raises ``OutOfTime`` also at once: when sums left out of the diagram have too many totals to
        be counted before the limit, or are several while derived choices are not determined.
        """
        deadline = Deadline(limit)
        compiled = self._compiled(space, assumptions, deadline)
        flags = compiled.flags(assumptions.allowed)
        return self._count(compiled, flags, deadline)

    def count_values(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Mapping[str, tuple[int, ...]]:
        """Return, for each value of every choice, the exact number of legal builds that have it.

        All values together take about three times as long as one count, unless derived choices
        are not determined or the budget has millions of totals; then there is one count for each.

        Raises ``OutOfTime`` as ``count`` does.
        """
        deadline = Deadline(limit)
        compiled = self._compiled(space, assumptions, deadline)
        flags = compiled.flags(assumptions.allowed)
        if compiled.determined:
            with suppress(TooWide):
                found = counted_values(compiled.form, compiled.limits, flags, deadline)
                return compiled.by_choice(found)
        return {
            choice.name: tuple(
                self._count(compiled, compiled.with_value(flags, choice.name, v), deadline)
                for v in range(choice.size)
            )
            for choice in space.choices
        }

    def front(
        self,
        space: Space,
        first: Objective,
        second: Objective,
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> tuple[FrontPoint, ...]:
        """Return the pairs of two totals that no legal build beats, from the least of the first.

        Raises ``OutOfTime`` also when there are too many partial builds to keep.
        """
        check_objective(space, first)
        check_objective(space, second)
        deadline = Deadline(limit)
        compiled = self._compiled(space, assumptions, deadline)
        flags = compiled.flags(assumptions.allowed)
        return front(compiled, first, second, flags, self._guards.labels, deadline)

    def sample(
        self,
        space: Space,
        number: int,
        seed: int,
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> list[Mapping[str, int]]:
        """Draw legal builds at random, each as likely as any other, with repetition.

        Args:
            space: the space.
            number: how many builds.
            seed: the same one draws the same builds.
            assumptions: what is taken for granted.
            limit: time for it.

        Returns:
            The builds, told apart by the choices not derived; none when there is no legal build.

        Raises:
            OutOfTime: also when hardly any build drawn keeps the sums that are not compiled.
        """
        deadline = Deadline(limit)
        compiled = self._compiled(space, assumptions, deadline)
        flags = compiled.flags(assumptions.allowed)
        return [compiled.build(each) for each in drawn(compiled, number, seed, flags, deadline)]

    def each(  # the signature is that of the contract
        self,
        space: Space,  # noqa: ARG002
        over: tuple[str, ...],  # noqa: ARG002
        assumptions: Assumptions = NOTHING,  # noqa: ARG002
        limit: Limit = DEFAULT_LIMIT,  # noqa: ARG002
    ) -> Iterator[tuple[int, ...]]:
        """Not offered: raises ``Unsupported``."""
        raise Unsupported("the diagram engine does not list builds")

    def _compiled(self, space: Space, assumptions: Assumptions, deadline: Deadline) -> Compiled:
        return self._sessions(space).compiled(space, assumptions.without, deadline)

    @staticmethod
    def _count(compiled: Compiled, flags: Flags, deadline: Deadline) -> int:
        if compiled.determined:
            return counted(compiled.form, compiled.limits, flags, deadline)
        if len(compiled.limits) > 1:
            keys = " and ".join(limit.keys[0] for limit in compiled.limits)
            raise OutOfTime(f"the diagram engine cannot count under {keys} at the same time")
        budget = compiled.budget
        return counted_apart(
            compiled.form, compiled.derived, budget.weights, budget.at_most, flags, deadline
        )

    def _verified(
        self,
        space: Space,
        assumptions: Assumptions,
        compiled: Compiled,
        flags: Flags,
        deadline: Deadline,
    ) -> Flags:
        """Decide each value under several sums; the search engine judges what stays open."""
        known = decided(compiled, flags)
        possible, pending = known.possible.copy(), known.open_values.copy()
        for name, number in compiled.names.items():
            begin, end = compiled.form.values[number : number + 2]
            for place in np.flatnonzero(pending[begin:end]).tolist():
                if not pending[begin + place]:
                    continue
                given = Assumptions(
                    {**assumptions.allowed, name: frozenset({place})}, assumptions.without
                )
                proof = self._search.prove(space, given, Limit(deadline.left))
                if isinstance(proof, Cut):
                    raise OutOfTime(f"value {place} of {name!r} was not decided in time")
                if isinstance(proof, Possible):
                    shown = compiled.places(proof.values)
                    possible[shown], pending[shown] = 1, 0
        return possible

"""The optimising engine: constraint programming over clauses and whole-number sums (OR-Tools)."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor, wait

from ortools.sat.python import cp_model

from baywright.engines.contract import (
    DEFAULT_LIMIT,
    NOTHING,
    Assumptions,
    Best,
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
from baywright.engines.linear import LinearModel
from baywright.engines.preparation import Deadline, check_objective
from baywright.space import Space

_STOP_AGAIN = 0.05
"""Seconds between two requests to stop; one made before the solver has begun is lost."""


class CpSat:
    """Answers every question but the exact count; strongest at the best build.

    Args:
        workers: threads of work for one question. With one, equal questions have equal
            witnesses; with more, only verdicts and optima are sure to be equal.
    """

    name = "cpsat"
    can: frozenset[Question] = frozenset(("prove", "best", "options", "each"))

    def __init__(self, workers: int = 1) -> None:
        self._workers = workers

    def prove(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Proof:
        """Find a legal build, or prove that none exists; the refusal names no core."""
        deadline = Deadline(limit)
        model = self._model(space, assumptions)
        try:
            values = self._first(model, deadline)
        except OutOfTime:
            return Cut()
        return Impossible() if values is None else Possible(values)

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
        return self._least(self._model(space, assumptions), objective, deadline)

    def best_of(
        self,
        space: Space,
        objectives: Sequence[Objective],
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> tuple[Optimum, ...]:
        """Find the least values of several objectives, each among the builds best in those before.

        Returns:
            The optimum of each objective in order, up to the first that is not proven. The build
            of the last optimum reaches all of those before.
        """
        for objective in objectives:
            check_objective(space, objective)
        deadline = Deadline(limit)
        model = self._model(space, assumptions)
        found: list[Optimum] = []
        for objective in objectives:
            optimum = self._least(model, objective, deadline)
            found.append(optimum)
            if not isinstance(optimum, Best):
                break
            model.hold(objective, optimum.value)
            model.start_from(optimum.values)
        return tuple(found)

    def _model(self, space: Space, assumptions: Assumptions) -> LinearModel:
        """Return a model of a question, for it alone."""
        return LinearModel(space, assumptions)

    def _least(self, model: LinearModel, objective: Objective, deadline: Deadline) -> Optimum:
        """Find the least value of the objective over the builds of a model."""
        model.minimise(objective)
        solver = self._solver(deadline)
        status = _solve(solver, model.model)
        if status == cp_model.INFEASIBLE:
            return Impossible()
        if status == cp_model.UNKNOWN:
            return Cut()
        values = model.values_in(solver)
        if status == cp_model.OPTIMAL:
            return Best(objective.value(values), values)
        # The bound comes as a floating-point number that is a whole number but for rounding.
        return Cut(objective.value(values), values, math.ceil(solver.best_objective_bound - 1e-6))

    def options(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Mapping[str, frozenset[int]]:
        """Return, for every choice, the values that some legal build has.

        Each round asks for a build with a value not seen so far, and prefers such values.
        """
        deadline = Deadline(limit)
        model = self._model(space, assumptions)
        unseen = {(name, v) for name, column in model.columns.items() for v in column}
        seen: dict[str, set[int]] = {choice.name: set() for choice in space.choices}
        while unseen:
            model.require_any(sorted(unseen))
            values = self._first(model, deadline)
            if values is None:
                break
            unseen.difference_update(values.items())
            for name, value in values.items():
                seen[name].add(value)
        return {name: frozenset(found) for name, found in seen.items()}

    def count(
        self,
        space: Space,  # noqa: ARG002 - the contract names it
        assumptions: Assumptions = NOTHING,  # noqa: ARG002
        limit: Limit = DEFAULT_LIMIT,  # noqa: ARG002
    ) -> int:
        """Raise ``Unsupported``: going through every build is another engine's work."""
        raise Unsupported("the cpsat engine does not count; ask search or diagram")

    def each(
        self,
        space: Space,
        over: tuple[str, ...],
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> Iterator[tuple[int, ...]]:
        """Yield each row of values of ``over`` that some legal build has, once.

        Every row is a new solve, so this is for tens of rows, not thousands.
        """
        deadline = Deadline(limit)
        model = self._model(space, assumptions)
        while (values := self._first(model, deadline)) is not None:
            row = tuple(values[name] for name in over)
            yield row
            model.exclude(over, row)

    def _first(self, model: LinearModel, deadline: Deadline) -> dict[str, int] | None:
        """Return a build, or ``None`` when there is none.

        Raises:
            OutOfTime: when the deadline passes first.
        """
        solver = self._solver(deadline)
        # Simplifying the model takes longer than solving it when any build will do.
        solver.parameters.cp_model_presolve = False
        status = _solve(solver, model.model)
        if status == cp_model.UNKNOWN:
            raise OutOfTime("the engine reached its limit")
        return None if status == cp_model.INFEASIBLE else model.values_in(solver)

    def _solver(self, deadline: Deadline) -> cp_model.CpSolver:
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = self._workers
        solver.parameters.random_seed = 1
        solver.parameters.max_time_in_seconds = deadline.left
        # Sums that oppose each other are seen by linear programming, and by little else.
        solver.parameters.linearization_level = 2
        # An interrupt from the keyboard must end the question, not read as its limit.
        solver.parameters.catch_sigint_signal = False
        return solver


def _solve(solver: cp_model.CpSolver, model: cp_model.CpModel) -> cp_model.CpSolverStatus:
    """Solve on a thread of its own, so that Ctrl-C is heard, and stop it when that comes.

    Raises:
        ValueError: when the numbers of the model are too large for the solver.
    """
    with ThreadPoolExecutor(1) as pool:
        work = pool.submit(solver.solve, model)
        try:
            status = work.result()
        finally:
            while not work.done():
                solver.stop_search()
                wait([work], timeout=_STOP_AGAIN)
    if status == cp_model.MODEL_INVALID:
        raise ValueError(f"the space does not fit the cpsat engine: {model.validate()}")
    return status

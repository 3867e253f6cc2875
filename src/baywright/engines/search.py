"""The search engine: clause learning over the logic program of a space (clingo).

One program is kept per space and solved again under other assumptions. It is the general
engine, and the independent judge of refusals.
"""

from __future__ import annotations

import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager

import clingo

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
)
from baywright.engines.preparation import Deadline, PerSpace, check_objective
from baywright.engines.program import Program
from baywright.space import Space

_SLICE = 0.2
"""Seconds after which a waiting engine looks for an interrupt from the keyboard."""


class Search:
    """Answers every question; deterministic, one thread of work per question."""

    name = "search"
    can: frozenset[Question] = frozenset(("prove", "best", "options", "count", "each"))

    def __init__(self) -> None:
        self._sessions = PerSpace(SearchSession)

    def prove(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Proof:
        """Find a legal build, or prove that none exists and name origin keys that suffice."""
        session = self._sessions(space)
        literals = session.program.literals(space, assumptions)
        try:
            with session.solving("auto", 1, literals) as handle:
                return proof(session.program, space, handle, Deadline(limit))
        except OutOfTime:
            return Cut()

    def options(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Mapping[str, frozenset[int]]:
        """Return, for every choice, the values that some legal build has."""
        session = self._sessions(space)
        program = session.program
        with session.solving("brave", 0, program.literals(space, assumptions)) as handle:
            deadline = Deadline(limit)
            while _next(handle, deadline) is not None:
                handle.resume()
            union = handle.last()
            return {
                name: frozenset(v for v, atom in enumerate(atoms) if union and union.is_true(atom))
                for name, atoms in program.values.items()
            }

    def best(
        self,
        space: Space,
        objective: Objective,
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> Optimum:
        """Find the least value of the objective over all legal builds, with proof."""
        check_objective(space, objective)
        session = SearchSession(space, objective=objective)
        names, found = tuple(session.program.values), None
        deadline = Deadline(limit)
        literals = session.program.literals(space, assumptions)
        with session.solving("auto", 0, literals) as handle:
            try:
                while (model := _next(handle, deadline)) is not None:
                    found = dict(zip(names, session.program.row(model, names), strict=True))
                    handle.resume()
            except OutOfTime:
                return Cut() if found is None else Cut(objective.value(found), found)
            if found is None:
                return Impossible(session.program.keys(handle.core()))
            return Best(objective.value(found), found)

    def count(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> int:
        """Return the exact number of legal builds, found by going through them one by one."""
        own = tuple(choice.name for choice in space.choices if not choice.derived)
        session = SearchSession(space, over=own)
        with session.solving("auto", 0, session.program.literals(space, assumptions)) as handle:
            return sum(1 for _ in _models(handle, Deadline(limit)))

    def each(
        self,
        space: Space,
        over: tuple[str, ...],
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> Iterator[tuple[int, ...]]:
        """Yield each row of values of ``over`` that some legal build has, once.

        The program is its own, so that other questions can be asked between two rows.
        """
        session = SearchSession(space, over=over)
        with session.solving("auto", 0, session.program.literals(space, assumptions)) as handle:
            for model in _models(handle, Deadline(limit)):
                yield session.program.row(model, over)


class SearchSession:
    """A program and the lock that lets one question at a time use it."""

    def __init__(
        self,
        space: Space,
        over: tuple[str, ...] | None = None,
        objective: Objective | None = None,
    ) -> None:
        self.program = Program(space, over, objective)
        # Solutions are told apart by their values alone, but the least one needs every atom.
        self._project = "no" if objective else "project"
        self._lock = threading.Lock()

    @contextmanager
    def solving(self, mode: str, models: int, literals: list[int]) -> Iterator[clingo.SolveHandle]:
        """Solve in the background under assumed literals; the work is stopped on leaving.

        Args:
            mode: how solutions are gone through, ``auto`` or ``brave``.
            models: the number of solutions wanted, 0 for all.
            literals: what is assumed.
        """
        with self._lock:
            settings = self.program.control.configuration.solve
            settings.enum_mode, settings.models = mode, models  # type: ignore[union-attr]
            settings.project = self._project  # type: ignore[union-attr]
            with self.program.control.solve(literals, yield_=True, async_=True) as handle:
                yield handle


def proof(program: Program, space: Space, handle: clingo.SolveHandle, deadline: Deadline) -> Proof:
    """Return what a solver finds first: a build, or that there is none."""
    model = _next(handle, deadline)
    if model is None:
        return Impossible(program.keys(handle.core()))
    names = tuple(choice.name for choice in space.choices)
    return Possible(dict(zip(names, program.row(model, names), strict=True)))


def _models(handle: clingo.SolveHandle, deadline: Deadline) -> Iterator[clingo.Model]:
    while (model := _next(handle, deadline)) is not None:
        yield model
        handle.resume()


def _next(handle: clingo.SolveHandle, deadline: Deadline) -> clingo.Model | None:
    """Wait for the next model, in slices so that Ctrl-C is heard; ``None`` when there is none.

    Raises:
        OutOfTime: when the deadline passes first.
    """
    while not handle.wait(min(_SLICE, deadline.left)):
        deadline.check()
    return handle.model()

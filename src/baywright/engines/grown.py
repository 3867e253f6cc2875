"""Engines for very many questions about one space: they take it in once and add what is asked.

What an engine learns from one question stays for the next, so that equal questions have equal
verdicts, but not always equal witnesses: these engines are for whoever wants to know whether.
A space that does not extend the one they keep is taken in as the engines they stand for do.
"""

from __future__ import annotations

import threading
from functools import cached_property

from baywright.engines.addition import Addition, addition
from baywright.engines.cancelling import implied_sums
from baywright.engines.contract import (
    DEFAULT_LIMIT,
    NOTHING,
    Assumptions,
    Cut,
    Limit,
    OutOfTime,
    Proof,
)
from baywright.engines.cpsat import CpSat
from baywright.engines.linear import LinearModel
from baywright.engines.preparation import Deadline
from baywright.engines.search import Search, SearchSession, proof
from baywright.space import Law, Space, Sum

MOST_KEPT = 2000
"""Keys that are added before a program is written anew; unused ones cost a little each time."""


class GrownSearch(Search):
    """The search engine with one program, to which the tables and sums of questions are added.

    Args:
        base: the space that the spaces asked about extend. What they have beyond it is known by
            its keys: the same key stands for the same choices, tables and sums in all of them.
    """

    def __init__(self, base: Space) -> None:
        super().__init__()
        self._base = base
        self._lock = threading.Lock()
        self._begin()

    def _begin(self) -> None:
        self._session = SearchSession(self._base)
        self._laws: dict[str, tuple[Law, ...]] = {}

    def prove(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Proof:
        """Find a legal build, or prove that none exists and name origin keys that suffice.

        Raises:
            ValueError: when a key stands for something else than before.
        """
        added = addition(self._base, space)
        if added is None:
            return super().prove(space, assumptions, limit)
        with self._lock:
            self._grow(added)
            program = self._session.program
            literals = program.literals(space, assumptions)
            try:
                with self._session.solving("auto", 1, literals) as handle:
                    return proof(program, space, handle, Deadline(limit))
            except OutOfTime:
                return Cut()

    def _grow(self, added: Addition) -> None:
        if len(self._laws) >= MOST_KEPT:
            self._begin()
        asked: dict[str, tuple[Law, ...]] = {}
        laws: tuple[Law, ...] = (*added.tables, *added.sums)
        for law in laws:
            asked[law.origin.key] = (*asked.get(law.origin.key, ()), law)
        new = {key: laws for key, laws in asked.items() if key not in self._laws}
        if any(self._laws[key] != laws for key, laws in asked.items() if key not in new):
            raise ValueError("a key stands for other laws than in an earlier question")
        if new:
            program = self._session.program
            fresh = added.only(new.__contains__, lambda name: name not in program.values)
            program.grow(fresh, implied_sums(self._sums(asked, new), fresh.sums))
            self._laws |= new

    def _sums(
        self, asked: dict[str, tuple[Law, ...]], new: dict[str, tuple[Law, ...]]
    ) -> list[Sum]:
        """Return the sums that stand beside those that are new: of the space, and asked before."""
        old = (law for key, laws in asked.items() if key not in new for law in laws)
        return [*self._base.sums, *(law for law in old if isinstance(law, Sum))]


class GrownCpSat(CpSat):
    """The optimising engine with one model, of which each question gets a copy with its own laws.

    Args:
        base: the space that the spaces asked about extend.
    """

    def __init__(self, base: Space) -> None:
        super().__init__()
        self._base = base

    @cached_property
    def _kept(self) -> LinearModel:
        return LinearModel(self._base, NOTHING)

    def _model(self, space: Space, assumptions: Assumptions) -> LinearModel:
        added = addition(self._base, space)
        if added is None or assumptions != NOTHING:
            return super()._model(space, assumptions)
        return self._kept.grown(added)

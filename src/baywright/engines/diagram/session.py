"""What is kept for one space: its compiled form, and those without some of its laws."""

from __future__ import annotations

import threading
from dataclasses import replace
from functools import cache

import numpy as np

from baywright.engines.contract import Limit, OutOfTime
from baywright.engines.diagram.compiled import Carried, Compiled
from baywright.engines.diagram.compiling import compiled_form
from baywright.engines.diagram.determining import determined, determined_in
from baywright.engines.diagram.form import Form
from baywright.engines.diagram.guards import Guards, TooHard
from baywright.engines.diagram.reading import Reading, read
from baywright.engines.diagram.storing import Shelf, content_key
from baywright.engines.preparation import Deadline
from baywright.space import Choice, Origin, Space, Table

_KEPT = 32
"""Compiled forms of one space, each without other laws, that are kept; the oldest goes first."""


class Session:
    """Compiles a space when it is first needed, once for each set of laws left out.

    Args:
        guards: limits of a compilation.
        shelf: where compiled spaces are kept for later processes, if anywhere.
    """

    def __init__(self, guards: Guards, shelf: Shelf | None = None) -> None:
        self._guards = guards
        self._shelf = shelf
        self._known: dict[frozenset[str], Compiled] = {}
        self._refused: dict[frozenset[str], str] = {}
        self._lock = threading.Lock()

    def compiled(self, space: Space, without: frozenset[str], deadline: Deadline) -> Compiled:
        """Return the compiled space without the laws of some origins.

        Raises:
            OutOfTime: when it cannot be compiled within the guards or before the deadline.
        """
        left_out = without.intersection(space.origins)
        with self._lock:
            if left_out not in self._known:
                while len(self._known) >= _KEPT:
                    del self._known[next(iter(self._known))]
                self._known[left_out] = self._fetch(space.without(left_out), left_out, deadline)
            return self._known[left_out]

    def _fetch(self, space: Space, without: frozenset[str], deadline: Deadline) -> Compiled:
        if self._shelf is None:
            return self._compile(space, without, deadline)
        key = content_key(space, self._guards)
        kept = self._shelf.get(key)
        if kept is None:
            kept = self._compile(space, without, deadline)
            self._shelf.put(key, kept)
        return kept

    def _compile(self, space: Space, without: frozenset[str], deadline: Deadline) -> Compiled:
        if without not in self._refused:
            try:
                return compile_space(space, self._guards, deadline)
            except TooHard as hard:
                self._refused[without] = str(hard)
        raise OutOfTime(f"the diagram engine could not compile the space: {self._refused[without]}")


def compile_space(space: Space, guards: Guards, deadline: Deadline) -> Compiled:
    """Compile a space; where a limit is reached, without the sums that are hardest on it.

    Sums left out this way are carried along the arcs like the budget. The time is halved with each
    attempt, so that all of them together keep within the limit.

    Raises:
        TooHard: when nothing is left to leave out.
        OutOfTime: at the deadline.
    """
    _prepare_loops()
    defer: frozenset[str] = frozenset()
    seconds = guards.seconds
    while True:
        reading = read(space, guards, deadline, defer)
        seconds = seconds / 2 if reading.hardest else seconds
        try:
            form = compiled_form(reading.model, replace(guards, seconds=seconds), deadline)
        except TooHard:
            if not reading.hardest:
                raise
            defer |= reading.hardest
        else:
            return _compiled(space, reading, form)


@cache
def _prepare_loops() -> None:
    """Have the loops compiled once, so that this is not taken for the work of a space."""
    origin = Origin("loops", "law", "Two values differ.")
    rows = frozenset({(0, 1), (1, 0)})
    pairs = (("a", "b"), ("b", "c"), ("c", "d"))
    space = Space(
        tuple(Choice(name, ("0", "1")) for name in "abcd"),
        tuple(Table(pair, rows, origin) for pair in pairs),
    )
    deadline = Deadline(Limit(600))
    compiled_form(read(space, Guards(), deadline).model, Guards(seconds=600), deadline)


def _compiled(space: Space, reading: Reading, form: Form) -> Compiled:
    names = {choice.name: number for number, choice in enumerate(space.choices)}
    auxiliary = range(len(space.choices), len(reading.model.sizes))
    own = {number for number, choice in enumerate(space.choices) if choice.derived}
    derived = frozenset(own.union(auxiliary))
    shown = determined(space) or determined_in(form, derived)
    return Compiled(names, form, _carried(reading), derived, shown)


def _carried(reading: Reading) -> tuple[Carried, ...]:
    return tuple(
        Carried(np.concatenate(limit.weights), limit.at_most, limit.keys)
        for limit in reading.limits
    )

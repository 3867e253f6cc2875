"""A book on the bench: what is still possible after some choices, answered in milliseconds."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.answers.refused import Refusal, Refuser
from baywright.desk.bench.remembering import Remembered
from baywright.desk.opening import Opened, open_book
from baywright.engines.contract import (
    Assumptions,
    Best,
    Cut,
    Engine,
    Impossible,
    Limit,
    Objective,
    OutOfTime,
    Possible,
    Unsupported,
)
from baywright.engines.diagram import Diagram
from baywright.laws.linear import Linear, whole
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, with_wishes
from baywright.space import Space, broken

NOTHING: Mapping[str, int] = {}

COUNTING = Limit(2.0)
"""Time for a count; the bundled books take milliseconds."""


@dataclass
class Bench:
    """An open book with an engine that compiles it once; shared by all who work on it.

    Args:
        opened: the book. Where facts are unknown, it is the first way they could be.
        engine: answers what is possible; several may ask at the same time.
        musts: what has to hold beside the laws.
        pictures: drawings made before.
    """

    opened: Opened
    engine: Engine
    musts: tuple[Wish, ...] = ()
    _free: Mapping[str, frozenset[int]] = field(default_factory=dict)
    pictures: Remembered[str] = field(default_factory=lambda: Remembered(512))
    _most: Remembered[Fraction] = field(default_factory=lambda: Remembered(4096))
    _counts: Remembered[int] = field(default_factory=lambda: Remembered(4096))
    _refusals: Remembered[Refusal] = field(default_factory=lambda: Remembered(4096))
    _explaining: threading.Lock = field(default_factory=threading.Lock)

    def __post_init__(self) -> None:
        self.machine: Machine = self.opened.machine
        self.space: Space = with_wishes(self.machine.space, self.musts)
        self.by_price: Objective = by_price(self.machine)
        self._ends: dict[str, Objective] = {}
        self._uncounted = -1

    def warm(self) -> None:
        """Compile the book, so that the first who asks need not wait for it."""
        self._free = self.options(NOTHING)

    @property
    def free(self) -> Mapping[str, frozenset[int]]:
        """What each choice can be in some legal build, with nothing chosen."""
        if not self._free:
            self.warm()
        return self._free

    def options(self, chosen: Mapping[str, int]) -> Mapping[str, frozenset[int]]:
        """Return what each choice can still be.

        Raises:
            StoppedError: at the limit.
        """
        limit = self.opened.panel.limit
        try:
            return self.engine.options(self.space, _given(chosen), limit)
        except OutOfTime as late:
            raise StoppedError(f"{self.engine.name} worked for {limit.seconds:g} s") from late

    def possible(self, chosen: Mapping[str, int]) -> bool:
        """Say whether some legal build has these choices.

        Raises:
            StoppedError: at the limit.
        """
        found = self.engine.prove(self.space, _given(chosen), self.opened.panel.limit)
        if isinstance(found, Cut):
            raise StoppedError(f"{self.engine.name} did not decide it in time")
        return isinstance(found, Possible)

    def least(self, objective: Objective, chosen: Mapping[str, int]) -> Mapping[str, int] | None:
        """Return a legal build with these choices that has the least of an objective.

        Raises:
            StoppedError: at the limit.
            RecheckError: when the engine's build breaks a law.
        """
        space, limit = self.space, self.opened.panel.limit
        found = self.engine.best(space, objective, _given(chosen), limit)
        if isinstance(found, Impossible):
            return None
        if not isinstance(found, Best):
            raise StoppedError(f"{self.engine.name} did not find the least in time")
        if broken(space, found.values):
            raise RecheckError(f"the build found by {self.engine.name} breaks a law")
        return {each.name: found.values[each.name] for each in self.machine.space.choices}

    def most(self, name: str, chosen: Mapping[str, int]) -> Fraction | None:
        """Return the most that a total can be with these choices, or ``None`` when nothing fits.

        Raises:
            KeyError: when the book has no such total.
            StoppedError: at the limit.
            RecheckError: when the engine's build breaks a law.
        """
        linear = total(self.machine, name)
        if name not in self._ends:
            self._ends[name] = Objective(tuple(whole(linear).items())).negated()
        key = (name, *sorted(chosen.items()))
        known = self._most.known(key)
        if known is not None:
            return known
        found = self.least(self._ends[name], chosen)
        return None if found is None else self._most.get(key, lambda: linear.value(found))

    def count(self, chosen: Mapping[str, int]) -> int | None:
        """Return how many legal builds have these choices, exactly.

        Returns:
            The number, or ``None`` where it would take longer than a step may; with as few
            choices or fewer it is not tried again.
        """
        key = tuple(sorted(chosen.items()))
        found = self._counts.known(key)
        if found is not None or len(chosen) <= self._uncounted:
            return found
        try:
            number = self.engine.count(self.space, _given(chosen), COUNTING)
        except (OutOfTime, Unsupported):
            self._uncounted = len(chosen)
            return None
        return self._counts.get(key, lambda: number)

    def refusal(self, chosen: Mapping[str, int], choice: str, value: int) -> Refusal:
        """Return why a value is closed; kept, because it is asked again and again.

        Raises:
            ValueError: when it is not closed.
            StoppedError: at a limit.
            RecheckError: when the engines do not agree.
        """
        key = (choice, value, *sorted(chosen.items()))
        return self._refusals.get(key, lambda: self._explained(chosen, choice, value))

    def _explained(self, chosen: Mapping[str, int], choice: str, value: int) -> Refusal:
        panel = self.opened.panel
        refuser = Refuser(self.space, self.engine, panel.prover, panel.limit)
        # The prover keeps what it prepared from one question to the next, for one at a time.
        with self._explaining:
            return refuser.explain(chosen, choice, value)

    def known_refusal(self, chosen: Mapping[str, int], choice: str, value: int) -> Refusal | None:
        """Return why a value is closed if that has been found before, and ``None`` otherwise."""
        return self._refusals.known((choice, value, *sorted(chosen.items())))


def open_bench(name: str) -> Bench:
    """Open a book on the bench, compiled.

    Raises:
        Problems: everything that is wrong with the book.
    """
    bench = Bench(open_book(name), Diagram())
    bench.warm()
    return bench


def _given(chosen: Mapping[str, int]) -> Assumptions:
    return Assumptions({name: frozenset({value}) for name, value in chosen.items()})


def without(chosen: Mapping[str, int], names: Iterable[str]) -> dict[str, int]:
    """Return choices without some of them."""
    gone = frozenset(names)
    return {name: value for name, value in chosen.items() if name not in gone}


def total(machine: Machine, name: str) -> Linear:
    """Return a number of a build that is a plain total, such as its price.

    Raises:
        KeyError: when the book has no such total.
    """
    meaning = machine.names[name].meaning
    if not isinstance(meaning, Linear):
        raise KeyError(name)
    return meaning


def by_price(machine: Machine) -> Objective:
    """Return the objective of the cheapest build."""
    return Objective(tuple(whole(total(machine, "price")).items()))


def by_parts(machine: Machine) -> Objective:
    """Return the objective of the build with the fewest parts."""
    rows = (
        (name, tuple(option.count for option in fitting.options))
        for name, fitting in machine.frame.fittings.items()
        if not fitting.derived
    )
    return Objective(tuple(row for row in rows if any(row[1])))


def elapsed(start: float) -> float:
    """Return the milliseconds since a moment of ``time.perf_counter``."""
    return (time.perf_counter() - start) * 1000

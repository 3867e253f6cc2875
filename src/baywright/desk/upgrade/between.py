"""The states between two builds: which of them may be, and what the machine lacks in them.

A state has some choices as the first build has them and the others as the last. It may be when it
is legal, when no part stands in two places at once, and when no drive that stays is out of the
machine: a drive that is moved takes its data along in one step.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial

from baywright.answers.inquiry import Panel, RecheckError, StoppedError
from baywright.desk.judging import LIMITS
from baywright.desk.upgrade.sequence import Done, OutOfStatesError
from baywright.engines.contract import (
    Assumptions,
    Best,
    Cut,
    Impossible,
    Objective,
    Possible,
)
from baywright.engines.preparation import Deadline
from baywright.facts.parts import Drive, Part
from baywright.laws.blanks import blanks
from baywright.laws.builds import parts_list
from baywright.laws.frame import Option
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.space import Assignment, Origin, Sum, broken

BLANKS = "a blank for every empty bay and place"
"""The protection that a state lacks which needs more blanks than both ends have."""


_SOME = Origin("upgrade.some", "law", "Something is changed.")
_STOCK = "upgrade.stock"
_DATA = "upgrade.data"


@dataclass
class Between:
    """The states between two builds of a machine.

    Args:
        machine: the machine.
        start: the first build, complete.
        target: the last build, complete.
        panel: the engines: the prover finds out whether a state is legal, the optimiser which
            changes at once lead to one. The time for the best order is that for the best of all.
    """

    machine: Machine
    start: Assignment
    target: Assignment
    panel: Panel
    changes: tuple[str, ...] = field(init=False)
    _known: dict[tuple[int, ...], Assignment | None] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        fittings = self.machine.frame.fittings.items()
        self._own = [name for name, fitting in fittings if not fitting.derived]
        self.changes = tuple(n for n in self._own if self.start[n] != self.target[n])
        self.space = self.machine.space.extended(sums=list(self._stock()))
        first, last = (Counter(blanks(self.machine, each)) for each in (self.start, self.target))
        self._blanks = first | last
        self._deadline = Deadline(self.panel.patience_for_the_best)

    def _stock(self) -> Iterator[Sum]:
        """Yield the sums that keep parts from standing twice, and drives in the machine."""
        owned, wanted = (Counter(parts_list(self.machine, s)) for s in (self.start, self.target))
        once = Origin(_STOCK, "law", "No part stands in two places at once.")
        data = Origin(_DATA, "law", "A drive that stays is moved in one step, with its data.")
        for part in owned | wanted:
            fitted = self.machine.frame.linear(partial(_is, part)).weights.items()
            weights = tuple((name, tuple(map(int, row))) for name, row in fitted)
            yield Sum(weights, max(owned[part], wanted[part]), once)
            if isinstance(self.machine.book.parts[part], Drive):
                least = tuple((name, tuple(-number for number in row)) for name, row in weights)
                yield Sum(least, -min(owned[part], wanted[part]), data)

    def at(self, done: Done) -> dict[str, int]:
        """Return the choices of a state that are not derived."""
        values = {name: self.start[name] for name in self._own}
        values.update(
            {name: self.target[name] for i, name in enumerate(self.changes) if done >> i & 1}
        )
        return values

    def allowed(self, done: Done) -> bool:
        """Say whether a state may be.

        Raises:
            StoppedError: at the limit of one state.
            RecheckError: when the engine's build breaks a law.
        """
        return self.build(self.at(done)) is not None

    def allowed_in_time(self, done: Done) -> bool:
        """Say whether a state may be; otherwise like ``allowed``.

        Raises:
            OutOfStatesError: when the time for the best order is up.
        """
        if not self._deadline.left:
            raise OutOfStatesError
        return self.allowed(done)

    def build(self, values: Mapping[str, int]) -> Assignment | None:
        """Return the complete build of a state, re-checked, or ``None`` when it may not be.

        Raises:
            StoppedError: at the limit.
            RecheckError: when the engine's build breaks a law.
        """
        key = tuple(values[name] for name in self._own)
        if key not in self._known:
            self._known[key] = self._legal(values)
        return self._known[key]

    def why_not(self, values: Mapping[str, int]) -> tuple[str, ...]:
        """Return the sentences of a few laws that a state breaks, each of them needed for that."""
        found = self.panel.prover.prove(self.space, _pinned(values), self.panel.limit)
        if not isinstance(found, Impossible) or found.core is None:
            return ()
        keys = self._needed(values, sorted(found.core))
        return tuple(dict.fromkeys(self.space.origins[key].sentence for key in keys))

    def smallest(self, done: Done) -> tuple[int, ...]:
        """Return the fewest changes that, made at once in a state, lead to one that may be."""
        values = self.at(done)
        left = [i for i in range(len(self.changes)) if not done >> i & 1]
        allowed = {name: frozenset({at}) for name, at in values.items()}
        weights = []
        for i in left:
            name = self.changes[i]
            allowed[name] = frozenset({self.start[name], self.target[name]})
            sizes = range(self.space.choice(name).size)
            weights.append((name, tuple(int(at == self.target[name]) for at in sizes)))
        some = tuple((name, tuple(-number for number in row)) for name, row in weights)
        space = self.space.extended(sums=[Sum(some, -1, _SOME)])
        found = self.panel.optimiser.best(
            space, Objective(tuple(weights)), Assumptions(allowed), self.panel.limit
        )
        if not isinstance(found, Best):
            return tuple(left)
        return tuple(i for i in left if found.values[self.changes[i]] != values[self.changes[i]])

    def passed(self, done: Done, change: int) -> Iterator[dict[str, int] | None]:
        """Yield the states that a change made piece by piece goes through.

        Yields ``None`` for one in which the place would hold what no option of it holds.
        """
        name, values = self.changes[change], self.at(done)
        options = self.machine.frame.options(name)
        first, last = options[self.start[name]], options[self.target[name]]
        for pieces in piece_by_piece(Counter(dict(first.parts)), Counter(dict(last.parts))):
            at = _index(options, pieces)
            yield None if at is None else {**values, name: at}

    def lacking(self, values: Assignment) -> frozenset[str]:
        """Return the protections that a complete build lacks, enough blanks among them."""
        limits = {
            words
            for words, used, given, needed in LIMITS
            if not needed and not self._kept(values, used, given)
        }
        short = any(number > self._blanks[b] for b, number in blanks(self.machine, values).items())
        return frozenset(limits | ({BLANKS} if short else set()))

    def exposed(self, done: Done) -> frozenset[str]:
        """Return the protections that a state lacks and both ends have."""
        values = self.build(self.at(done))
        if values is None:
            return frozenset()
        return self.lacking(values) - self.lacking(self.start) - self.lacking(self.target)

    def _kept(self, values: Assignment, used: str, given: str) -> bool:
        mine, theirs = self.machine.names[used].meaning, self.machine.names[given].meaning
        if not isinstance(mine, Linear) or not isinstance(theirs, Linear):
            return True
        return mine.value(values) <= theirs.value(values)

    def _legal(self, values: Mapping[str, int]) -> Assignment | None:
        engine, limit = self.panel.prover, self.panel.limit
        found = engine.prove(self.space, _pinned(values), limit)
        if isinstance(found, Cut):
            raise StoppedError(f"{engine.name} worked for {limit.seconds:g} s")
        if not isinstance(found, Possible):
            return None
        if broken(self.space, found.values):
            raise RecheckError(f"the state found by {engine.name} breaks a law")
        return found.values

    def _needed(self, values: Mapping[str, int], keys: Sequence[str]) -> list[str]:
        """Return a part of some laws that a state still breaks, each of them needed for that."""
        every, kept = frozenset(self.space.origins), list(keys)
        for key in keys:
            rest = [other for other in kept if other != key]
            pinned = Assumptions(_pinned(values).allowed, every - frozenset(rest))
            found = self.panel.prover.prove(self.space, pinned, self.panel.limit)
            if isinstance(found, Impossible):
                kept = rest
        return kept


def _is(wanted: str, name: str, _: Part) -> int:
    return int(name == wanted)


def piece_by_piece(first: Counter[str], last: Counter[str]) -> Iterator[dict[str, int]]:
    """Yield what a place holds on the way from one filling to another, one piece at a time.

    Where something goes and something comes, one piece makes room for the next.

    >>> list(piece_by_piece(Counter(a=1), Counter(a=3)))
    [{'a': 2}]
    >>> list(piece_by_piece(Counter(a=2), Counter(b=2)))
    [{'a': 1}, {'a': 1, 'b': 1}, {'b': 1}]
    """
    held = Counter(first)
    going, coming = list((first - last).elements()), list((last - first).elements())
    while going or coming:
        if going:
            held[going.pop(0)] -= 1
            if going or coming:
                yield dict(+held)
        if coming:
            held[coming.pop(0)] += 1
            if going or coming:
                yield dict(+held)


def _index(options: Sequence[Option], pieces: Mapping[str, int]) -> int | None:
    held = (dict(option.parts) == pieces and option.value is None for option in options)
    return next((index for index, same in enumerate(held) if same), None)


def _pinned(values: Mapping[str, int]) -> Assumptions:
    return Assumptions({name: frozenset({at}) for name, at in values.items()})

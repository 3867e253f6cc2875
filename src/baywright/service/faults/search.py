"""The order of checks with the least expected minutes until a single fault is put right.

A look shows something of every fault at once and splits those that can still be. A swap fits a part
that is known to work: either that was the fault, and the machine is repaired, or it was not. Every
fault ends with its own swap, so the minutes of that are counted as well.

Faults that can be exchanged without any difference are counted, not named: a state is how many are
left of each sort, and which looks are left. Where no look is left that splits them, the best order
of swaps is by weight over minutes, the greatest first (W. E. Smith, Various optimizers for
single-stage production, 1956, from memory: for a sum of weighted completion times). Otherwise every
look and every swap is tried, exactly, as long as there are no more than ``MOST_STATES`` states.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeAlias

MOST_STATES = 20_000
"""More states than this are not gone through; then looks come first, and swaps behind the last.

That takes as many states as there are sets of looks, times what they show.
"""

SAME = 1e-9
"""Minutes that differ by less than this share of themselves are the same."""

Counts: TypeAlias = tuple[int, ...]
"""How many faults are left of each sort."""

OWN = "own"
"""Stands for what a look shows of no other fault."""


@dataclass(frozen=True, slots=True)
class Look:
    """A look at all faults.

    Args:
        minutes: how long it takes [min], 0 or more.
        outcomes: what it shows with each fault.
    """

    minutes: float
    outcomes: tuple[Hashable, ...]


@dataclass(frozen=True, slots=True)
class Task:
    """Faults to find, one of which is there.

    Args:
        weights: how likely each is; they need not add up to 1.
        minutes: how long the swap of each takes [min], or ``None`` where it cannot be done.
        looks: the looks there are.
    """

    weights: tuple[float, ...]
    minutes: tuple[float | None, ...]
    looks: tuple[Look, ...]


@dataclass(frozen=True, slots=True)
class Sort:
    """Faults that can be exchanged without any difference.

    Args:
        members: their numbers in the task.
        weight: how likely each is.
        minutes: how long a swap takes [min], or ``None``.
        outcomes: what each look shows; ``OWN`` where it shows that of no other fault.
    """

    members: tuple[int, ...]
    weight: float
    minutes: float | None
    outcomes: tuple[Hashable, ...]


@dataclass(frozen=True, slots=True)
class State:
    """What can still be, and the looks that are left."""

    counts: Counts
    looks: frozenset[int]


@dataclass(frozen=True, slots=True)
class LookFirst:
    """Look next."""

    look: int


@dataclass(frozen=True, slots=True)
class SwapFirst:
    """Swap one of a sort next."""

    sort: int


@dataclass(frozen=True, slots=True)
class SwapAll:
    """Swap one after the other, whole sorts in this order; nothing else can be learned."""

    order: tuple[int, ...]


Move: TypeAlias = LookFirst | SwapFirst | SwapAll


class TooManyStatesError(Exception):
    """There are more states than are gone through."""


def sorts_of(task: Task) -> tuple[Sort, ...]:
    """Return the sorts of a task, in the order of their first members."""
    counts = [_counted(look.outcomes) for look in task.looks]
    found: dict[tuple[float, float | None, tuple[Hashable, ...]], list[int]] = {}
    for i, weight in enumerate(task.weights):
        shown = tuple(
            look.outcomes[i] if counts[k][look.outcomes[i]] > 1 else OWN
            for k, look in enumerate(task.looks)
        )
        found.setdefault((weight, task.minutes[i], shown), []).append(i)
    return tuple(Sort(tuple(members), *key) for key, members in found.items())


def _counted(outcomes: Sequence[Hashable]) -> dict[Hashable, int]:
    counts: dict[Hashable, int] = {}
    for each in outcomes:
        counts[each] = counts.get(each, 0) + 1
    return counts


@dataclass(eq=False)
class Search:
    """The best order of checks for every state that comes up.

    Args:
        task: the faults and the looks.
        exact: whether swaps may come before looks; if not, looks come first.
    """

    task: Task
    exact: bool = True
    _known: dict[State, tuple[float, Move]] = field(default_factory=dict)
    _bounds: dict[State, float] = field(default_factory=dict)

    @cached_property
    def sorts(self) -> tuple[Sort, ...]:
        """The sorts of faults."""
        return sorts_of(self.task)

    @cached_property
    def start(self) -> State:
        """Everything can be, and nothing has been looked at."""
        return State(
            tuple(len(each.members) for each in self.sorts), frozenset(range(len(self.task.looks)))
        )

    def weight(self, counts: Counts) -> float:
        """Return how likely it is that the fault is among those left."""
        return math.fsum(n * each.weight for n, each in zip(counts, self.sorts, strict=True))

    def value(self, state: State) -> float:
        """Return the least minutes from a state on, each weighed with its fault [min].

        Raises:
            TooManyStatesError: where they are too many to go through.
        """
        return self._solved(state)[0]

    def move(self, state: State) -> Move:
        """Return the best move in a state."""
        return self._solved(state)[1]

    def _solved(self, state: State) -> tuple[float, Move]:
        useful = State(state.counts, frozenset(self._splitting(state)))
        found = self._known.get(useful)
        if found is None:
            if self.exact and len(self._known) >= MOST_STATES:
                raise TooManyStatesError
            found = self._known[useful] = self._best(useful)
        return found

    def _best(self, state: State) -> tuple[float, Move]:
        order = self._order(state.counts)
        best: tuple[float, Move] = (self._swaps(state.counts, order), SwapAll(order))
        if not state.looks:
            return best
        for look in sorted(state.looks, key=lambda each: self.task.looks[each].minutes):
            best = min(best, (self._looked(state, look), LookFirst(look)), key=_minutes)
            if not self.task.looks[look].minutes:
                return self._looked(state, look), LookFirst(look)
        return self._swapped(state, best) if self.exact else best

    def _looked(self, state: State, look: int) -> float:
        spent = self.task.looks[look].minutes * self.weight(state.counts)
        rest = state.looks - {look}
        return spent + math.fsum(
            times * self.value(State(counts, rest))
            for _, counts, times in self.split(state.counts, look)
        )

    def _swapped(self, state: State, best: tuple[float, Move]) -> tuple[float, Move]:
        """Return the best move when a swap may come first; what cannot be better is not tried."""
        whole = self.weight(state.counts)
        for i, each in enumerate(self.sorts):
            if state.counts[i] and each.minutes is not None:
                rest = State(_less(state.counts, i), state.looks)
                spent = each.minutes * whole
                if spent + self.bound(rest) < best[0] * (1 - SAME):
                    best = min(best, (spent + self.value(rest), SwapFirst(i)), key=_minutes)
        return best

    def _splitting(self, state: State) -> Iterator[int]:
        """Yield the looks that tell some of the faults apart which are left."""
        for look in state.looks:
            shown: set[Hashable] = set()
            for i, each in enumerate(self.sorts):
                own = each.outcomes[look] == OWN
                if state.counts[i]:
                    shown.update(
                        (OWN, i, k) if own else each.outcomes[look]
                        for k in range(min(2, state.counts[i]))
                    )
            if len(shown) > 1:
                yield look

    def split(self, counts: Counts, look: int) -> Iterator[tuple[Hashable, Counts, int]]:
        """Yield what a look can show, what is left then, and how many such outcomes there are."""
        groups: dict[Hashable, list[int]] = {}
        for i, each in enumerate(self.sorts):
            if counts[i] and each.outcomes[look] == OWN:
                yield OWN, _only(counts, i), counts[i]
            elif counts[i]:
                groups.setdefault(each.outcomes[look], [0] * len(counts))[i] = counts[i]
        yield from ((shown, tuple(left), 1) for shown, left in groups.items())

    def _order(self, counts: Counts) -> tuple[int, ...]:
        """Return sorts by weight over minutes, the greatest first; what has no swap comes last."""
        held = [i for i, n in enumerate(counts) if n]
        return tuple(sorted(held, key=lambda i: self._urgency(self.sorts[i])))

    @staticmethod
    def _urgency(each: Sort) -> tuple[bool, float]:
        if each.minutes is None:
            return True, 0.0
        return False, -each.weight / each.minutes if each.minutes else -math.inf

    def _swaps(self, counts: Counts, order: Sequence[int]) -> float:
        """Return the weighed minutes of swapping in an order; without a swap it costs those before.

        The k-th of n alike waits for k swaps of its sort, which is n (n + 1) / 2 in all.
        """
        spent, total = 0.0, 0.0
        for i in order:
            each, n = self.sorts[i], counts[i]
            own = each.minutes or 0.0
            total += each.weight * (n * spent + own * n * (n + 1) / 2)
            spent += n * own
        return total

    def bound(self, state: State) -> float:
        """Return minutes that no order can go below: the looks left cost nothing [min]."""
        found = self._bounds.get(state)
        if found is None:
            found = self._bounds[state] = math.fsum(
                self._swaps(counts, self._order(counts)) * times
                for counts, times in self._told_apart(state)
            )
        return found

    def _told_apart(self, state: State) -> Iterator[tuple[Counts, int]]:
        """Yield the faults that even all looks left cannot tell apart."""
        groups: dict[tuple[Hashable, ...], list[int]] = {}
        for i, each in enumerate(self.sorts):
            shown = tuple(each.outcomes[look] for look in sorted(state.looks))
            if state.counts[i] and OWN in shown:
                yield _only(state.counts, i), state.counts[i]
            elif state.counts[i]:
                groups.setdefault(shown, [0] * len(state.counts))[i] = state.counts[i]
        yield from ((tuple(left), 1) for left in groups.values())


def _minutes(found: tuple[float, Move]) -> float:
    return found[0]


def _less(counts: Counts, at: int) -> Counts:
    return (*counts[:at], counts[at] - 1, *counts[at + 1 :])


def _only(counts: Counts, at: int) -> Counts:
    return tuple(int(i == at) for i in range(len(counts)))


@dataclass(frozen=True, slots=True)
class Solution:
    """An order of checks, and how good it is.

    Args:
        search: the moves.
        minutes: expected minutes until the machine is repaired [min].
        bound: minutes that no order goes below [min]; the same where the order is the best.
        exact: whether it is the best.
    """

    search: Search
    minutes: float
    bound: float
    exact: bool


def solve(task: Task) -> Solution:
    """Return the best order of checks, or a good one with a bound where there are too many states.

    Args:
        task: the faults and the looks; the weights come to more than 0.
    """
    exact = Search(task)
    whole = math.fsum(task.weights)
    try:
        minutes = exact.value(exact.start) / whole
    except TooManyStatesError:
        near = Search(task, exact=False)
        minutes = near.value(near.start) / whole
        bound = max(near.bound(near.start) / whole, information_bound(task))
        return Solution(near, minutes, bound, exact=bound >= minutes * (1 - SAME))
    return Solution(exact, minutes, minutes, exact=True)


def entropy(weights: Sequence[float]) -> float:
    """Return the entropy of some weights, scaled to a sum of 1 [bit].

    >>> entropy([1.0, 1.0, 2.0])
    1.5
    """
    whole = math.fsum(weights)
    shares = [weight / whole for weight in weights if weight > 0]
    return math.fsum(-share * math.log2(share) for share in shares)


def information_bound(task: Task) -> float:
    """Return minutes that no order goes below, by information [min].

    Telling the faults apart takes their entropy, a swap tells at most 1 bit and a look at most the
    logarithm of its outcomes; so it takes at least the entropy over the most bits in a minute.
    """
    rates = [1.0 / each if each else math.inf for each in task.minutes if each is not None]
    for look in task.looks:
        bits = math.log2(len(set(look.outcomes)))
        rates.append(bits / look.minutes if look.minutes else math.inf if bits else 0.0)
    most = max(rates, default=math.inf)
    if math.isinf(most) or None in task.minutes:
        return 0.0
    return entropy(task.weights) / most if most else 0.0

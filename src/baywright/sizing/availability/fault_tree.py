"""Fault trees: minimal cut sets, exact odds and their rare-event sum.

A tree has events, which are failures of parts, and gates. A gate fails when at least some of its
inputs have failed: one for OR, all for AND, k for a vote. The same event may stand in a tree more
than once; that is how one cause takes away several parts.
"""

from __future__ import annotations

import itertools
import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from baywright.sizing.equation import ASSUMED, equation

CutSet: TypeAlias = frozenset[str]
"""Names of events that together bring the top of a tree."""

MOST_CUT_SETS = 200_000
"""More than this in one gate, and a tree is refused: its cut sets would help nobody."""


@dataclass(frozen=True, slots=True)
class Event:
    """The failure of one part.

    Args:
        name: name of the part; two events of one name are the same event.
        odds: odds that it is down [1].
    """

    name: str
    odds: float


@dataclass(frozen=True, slots=True)
class Gate:
    """A function that fails when enough of what it needs has failed.

    Args:
        name: name of the function.
        fails_at: number of failed inputs at which it fails; 1 is OR, all of them is AND.
        inputs: events and gates.
    """

    name: str
    fails_at: int
    inputs: tuple[Tree, ...]

    def __post_init__(self) -> None:
        """Refuse a gate that could not be read."""
        if self.fails_at < 1:
            raise ValueError(f"{self.name} fails at {self.fails_at} failed inputs; 1 or more")


Tree: TypeAlias = Event | Gate


def series(name: str, inputs: Iterable[Tree]) -> Gate:
    """Return a gate that fails with any of its inputs."""
    return Gate(name, 1, tuple(inputs))


def parallel(name: str, inputs: Iterable[Tree]) -> Gate:
    """Return a gate that fails once all of its inputs have."""
    every = tuple(inputs)
    return Gate(name, max(1, len(every)), every)


def events_of(tree: Tree) -> Mapping[str, float]:
    """Return the odds of each event of a tree, by name.

    Raises:
        ValueError: when one event has two different odds.
    """
    found: dict[str, float] = {}
    for event in _walk(tree):
        before = found.setdefault(event.name, event.odds)
        if before != event.odds and not (math.isnan(before) and math.isnan(event.odds)):
            raise ValueError(f"{event.name} stands in the tree with two different odds")
    return found


def _walk(tree: Tree) -> Iterator[Event]:
    if isinstance(tree, Event):
        yield tree
    else:
        for each in tree.inputs:
            yield from _walk(each)


@equation(
    "V7",
    "minimal cut sets: OR joins the sets of its inputs, AND forms their unions, and a set that "
    "holds another is dropped",
    source="Fault Tree Handbook, NUREG-0492, chapter VII, from memory",
)
def minimal_cut_sets(tree: Tree, largest: int | None = None) -> frozenset[CutSet]:
    """Return the smallest sets of events that bring the top of a tree.

    Args:
        tree: the tree.
        largest: leave out sets of more events than this, or ``None`` for all.

    Returns:
        Sets of event names, none of which holds another.

    Raises:
        ValueError: when a gate has more than ``MOST_CUT_SETS`` combinations.
    """
    if isinstance(tree, Event):
        return frozenset({frozenset({tree.name})})
    inputs = [minimal_cut_sets(each, largest) for each in tree.inputs]
    if largest is not None and tree.fails_at > largest and _disjoint(tree):
        return frozenset()
    ways = math.comb(len(inputs), tree.fails_at)
    if ways > MOST_CUT_SETS:
        raise ValueError(f"{tree.name} has {ways} ways to fail; ask for small cut sets only")
    found: set[CutSet] = set()
    for chosen in itertools.combinations(inputs, tree.fails_at):
        found |= _unions(chosen, largest)
    return _minimal(found)


def _disjoint(gate: Gate) -> bool:
    """Whether no event stands below two inputs of a gate, so that sets add their sizes."""
    below = [name for each in gate.inputs for name in events_of(each)]
    return len(below) == len(set(below))


def _unions(chosen: Iterable[frozenset[CutSet]], largest: int | None) -> set[CutSet]:
    joined: set[CutSet] = {frozenset()}
    for sets in chosen:
        joined = {one | other for one in joined for other in sets}
        if largest is not None:
            joined = {each for each in joined if len(each) <= largest}
        if len(joined) > MOST_CUT_SETS:
            raise ValueError(f"more than {MOST_CUT_SETS} cut sets; ask for small ones only")
    return joined


def _minimal(sets: Iterable[CutSet]) -> frozenset[CutSet]:
    kept: list[CutSet] = []
    by_event: dict[str, list[CutSet]] = {}
    for candidate in sorted(set(sets), key=len):
        near = (other for name in candidate for other in by_event.get(name, ()))
        if not any(other <= candidate for other in near):
            kept.append(candidate)
            for name in candidate:
                by_event.setdefault(name, []).append(candidate)
    return frozenset(kept)


@equation(
    "V8",
    "P(top) <= sum over minimal cut sets of the product of their odds",
    source="rare-event approximation; Fault Tree Handbook, NUREG-0492, from memory",
    valid="small odds; always at or above the exact odds",
    outside="the sum can pass 1",
)
def rare_event_odds(cut_sets: Iterable[CutSet], odds: Mapping[str, float]) -> float:
    """Return the rare-event sum over cut sets.

    Args:
        cut_sets: minimal cut sets.
        odds: odds of each event [1].

    Returns:
        Upper bound of the odds of the top [1].
    """
    return math.fsum(math.prod(odds[name] for name in each) for each in cut_sets)


@equation(
    "V9",
    "P(top) = q P(top with the event) + (1 - q) P(top without it), for each event that stands in "
    "more than one place; independent inputs convolved",
    source="total probability (Shannon expansion); textbook",
    valid="events independent of each other",
    outside=ASSUMED,
)
def exact_odds(tree: Tree) -> float:
    """Return the exact odds of the top of a tree.

    Args:
        tree: the tree; the time grows with two to the power of the number of repeated events.

    Returns:
        Odds [1].

    >>> mains, relay = Event("mains", 0.03), Event("relay", 0.05)
    >>> generator = Event("generator", 0.02)
    >>> backup = series("backup", [generator, relay])
    >>> round(exact_odds(parallel("power", [mains, backup])), 5)
    0.00207
    """
    odds = events_of(tree)
    repeated = [name for name, count in Counter(e.name for e in _walk(tree)).items() if count > 1]
    return _expanded(tree, odds, repeated, {})


def _expanded(
    tree: Tree, odds: Mapping[str, float], repeated: list[str], fixed: dict[str, float]
) -> float:
    if not repeated:
        return _independent(tree, fixed)
    name, rest = repeated[0], repeated[1:]
    failed = _expanded(tree, odds, rest, {**fixed, name: 1.0})
    healthy = _expanded(tree, odds, rest, {**fixed, name: 0.0})
    return odds[name] * failed + (1 - odds[name]) * healthy


def _independent(tree: Tree, fixed: Mapping[str, float]) -> float:
    """Return the odds of a tree in which no event that is left stands twice."""
    if isinstance(tree, Event):
        return fixed.get(tree.name, tree.odds)
    counts = [1.0]
    for each in tree.inputs:
        down = _independent(each, fixed)
        shifted = [0.0, *counts]
        counts = [
            (counts[i] * (1 - down) if i < len(counts) else 0.0) + shifted[i] * down
            for i in range(len(counts) + 1)
        ]
    return math.fsum(counts[tree.fails_at :])

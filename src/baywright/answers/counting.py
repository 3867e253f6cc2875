"""Exact numbers of builds, with as independent a second count as can be had cheaply."""

from __future__ import annotations

import math
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Protocol

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.answers.verdicts import Proof
from baywright.engines.contract import (
    DEFAULT_LIMIT,
    NOTHING,
    Assumptions,
    Engine,
    Impossible,
    Limit,
    OutOfTime,
    Possible,
    Unsupported,
)
from baywright.space import Choice, Origin, Space, Table

MOST_ENUMERATED = 20_000
"""Builds that are counted again one by one."""

SECOND_COUNT = 3.0
"""Seconds that the second count may take; it is not begun when the first took longer than that."""


class Counter(Engine, Protocol):
    """An engine that counts builds, also those with each value, all values at once."""

    def count_values(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Mapping[str, tuple[int, ...]]:
        """Return, for each value of every choice, how many legal builds have it.

        Raises ``OutOfTime`` at the limit.
        """


@dataclass(frozen=True, slots=True)
class Counters:
    """Engines by their part in a count.

    Args:
        counter: counts.
        judge: proves, and counts small numbers again one by one.
        limit: time for each of them.
    """

    counter: Counter
    judge: Engine
    limit: Limit


@dataclass(frozen=True, slots=True)
class BuildCount:
    """How many legal builds there are, told apart by the choices that are not derived.

    Args:
        number: how many.
        proof: who counted, and who or what counted again; an empty text when that took too long.
    """

    number: int
    proof: Proof


def count_builds(space: Space, counters: Counters, *, again: bool = True) -> BuildCount:
    """Count the legal builds of a space.

    Args:
        space: the space.
        counters: the engines.
        again: whether to count a second time.

    Raises:
        StoppedError: when an engine reaches its limit; it says what was tried.
        RecheckError: when two counts differ.
    """
    start = time.perf_counter()
    number = _counted(space, counters, counters.limit)
    cheap = time.perf_counter() - start <= SECOND_COUNT
    checker = _second(space, number, counters) if again and cheap else ""
    milliseconds = (time.perf_counter() - start) * 1000
    return BuildCount(number, Proof(counters.counter.name, checker, milliseconds))


@dataclass(frozen=True, slots=True)
class ValueCounts:
    """How many legal builds have each value of each choice.

    Args:
        total: how many builds there are.
        by_choice: for each choice that is not derived, a number for each of its values.
        proof: who counted; the numbers of every choice are added up against the total.
    """

    total: int
    by_choice: Mapping[str, tuple[int, ...]]
    proof: Proof


def count_values(space: Space, counters: Counters) -> ValueCounts:
    """Count the legal builds of a space that have each value of each choice.

    Raises:
        StoppedError: when all of them together take longer than the limit for one step.
        RecheckError: when the numbers of a choice do not add up to the total.
    """
    start = time.perf_counter()
    total = count_builds(space, counters, again=False).number
    left = Limit(max(0.0, counters.limit.seconds - (time.perf_counter() - start)))
    with _limited(counters, left):
        every = counters.counter.count_values(space, limit=left)
    found = {choice.name: every[choice.name] for choice in space.choices if not choice.derived}
    for name, numbers in found.items():
        _agree(total, sum(numbers), f"the sum over {name}")
    milliseconds = (time.perf_counter() - start) * 1000
    proof = Proof(counters.counter.name, "sums of every choice against the total", milliseconds)
    return ValueCounts(total, found, proof)


def _counted(space: Space, counters: Counters, limit: Limit) -> int:
    with _limited(counters, limit):
        return counters.counter.count(space, limit=limit)


@contextmanager
def _limited(counters: Counters, limit: Limit) -> Iterator[None]:
    """Say what was tried when the counter does not come to an end."""
    name = counters.counter.name
    try:
        yield
    except OutOfTime as late:
        raise StoppedError(f"{name} worked for up to {limit.seconds:g} s: {late}") from late
    except (ValueError, Unsupported) as refused:
        raise StoppedError(f"{name} cannot count this: {refused}") from refused


def _second(space: Space, number: int, counters: Counters) -> str:
    """Count again; return who or what did, or nothing when there was no time for it.

    Raises:
        RecheckError: when the counts differ.
    """
    limit = Limit(min(SECOND_COUNT, counters.limit.seconds))
    try:
        if not number:
            return _none(space, counters, limit)
        if number <= MOST_ENUMERATED:
            _agree(number, counters.judge.count(space, limit=limit), counters.judge.name)
            return counters.judge.name
        return _by_parts(space, number, counters, limit)
    except (OutOfTime, Unsupported, StoppedError, ValueError):
        return ""


def _none(space: Space, counters: Counters, limit: Limit) -> str:
    found = counters.judge.prove(space, limit=limit)
    if isinstance(found, Possible):
        raise RecheckError(f"{counters.judge.name} found a build where none was counted")
    return counters.judge.name if isinstance(found, Impossible) else ""


def _by_parts(space: Space, number: int, counters: Counters, limit: Limit) -> str:
    """Count the builds for each value of one choice, every time as a space of its own."""
    end = time.monotonic() + limit.seconds
    split = _splitting(space, counters.counter.options(space, limit=limit))
    if split is None:
        return ""
    total = 0
    for value in range(split.size):
        here = Table((split.name,), frozenset([(value,)]), Origin("counting.part", "law", "Part."))
        left = end - time.monotonic()
        if left <= 0:
            return ""
        total += _counted(space.extended(tables=[here]), counters, Limit(left))
    _agree(number, total, f"the sum over {split.name}")
    return f"a second count for each value of {split.name}"


def _splitting(space: Space, left: Mapping[str, frozenset[int]]) -> Choice | None:
    """Return a choice with at least two, but few values left, and in many laws."""
    laws = {
        choice.name: sum(choice.name in law.scope for law in space.laws)
        for choice in space.choices
        if len(left[choice.name]) > 1 and not choice.derived
    }
    best = min(laws, key=lambda n: (len(left[n]) / math.log(laws[n] + 2), n), default=None)
    return space.choice(best) if best is not None else None


def _agree(number: int, other: int, who: str) -> None:
    if number != other:
        raise RecheckError(f"{number:,} builds were counted, but {who} gives {other:,}")

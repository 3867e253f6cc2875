"""Exact numbers of builds, with as independent a second count as can be had cheaply."""

from __future__ import annotations

import math
import time
from collections.abc import Mapping
from dataclasses import dataclass

from baywright.answers.determined import all_determined
from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.answers.verdicts import Proof
from baywright.engines.contract import (
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

_APART = Assumptions(without=frozenset(("counted apart",)))
"""With a law left out, if only one that does not exist, an engine cannot take for granted that
derived choices are determined, and tells builds apart by the others."""


@dataclass(frozen=True, slots=True)
class Counters:
    """Engines by their part in a count.

    Args:
        counter: counts.
        judge: proves, and counts small numbers again one by one.
        limit: time for each of them.
    """

    counter: Engine
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


def _counted(space: Space, counters: Counters, limit: Limit) -> int:
    counter = counters.counter
    loose = not all_determined(space, counters.judge, limit)
    try:
        return counter.count(space, _APART if loose else Assumptions(), limit)
    except OutOfTime as late:
        tried = f"{counter.name} worked for up to {limit.seconds:g} s: {late}"
        raise StoppedError(tried) from late
    except (ValueError, Unsupported) as refused:
        raise StoppedError(f"{counter.name} cannot count this: {refused}") from refused


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
    split = _splitting(space)
    if split is None:
        return ""
    end = time.monotonic() + limit.seconds
    total = 0
    for value in range(split.size):
        here = Table((split.name,), frozenset([(value,)]), Origin("counting.part", "law", "Part."))
        left = end - time.monotonic()
        if left <= 0:
            return ""
        total += _counted(space.extended(tables=[here]), counters, Limit(left))
    _agree(number, total, f"the sum over {split.name}")
    return f"a second count for each value of {split.name}"


def _splitting(space: Space) -> Choice | None:
    """Return the choice of the fewest values that is in the most laws."""
    laws: Mapping[str, int] = {
        choice.name: sum(choice.name in law.scope for law in space.laws)
        for choice in space.choices
        if choice.size > 1 and not choice.derived
    }
    best = min(laws, key=lambda n: (space.choice(n).size / math.log(laws[n] + 2), n), default=None)
    return space.choice(best) if best is not None else None


def _agree(number: int, other: int, who: str) -> None:
    if number != other:
        raise RecheckError(f"{number:,} builds were counted, but {who} gives {other:,}")

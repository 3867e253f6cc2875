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

_APART = frozenset(("counted apart",))
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
    apart = not all_determined(space, counters.judge, counters.limit)
    found: dict[str, tuple[int, ...]] = {}
    own = [choice for choice in space.choices if not choice.derived]
    for done, choice in enumerate(own):
        numbers: list[int] = []
        for value in range(choice.size):
            left = counters.limit.seconds - (time.perf_counter() - start)
            if left <= 0:
                tried = (
                    f"{counters.counter.name} counted the values of {done} of {len(own)} choices"
                )
                raise StoppedError(tried)
            given = {choice.name: frozenset([value])}
            numbers.append(_asked(space, counters, Limit(left), given, apart=apart))
        _agree(total, sum(numbers), f"the sum over {choice.name}")
        found[choice.name] = tuple(numbers)
    milliseconds = (time.perf_counter() - start) * 1000
    proof = Proof(counters.counter.name, "sums of every choice against the total", milliseconds)
    return ValueCounts(total, found, proof)


def _counted(space: Space, counters: Counters, limit: Limit) -> int:
    apart = not all_determined(space, counters.judge, limit)
    return _asked(space, counters, limit, {}, apart=apart)


def _asked(
    space: Space,
    counters: Counters,
    limit: Limit,
    allowed: Mapping[str, frozenset[int]],
    *,
    apart: bool,
) -> int:
    """Have the builds counted that have allowed values.

    Args:
        space: the space.
        counters: the engines.
        limit: time for it.
        allowed: for some choices, the values left.
        apart: whether builds have to be told apart by the choices that are not derived.
    """
    counter = counters.counter
    without = _APART if apart else frozenset()
    try:
        return counter.count(space, Assumptions(allowed, without), limit)
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

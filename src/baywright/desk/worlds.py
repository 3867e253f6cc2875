"""Answers over all worlds: decided anyway, or not decided and by which facts."""

from __future__ import annotations

from collections.abc import Callable

from baywright.answers.verdicts import (
    Bound,
    Count,
    Together,
    Undecided,
    Verdict,
)
from baywright.desk.opening import Opened
from baywright.laws.machine import Machine


def over_worlds(opened: Opened, answer: Callable[[Machine], Verdict]) -> Verdict:
    """Return the verdict when it is the same whatever the unknown facts are.

    Otherwise return which facts decide, and the verdict for each way they could be.
    """
    verdicts = [(tuple(world.given.values()), answer(world.machine)) for world in opened.worlds]
    outcomes = [(values, outcome(verdict)) for values, verdict in verdicts]
    if all(each == outcomes[0][1] for _, each in outcomes):
        return verdicts[0][1]
    paths = list(opened.unknown)
    deciding = [i for i in range(len(paths)) if _decides(i, outcomes)]
    facts = opened.book.cite(*(opened.unknown[paths[i]] for i in deciding))
    shown = {tuple(values[i] for i in deciding): verdict for values, verdict in reversed(verdicts)}
    return Undecided(facts, tuple(sorted(shown.items(), key=lambda item: item[0])))


def outcome(verdict: Verdict) -> object:
    """Return what has to be equal for two verdicts to say the same."""
    match verdict:
        case Bound(_, figure):
            return ("bound", figure.value)
        case Count(_, rows):
            return ("count", frozenset(rows))
        case Together(_, _, largest):
            return ("together", frozenset(kept for kept, _ in largest))
        case _:
            return type(verdict).__name__


def _decides(position: int, outcomes: list[tuple[tuple[str, ...], object]]) -> bool:
    """Say whether two worlds that differ in one fact alone come out differently."""
    seen: dict[tuple[str, ...], object] = {}
    for values, each in outcomes:
        others = values[:position] + values[position + 1 :]
        if seen.setdefault(others, each) != each:
            return True
    return False

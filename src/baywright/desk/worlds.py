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
    answers = opened.in_worlds(answer)
    outcomes = [(tuple(world.given.values()), outcome(verdict)) for world, verdict in answers]
    if all(each == outcomes[0][1] for _, each in outcomes):
        return answers[0][1]
    paths = list(answers[0][0].given)
    deciding = [path for i, path in enumerate(paths) if _decides(i, outcomes)]
    facts = opened.book.cite(*(opened.unknown[path] for path in deciding))
    shown: dict[tuple[str, ...], Verdict] = {}
    for world, verdict in answers:
        shown.setdefault(tuple(world.given[path] for path in deciding), verdict)
    return Undecided(facts, tuple(shown.items()))


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

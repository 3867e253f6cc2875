"""Answers over all worlds: decided anyway, or not decided and by which facts."""

from __future__ import annotations

from collections.abc import Callable, Container, Mapping, Sequence
from dataclasses import replace

from baywright.answers import questions
from baywright.answers.inquiry import StoppedError
from baywright.answers.verdicts import (
    Bound,
    Count,
    Stopped,
    Together,
    Undecided,
    Verdict,
    Witness,
    Yes,
)
from baywright.desk.opening import Opened, World
from baywright.engines.contract import Assumptions, Possible
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, with_wishes


def over_worlds(opened: Opened, answer: Callable[[Machine], Verdict]) -> Verdict:
    """Return the verdict when it is the same whatever the unknown facts are.

    Otherwise return which facts decide, and the verdict for each way they could be.
    """
    answers = opened.in_worlds(answer)
    stopped = [verdict for _, verdict in answers if isinstance(verdict, Stopped)]
    outcomes = [
        (tuple(world.given.values()), outcome(verdict))
        for world, verdict in answers
        if not isinstance(verdict, Stopped)
    ]
    if len({each for _, each in outcomes}) <= 1:
        return stopped[0] if stopped else _decided(opened, answers)
    paths = list(answers[0][0].given)
    deciding = [path for i, path in enumerate(paths) if _decides(i, outcomes)]
    facts = opened.book.cite(*(opened.unknown[path] for path in deciding))
    shown: dict[tuple[str, ...], Verdict] = {}
    for world, verdict in answers:
        shown.setdefault(tuple(world.given[path] for path in deciding), verdict)
    return Undecided(facts, tuple(shown.items()))


def possible_over_worlds(
    opened: Opened, wishes: Callable[[Machine], Sequence[Wish]], nearby: int = 3
) -> Verdict:
    """Say whether some legal build has the wishes, whatever the unknown facts are.

    Whether it has is asked in every world first. Where no world has it, reasons and nearest
    builds, which take longer, are those of the first world.

    Args:
        opened: the book, with day and site.
        wishes: what is asked, read for a machine.
        nearby: how many nearest builds to look for after a no.
    """

    def answer(machine: Machine) -> Verdict:
        return questions.possible(opened.inquiry(machine), wishes(machine), nearby)

    def has(machine: Machine) -> bool:
        space = with_wishes(machine.space, wishes(machine))
        return opened.inquiry(machine).possible(space) is not None

    if not opened.unknown:
        return answer(opened.machine)
    try:
        found = opened.in_worlds(has)
    except StoppedError:
        return over_worlds(opened, answer)
    if any(each for _, each in found):
        return over_worlds(opened, answer)
    return answer(found[0][0].machine)


def _decided(opened: Opened, answers: Sequence[tuple[World, Verdict]]) -> Verdict:
    """Return a verdict of every world, with a build of every world where one was found."""
    world, verdict = answers[0]
    if len(answers) == 1 or not isinstance(verdict, Yes):
        return verdict
    for home, each in answers:
        if isinstance(each, Yes) and all(
            _legal_in(opened, other, home, each.witness) for other, _ in answers
        ):
            return each
    supposed = tuple(f"{path} is {value}" for path, value in world.given.items())
    return replace(verdict, supposed=supposed)


def _legal_in(opened: Opened, world: World, home: World, shown: Witness) -> bool:
    """Say whether a build found in one world is legal in another."""
    allowed = {}
    for choice in home.machine.space.choices:
        if choice.derived:
            continue
        label = choice.values[shown.values[choice.name]]
        there = world.machine.space.choice(choice.name).values
        allowed[choice.name] = frozenset(i for i, other in enumerate(there) if other == label)
    found = opened.panel.prover.prove(world.machine.space, Assumptions(allowed))
    return isinstance(found, Possible)


def mattering(given: Mapping[str, str], parts: Container[str]) -> dict[str, str]:
    """Return the values of unknown facts, without those of parts that are not among some.

    >>> mattering({"parts.net-100.power": "22 W", "power.base": "80 W"}, ["net-25"])
    {'power.base': '80 W'}
    """

    def matters(path: str) -> bool:
        section, _, rest = path.partition(".")
        return section != "parts" or rest.partition(".")[0] in parts

    return {path: value for path, value in given.items() if matters(path)}


def outcome(verdict: Verdict) -> object:
    """Return what has to be equal for two verdicts to say the same."""
    match verdict:
        case Bound():
            return ("bound", verdict.figure.value, *(each.figure.value for each in verdict.then))
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

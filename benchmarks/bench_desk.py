"""A step of a session on the desk, and the reasons for an option that is closed.

A step is everything a person waits for after a choice: all options left, a build that is checked
against every law, and its limits. Reasons are the fewest choices that close an option and the laws
and rules that do so, found by one engine and proven by another.
"""

from __future__ import annotations

import random
import statistics
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from baywright.answers.refused import Refusal, Refuser
from baywright.desk.session import Session
from baywright.engines.contract import Assumptions, Impossible, Limit, Possible
from baywright.engines.search import Search
from baywright.space import Space
from benchmarks.grounds import BOOKS, SET_FOR, Ground, diagram, grounds, note, opened, states
from benchmarks.tables import Finding, Table, Wanted, number, spread, timed

STATES, REFUSALS = 32, 24


@dataclass(frozen=True, slots=True)
class Closed:
    """An option that is closed after some choices.

    Args:
        chosen: the choices.
        choice: name of the choice that has the option.
        value: its index.
    """

    chosen: Mapping[str, int]
    choice: str
    value: int


def findings() -> Iterator[Finding]:
    """Yield the tables, and the figures that were set."""
    steps = {name: _steps(name) for name in BOOKS}
    yield Table(
        "A whole step on the desk, in milliseconds",
        ("book", "states", "median", "p95", "most"),
        tuple((name, str(len(each)), *spread(each)) for name, each in steps.items()),
        "All options left, a build checked against every law, its parts and its limits.",
    )
    reasons = {ground.name: _reasons(ground) for ground in grounds()}
    yield _reasons_table(reasons)
    yield Wanted("a step on the desk, most, f2", max(steps["f2"]) * 1000, 30, None, "ms")
    for name in SET_FOR:
        if reasons.get(name):
            median = statistics.median(seconds for seconds, _ in reasons[name]) * 1000
            yield Wanted(f"reasons for a closed option, {name}", median, 20, 5, "ms")


def _steps(book: str) -> list[float]:
    session = Session(opened(book), diagram())
    session.left()
    found = []
    for given in states(session.machine.space, STATES):
        session.chosen = {name: min(values) for name, values in given.allowed.items()}
        found.append(timed(session.left)[0])
    return found


def _reasons(ground: Ground) -> list[tuple[float, Refusal]]:
    space, search = ground.space, Search()
    search.prove(space)
    refuser = Refuser(space, diagram(), search, Limit())
    found = []
    for closed in _closed(space):
        seconds, refusal = timed(refuser.explain, closed.chosen, closed.choice, closed.value)
        _check_needed(space, search, closed, refusal)
        found.append((seconds, refusal))
    return found


def _closed(space: Space) -> Iterator[Closed]:
    """Yield options that are closed by what is chosen and were open before, one in a state."""
    chance = random.Random(1)  # noqa: S311 - a repeatable draw, no secret
    first = diagram().options(space)
    own = [choice.name for choice in space.choices if not choice.derived]
    for given in states(space, REFUSALS):
        left = diagram().options(space, given)
        gone = [(n, v) for n in own for v in sorted(first[n] - left[n]) if n not in given.allowed]
        if gone:
            chosen = {name: min(values) for name, values in given.allowed.items()}
            yield Closed(chosen, *chance.choice(gone))


def _check_needed(space: Space, search: Search, closed: Closed, refusal: Refusal) -> None:
    """Have the search engine show that the reasons suffice, and that each is needed."""
    option = {closed.choice: frozenset({closed.value})}
    fixed = {name: frozenset({closed.chosen[name]}) for name in refusal.choices} | option
    keys = {origin.key for origin in refusal.origins}
    others = frozenset(space.origins) - keys
    enough = isinstance(search.prove(space, Assumptions(fixed, others)), Impossible)
    fewer = [Assumptions({n: v for n, v in fixed.items() if n != name}) for name in refusal.choices]
    fewer += [Assumptions(fixed, others | {key}) for key in keys]
    if not enough or not all(isinstance(search.prove(space, g), Possible) for g in fewer):
        raise RuntimeError(f"the reasons against a value of {closed.choice} are not minimal")


def _reasons_table(reasons: Mapping[str, list[tuple[float, Refusal]]]) -> Table:
    return Table(
        "Minimal reasons for a closed option, in milliseconds",
        ("space", "options", "median", "p95", "most", "choices", "laws"),
        tuple(
            (
                name,
                str(len(found)),
                *spread([seconds for seconds, _ in found]),
                number(statistics.fmean(len(refusal.choices) for _, refusal in found)),
                number(statistics.fmean(len(refusal.origins) for _, refusal in found)),
            )
            for name, found in reasons.items()
            if found
        ),
        "Options that were open before anything was chosen. The last two columns are means; the "
        f"search engine confirmed that the reasons suffice and each is needed. {note()}",
    )

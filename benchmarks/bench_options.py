"""Everything that is left after a choice, and whether anything is: the engines side by side.

Sessions are drawn with a seed: each choice is one of those that are left. In every state each
engine is asked once, after it has been made ready; the answers have to be equal.
"""

from __future__ import annotations

import statistics
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from baywright.engines.contract import Assumptions, Engine, Limit, OutOfTime, Possible
from baywright.engines.cpsat import CpSat
from baywright.engines.search import Search
from baywright.space import Space, broken
from benchmarks.backtracking import Late, model, solution
from benchmarks.grounds import SET_FOR, Ground, diagram, grounds, note, slack, states
from benchmarks.tables import (
    Finding,
    Table,
    Wanted,
    milliseconds,
    number,
    percentile,
    spread,
    timed,
)

STATES = 32
"""States of each space that the diagram and the search engine are asked in."""

FEW = 8
"""States that slower engines are asked in, spread over the others."""

LOOP_CAP, LOOP_WORK = 60.0, 25.0
"""Seconds after which the loop of the optimising engine is given up in a state, and after which it
is not asked in further ones; two there are at least."""

PLAIN_CAP, PLAIN_STATES = 5.0, 3
"""Seconds after which the plain backtracking solver is given up, and states it is asked in."""


@dataclass(frozen=True, slots=True)
class Sides:
    """How long engines took in the same states, in seconds.

    Args:
        ours: the diagram engine.
        search: the search engine.
    """

    ours: list[float]
    search: list[float]

    @property
    def ratios(self) -> list[float]:
        """How many times as long the search engine took, state by state."""
        return [theirs / ours for ours, theirs in zip(self.ours, self.search, strict=True)]


def findings() -> Iterator[Finding]:
    """Yield the tables, and the figures that were set."""
    sides = {ground.name: _options(ground.space) for ground in grounds()}
    yield _options_table(sides)
    loops = {ground.name: _loops(ground.space) for ground in grounds()}
    yield _loop_table(sides, loops)
    yield _proof_table()
    for name, measured in sides.items():
        slow = percentile(measured.ours, 0.95) * 1000
        yield Wanted(f"options, 95th percentile, {name}", slow, 5 * slack(name), 2, "ms")
    for name in SET_FOR:
        if name in sides:
            yield from _ratios(name, sides[name], loops[name])


def _options(space: Space) -> Sides:
    search = Search()
    search.prove(space)
    ours, theirs = [], []
    for given in states(space, STATES):
        seconds, left = timed(diagram().options, space, given)
        ours.append(seconds)
        seconds, found = timed(search.options, space, given)
        theirs.append(seconds)
        _check_equal(left, found)
    return Sides(ours, theirs)


def _check_equal(left: Mapping[str, frozenset[int]], right: Mapping[str, frozenset[int]]) -> None:
    if left != right:
        names = ", ".join(name for name in left if left[name] != right[name])
        raise RuntimeError(f"two engines find other values of {names}")


def _options_table(sides: Mapping[str, Sides]) -> Table:
    return Table(
        "All options left after a choice, in milliseconds",
        ("space", "states", "diagram", "p95", "most", "search", "p95", "most", "ratio", "p95"),
        tuple(
            (
                name,
                str(len(each.ours)),
                *spread(each.ours),
                *spread(each.search),
                number(statistics.median(each.ratios)),
                number(percentile(each.ratios, 0.95)),
            )
            for name, each in sides.items()
        ),
        "Medians, 95th percentiles and the longest; the ratio is search / diagram in one state. "
        f"Answers equal in every state. {note()}",
    )


def _loops(space: Space) -> list[tuple[float, float, bool]]:
    """Return, for some states, the seconds of the loop and of the diagram, and if it finished."""
    found: list[tuple[float, float, bool]] = []
    for given in states(space, STATES)[:: STATES // FEW]:
        if len(found) > 1 and sum(seconds for seconds, _, _ in found) > LOOP_WORK:
            break
        ours, left = timed(diagram().options, space, given)
        seconds, theirs = timed(_loop, space, given)
        if theirs is not None:
            _check_equal(left, theirs)
        found.append((seconds, ours, theirs is not None))
    return found


def _loop(space: Space, given: Assumptions) -> Mapping[str, frozenset[int]] | None:
    try:
        return CpSat().options(space, given, Limit(LOOP_CAP))
    except OutOfTime:
        return None


def _loop_table(
    sides: Mapping[str, Sides], loops: Mapping[str, list[tuple[float, float, bool]]]
) -> Table:
    rows = []
    for name, measured in loops.items():
        seconds = [each for each, _, _ in measured]
        finished = sum(done for _, _, done in measured)
        rows.append(
            (
                name,
                milliseconds(statistics.median(sides[name].ours)),
                number(min(seconds)),
                number(max(seconds)),
                f"{finished} of {len(measured)}",
                number(statistics.median(_loop_ratios(measured))),
            )
        )
    return Table(
        "All options left, by the optimising engine",
        ("space", "diagram ms", "cpsat s, least", "most", "finished", "ratio"),
        tuple(rows),
        "The loop asks for a build with a value not seen yet until there is none, and is given up "
        f"after {LOOP_CAP:g} s; the ratio then is a lower bound. The more is chosen, the fewer "
        "rounds it needs. Answers equal where it finished.",
    )


def _loop_ratios(measured: Sequence[tuple[float, float, bool]]) -> list[float]:
    return [seconds / ours for seconds, ours, _ in measured]


def _proof_table() -> Table:
    return Table(
        "One feasibility, in milliseconds",
        ("space", "diagram", "search", "cpsat", "python-constraint2"),
        tuple(_proof_row(ground) for ground in grounds()),
        f"Medians over {STATES} states, {FEW} for cpsat and {PLAIN_STATES} for the last column, "
        f"which is given up after {PLAIN_CAP:g} s; every build found is checked against all laws.",
    )


def _proof_row(ground: Ground) -> tuple[str, ...]:
    space, every = ground.space, states(ground.space, STATES)
    few = every[:: STATES // FEW]
    search = Search()
    search.prove(space)
    return (
        ground.name,
        _median(_proofs(diagram(), space, every)),
        _median(_proofs(search, space, every)),
        _median(_proofs(CpSat(), space, few)),
        _plain(space, few[:PLAIN_STATES]),
    )


def _median(seconds: list[float]) -> str:
    return milliseconds(statistics.median(seconds))


def _proofs(engine: Engine, space: Space, given: Sequence[Assumptions]) -> list[float]:
    found = []
    for each in given:
        seconds, proof = timed(engine.prove, space, each)
        if not isinstance(proof, Possible) or broken(space, proof.values):
            raise RuntimeError(f"{engine.name} shows no legal build where one exists")
        found.append(seconds)
    return found


def _plain(space: Space, given: Sequence[Assumptions]) -> str:
    """Return the median of the plain solver, or how often it did not finish."""
    finished = []
    for each in given:
        problem = model(space, each)
        try:
            seconds, found = timed(solution, problem, PLAIN_CAP)
        except Late:
            continue
        if found is None or broken(space, found):
            raise RuntimeError("the plain solver finds no build where one exists")
        finished.append(seconds)
    if len(finished) == len(given):
        return _median(finished)
    return f"not finished, {len(given) - len(finished)} of {len(given)}"


def _ratios(
    name: str, sides: Sides, loops: Sequence[tuple[float, float, bool]]
) -> Iterator[Wanted]:
    middle, high = statistics.median(sides.ratios), percentile(sides.ratios, 0.95)
    loop = statistics.median(_loop_ratios(loops))
    yield Wanted(f"options: search / diagram, {name}", middle, 20, 30, "×", at_least=True)
    yield Wanted(f"that ratio, 95th percentile, {name}", high, 20, 150, "×", at_least=True)
    yield Wanted(f"options: cpsat loop / diagram, {name}", loop, 5000, 10000, "×", at_least=True)

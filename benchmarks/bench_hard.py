"""Limits for each of many kinds of card over eight slots, some cards taking two of them.

Such limits tie all slots together once for each kind. The states have their slots filled with few
kinds of card, so that limits are reached; the search engine has to find the same options.
"""

from __future__ import annotations

from collections.abc import Iterator

from baywright.engines.diagram import Diagram
from baywright.engines.search import Search
from benchmarks.grounds import Ground, diagram, filled, hard_grounds, note, states
from benchmarks.platforms import HARD
from benchmarks.tables import Finding, Table, Wanted, number, spread, timed

STATES = 12
"""Filled states of each space, and as many of sessions."""


def findings() -> Iterator[Finding]:
    """Yield the table, and the figures that were set."""
    diagram()
    rows = []
    for ground in hard_grounds():
        seconds, described = timed(Diagram().describe, ground.space)
        ours, theirs = _options(ground)
        carried = "exact" if not described.checked else f"{len(described.checked)} left out"
        rows.append(
            (
                ground.name,
                number(seconds),
                f"{described.arcs:,}",
                carried,
                *spread(ours),
                spread(theirs)[0],
            )
        )
        yield Wanted(f"compile, {ground.name}", seconds, 10, None, "s")
        yield Wanted(f"options, most, {ground.name}", max(ours) * 1000, 50, None, "ms")
    yield Table(
        "Limits for each kind of card",
        ("space", "compile s", "arcs", "limits", "options", "p95", "most", "search"),
        tuple(rows),
        f"Options and search in milliseconds, in {STATES} states with slots filled up to limits "
        f"and {STATES} of sessions. Answers equal in every state. {note()}",
    )


def _options(ground: Ground) -> tuple[list[float], list[float]]:
    space, search = ground.space, Search()
    search.prove(space)
    limited = max(shape.limits[1] for n, shape in HARD.items() if shape.limits and n in ground.name)
    ours, theirs = [], []
    for given in (*filled(space, limited, STATES), *states(space, STATES)):
        seconds, left = timed(diagram().options, space, given)
        ours.append(seconds)
        seconds, found = timed(search.options, space, given)
        theirs.append(seconds)
        if left != found:
            raise RuntimeError(f"two engines find other options of {ground.name}")
    return ours, theirs

"""Growth: a small platform with two, four and eight times as much of one thing, and of all."""

from __future__ import annotations

import statistics
from collections.abc import Iterator

from baywright.engines.contract import Limit, OutOfTime
from baywright.engines.diagram import Diagram
from baywright.engines.search import Search
from baywright.space import Space
from benchmarks.grounds import diagram, states
from benchmarks.platforms import POWER, Shape, platform
from benchmarks.tables import Finding, Table, milliseconds, number, timed

SMALL = Shape(sockets=1, slots=4, cages=1, drives=8, cards=20)
FACTORS = (2, 4, 8)
THINGS = ("drives", "slots", "cages", "sockets")

STATES = 3
CAP = Limit(20.0)
"""For one question to the search engine."""


def findings() -> Iterator[Finding]:
    """Yield the table."""
    yield Table(
        "Growth",
        (
            "what grows",
            "times",
            "choices",
            "compile s",
            "arcs",
            "options",
            "search",
            "ratio",
            "count",
        ),
        tuple(_rows()),
        f"Options, search and count without the budget in milliseconds; medians of {STATES} states "
        f"with equal answers. The search engine is given up after {CAP.seconds:g} s.",
    )


def _rows() -> Iterator[tuple[str, ...]]:
    yield _row("nothing", 1, SMALL)
    for factor in FACTORS:
        for thing in THINGS:
            yield _row(thing, factor, SMALL.scaled(thing, factor))
    for factor in FACTORS:
        shape = SMALL
        for thing in THINGS:
            shape = shape.scaled(thing, factor)
        yield _row("all four", factor, shape)


def _row(what: str, factor: int, shape: Shape) -> tuple[str, ...]:
    space = platform(shape)
    head = (what, str(factor), str(len(space.choices)))
    try:
        seconds, described = timed(Diagram().describe, space)
    except OutOfTime:
        return (*head, "too hard", *[""] * 5)
    free = space.without({POWER})
    counts = [timed(diagram().count, free)[0] for _ in range(STATES)]
    return (
        *head,
        number(seconds),
        f"{described.arcs:,}",
        *_options(space),
        milliseconds(statistics.median(counts)),
    )


def _options(space: Space) -> tuple[str, str, str]:
    """Return what the diagram and the search engine take to tell the options, and the ratio."""
    search = Search()
    search.prove(space)
    ours, theirs = [], []
    for given in states(space, STATES):
        spent, left = timed(diagram().options, space, given)
        ours.append(spent)
        try:
            spent, found = timed(search.options, space, given, CAP)
        except OutOfTime:
            spent, found = CAP.seconds, left
        theirs.append(spent)
        if left != found:
            raise RuntimeError("two engines find other options of a platform that has grown")
    middle, searched = statistics.median(ours), statistics.median(theirs)
    more = "> " if CAP.seconds in theirs else ""
    return milliseconds(middle), more + milliseconds(searched), more + number(searched / middle)

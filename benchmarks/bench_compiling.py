"""Compiling a space for the diagram engine: cold, from a folder, and the memory it takes."""

from __future__ import annotations

import statistics
import tempfile
from collections.abc import Iterator
from pathlib import Path

from baywright.engines.diagram import Diagram
from baywright.space import Space
from benchmarks.apart import apart
from benchmarks.grounds import SET_FOR, Ground, diagram, grounds, note, slack
from benchmarks.tables import Finding, Table, Wanted, number, timed

RUNS = 3


def findings() -> Iterator[Finding]:
    """Yield the table, and the figures that were set."""
    diagram()
    rows = []
    for ground in grounds():
        cold = [_compile(Diagram(), ground.space) for _ in range(RUNS)]
        kept = _from_folder(ground.space)
        rows.append(_row(ground, cold, kept))
        floor, middle = 2 * slack(ground.name), statistics.median(cold)
        yield Wanted(f"compile, {ground.name}", middle, floor, 1, "s")
        if ground.name in SET_FOR:
            middle = statistics.median(kept)
            yield Wanted(f"compile from a folder, {ground.name}", middle, 0.1, None, "s")
    yield Table(
        "Compiling",
        ("space", "arcs", "cold s", "least", "most", "folder ms", "memory MB", "of it before"),
        tuple(rows),
        "Medians; the loops were compiled before. Memory is the most that a process of its own "
        "held, having compiled the space and told the options; the last column before that. "
        f"{note()}",
    )


def _row(ground: Ground, cold: list[float], kept: list[float]) -> tuple[str, ...]:
    before, most = apart("memory", ground.name) or (0.0, 0.0)
    return (
        ground.name,
        f"{diagram().describe(ground.space).arcs:,}",
        number(statistics.median(cold)),
        number(min(cold)),
        number(max(cold)),
        number(statistics.median(kept) * 1000),
        f"{most:,.0f}",
        f"{before:,.0f}",
    )


def _compile(engine: Diagram, space: Space) -> float:
    return timed(engine.describe, space)[0]


def _from_folder(space: Space) -> list[float]:
    with tempfile.TemporaryDirectory() as folder:
        Diagram(folder=Path(folder)).describe(space)
        return [_compile(Diagram(folder=Path(folder)), space) for _ in range(RUNS)]

"""Run a case often enough to say what it usually takes and how far it strays."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Case:
    """Something to be measured.

    Args:
        name: what is measured, in a few words.
        run: the work; what it needs is made before, outside the measurement.
        runs: how often it is run after one run that does not count; at least 1.
    """

    name: str
    run: Callable[[], object]
    runs: int = 20


@dataclass(frozen=True, slots=True)
class Measurement:
    """How long the runs of a case took, in seconds, shortest first.

    Args:
        name: name of the case.
        seconds: duration of each run; at least one.
    """

    name: str
    seconds: tuple[float, ...]

    @property
    def median(self) -> float:
        """The middle duration, in seconds."""
        return statistics.median(self.seconds)

    def __str__(self) -> str:
        low, high = self.seconds[0], self.seconds[-1]
        return (
            f"{self.name:<56} {_milliseconds(self.median)} ms, from {_milliseconds(low)} "
            f"to {_milliseconds(high)} ms in {len(self.seconds)} runs"
        )


def measure(case: Case) -> Measurement:
    """Run a case once to warm up, then as often as it says, and return the durations."""
    case.run()
    return Measurement(case.name, tuple(sorted(_timed(case.run) for _ in range(case.runs))))


def _timed(run: Callable[[], object]) -> float:
    started = time.perf_counter()
    run()
    return time.perf_counter() - started


def _milliseconds(seconds: float) -> str:
    return f"{seconds * 1000:9.3f}"

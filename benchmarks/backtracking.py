"""One feasibility with a plain backtracking solver, python-constraint2, under a cap of time.

It is here for comparison: a general solver of the same kind of problem that is a line to install.
Tables become functions of their choices; a sum is refused as soon as what is chosen and the
lightest of what is not yet chosen exceed its bound.
"""

from __future__ import annotations

import signal
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from types import FrameType

from constraint import FunctionConstraint, Problem, Unassigned

from baywright.engines.contract import Assumptions
from baywright.engines.preparation import open_values
from baywright.space import Space, Sum, Table


class Late(Exception):  # noqa: N818 - reads as the outcome it is
    """The cap was reached."""


def model(space: Space, assumptions: Assumptions) -> Problem:
    """Return a space under assumptions as a problem of that solver."""
    problem = Problem()
    for name, values in open_values(space, assumptions).items():
        problem.addVariable(name, list(values))
    for table in space.tables:
        problem.addConstraint(FunctionConstraint(_row_allowed(table)), table.scope)
    for total in space.sums:
        problem.addConstraint(FunctionConstraint(_within(total), False), total.scope)  # noqa: FBT003
    return problem


def solution(problem: Problem, seconds: float) -> Mapping[str, int] | None:
    """Return a solution, or ``None`` when there is none.

    Raises:
        Late: at the cap.
    """
    with _capped(seconds):
        found: Mapping[str, int] | None = problem.getSolution()
        return found


def _row_allowed(table: Table) -> Callable[..., bool]:
    return lambda *row: row in table.rows


def _within(total: Sum) -> Callable[..., bool]:
    columns = [(weights, min(weights)) for _, weights in total.weights]

    def holds(*row: int) -> bool:
        pairs = zip(row, columns, strict=True)
        total_so_far = (low if v is Unassigned else weights[v] for v, (weights, low) in pairs)
        return sum(total_so_far) <= total.at_most

    return holds


@contextmanager
def _capped(seconds: float) -> Iterator[None]:
    def stop(signum: int, frame: FrameType | None) -> None:
        raise Late(f"more than {seconds:g} s")

    before = signal.signal(signal.SIGALRM, stop)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)

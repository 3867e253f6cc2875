"""What a benchmark finds, as tables for the terminal and for a page."""

from __future__ import annotations

import math
import statistics
import textwrap
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from time import perf_counter
from typing import ParamSpec, TypeAlias, TypeVar

P = ParamSpec("P")
T = TypeVar("T")

WIDTH = 100


@dataclass(frozen=True, slots=True)
class Table:
    """A table of measurements.

    Args:
        title: what is measured.
        columns: their heads.
        rows: a text for each column.
        note: how it was measured, in sentences.
    """

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A figure that was set before anything was measured, and what was measured.

    Args:
        what: what it is about.
        measured: the figure measured.
        floor: what is wanted at least, or at most.
        aim: what would be better, if more was asked for.
        unit: unit of all three.
        at_least: whether more is better.
    """

    what: str
    measured: float
    floor: float
    aim: float | None
    unit: str
    at_least: bool = False

    @property
    def holds(self) -> bool:
        """Whether the floor is kept."""
        return self._keeps(self.floor)

    @property
    def row(self) -> tuple[str, ...]:
        """The figure as a row of the table of figures."""
        sign = "≥" if self.at_least else "≤"
        aim = "" if self.aim is None else number(self.aim)
        verdict = "missed" if not self.holds else "floor"
        if self.holds and (self.aim is None or self._keeps(self.aim)):
            verdict = "kept" if self.aim is None else "aim"
        wanted = f"{sign} {number(self.floor)}"
        return self.what, wanted, aim, number(self.measured), self.unit, verdict

    def _keeps(self, bound: float) -> bool:
        return self.measured >= bound if self.at_least else self.measured <= bound


Finding: TypeAlias = Table | Wanted


def wanted_table(figures: Sequence[Wanted]) -> Table:
    """Return figures wanted beside those measured."""
    return Table(
        "Wanted and measured",
        ("figure", "wanted", "aim", "measured", "unit", "reached"),
        tuple(figure.row for figure in figures),
        "The last column says what is reached: the aim, or the floor where no aim was set (kept), "
        "the floor and not the aim (floor), or neither (missed). Figures were set for two-socket, "
        "f2 and the hard limits; on the other spaces twice the time is allowed for.",
    )


def text(table: Table) -> str:
    """Return a table for the terminal."""
    widths = [max(map(len, column)) for column in zip(table.columns, *table.rows, strict=True)]
    lines = [_line(row, widths) for row in (table.columns, *table.rows)]
    rule = "-" * min(WIDTH, max(map(len, lines)))
    said = textwrap.wrap(table.note, WIDTH)
    return "\n".join([table.title, lines[0], rule, *lines[1:], *said])


def markdown(table: Table) -> str:
    """Return a table for a page."""
    head = "|" + "|".join([" --- ", *[" ---: "] * (len(table.columns) - 1)]) + "|"
    rows = ["| " + " | ".join(row) + " |" for row in (table.columns, *table.rows)]
    said = ["", table.note.strip()] if table.note else []
    return "\n".join([f"## {table.title}", "", rows[0], head, *rows[1:], *said])


def _line(row: Sequence[str], widths: Sequence[int]) -> str:
    first, *others = zip(row, widths, strict=True)
    return "  ".join([first[0].ljust(first[1]), *(each.rjust(width) for each, width in others)])


def timed(run: Callable[P, T], *args: P.args, **kwargs: P.kwargs) -> tuple[float, T]:
    """Return how many seconds a call took, and what it returned."""
    start = perf_counter()
    found = run(*args, **kwargs)
    return perf_counter() - start, found


def percentile(values: Sequence[float], share: float) -> float:
    """Return the value that this share of the values, between 0 and 1, does not exceed."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def number(value: float) -> str:
    """Return a number with three digits that count, or all of a larger one.

    What is infinite never came to an end.
    """
    if math.isinf(value):
        return "not finished"
    if value == 0 or abs(value) >= 100:
        return f"{value:,.0f}"
    return f"{value:.2f}" if abs(value) >= 0.1 else f"{value:.2g}"


def milliseconds(seconds: float) -> str:
    """Return a duration in milliseconds."""
    return number(seconds * 1000)


def spread(seconds: Sequence[float]) -> tuple[str, str, str]:
    """Return median, 95th percentile and longest of some durations, in milliseconds."""
    middle = statistics.median(seconds)
    return milliseconds(middle), milliseconds(percentile(seconds, 0.95)), milliseconds(max(seconds))

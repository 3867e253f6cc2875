"""What became of a table: every cell, and what the book is to hold."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from baywright.desk.capture.cells import Mark
from baywright.desk.capture.columns import Column
from baywright.files.extending import Additions

Outcome = Literal["new", "same", "differs", "blank", "not understood"]


@dataclass(frozen=True, slots=True)
class How:
    """How a table is to be taken.

    Args:
        about: what its rows are about, or empty to tell by its headings.
        mapped: fields by heading; an empty one leaves the column out.
        decimal: the sign before decimals, or empty to tell by its cells.
        source: id of the source that new facts cite, or empty for the book's main source.
        replace: whether a cell goes over a fact that states something else.
    """

    about: str = ""
    mapped: Mapping[str, str] = field(default_factory=dict)
    decimal: Mark = ""
    source: str = ""
    replace: bool = False


@dataclass(frozen=True, slots=True)
class Cell:
    """What became of a cell.

    Args:
        line: its line in the table.
        heading: what stands above it.
        text: the cell.
        outcome: what it is to the book.
        path: the fact it fills, dotted, or empty.
        value: what the fact is to be, as written.
        why: why nothing became of it, or what the book says instead.
    """

    line: str
    heading: str
    text: str
    outcome: Outcome
    path: str = ""
    value: str = ""
    why: str = ""

    def refused(self, why: str) -> Cell:
        """Return it as one that nothing became of."""
        return replace(self, outcome="not understood", why=why)

    def taken(self, outcome: Outcome, path: str, value: str, why: str = "") -> Cell:
        """Return it as one that fills a fact."""
        return replace(self, outcome=outcome, path=path, value=value, why=why)


@dataclass(frozen=True)
class Captured:
    """A table taken apart.

    Args:
        about: what its rows are about.
        columns: its columns.
        cells: every cell below the headings, and each line above them.
        additions: what the book is to hold.
    """

    about: str
    columns: tuple[Column, ...]
    cells: tuple[Cell, ...]
    additions: Additions

    def of(self, *outcomes: Outcome) -> tuple[Cell, ...]:
        """Return the cells of some outcomes."""
        return tuple(cell for cell in self.cells if cell.outcome in outcomes)


def written(value: Any) -> str:  # noqa: ANN401 - a text, a list or a mapping
    """Return a value in one line, as a reader takes it."""
    if isinstance(value, dict):
        return " or ".join(value["could_be"])
    return ", ".join(value) if isinstance(value, list) else str(value)

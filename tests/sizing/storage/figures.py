"""Figures and limits of the storage sheet by the last part of their key."""

from __future__ import annotations

from baywright.sizing.case import Case
from baywright.sizing.figure import Figure, Limit
from baywright.sizing.storage.sheet import sheet


def figures_of(case: Case) -> dict[str, Figure]:
    """Return every figure, those of limits too."""
    found = sheet(case)
    every = [*found.figures, *(limit.figure for limit in found.limits)]
    return {figure.key.removeprefix("storage."): figure for figure in every}


def limits_of(case: Case) -> dict[str, Limit]:
    """Return every limit."""
    return {limit.figure.key.removeprefix("storage."): limit for limit in sheet(case).limits}

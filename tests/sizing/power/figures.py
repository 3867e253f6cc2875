"""Figures and limits of a sheet by key, for the tests of power."""

from __future__ import annotations

import numpy as np

from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Limit
from baywright.sizing.power.sheet import sheet


def figures_of(case: Case) -> dict[str, Figure]:
    """Return every figure, those of limits included, without the name of the part."""
    found = sheet(case)
    every = (*found.figures, *(limit.figure for limit in found.limits))
    return {figure.key.removeprefix("power."): figure for figure in every}


def limits_of(case: Case) -> dict[str, Limit]:
    """Return every limit by the key of its figure, without the name of the part."""
    return {limit.figure.key.removeprefix("power."): limit for limit in sheet(case).limits}


def value(case: Case, key: str) -> float:
    """Return the number of the first build."""
    return figures_of(case)[key].value


def room(case: Case, key: str) -> Reals:
    """Return what is left of a limit, one number for each build or step of a sweep."""
    return np.ravel(limits_of(case)[key].room)

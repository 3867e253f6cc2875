"""The sizes of many builds at once, as columns."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

import numpy as np

from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Limit
from baywright.sizing.limits import sheets


def sizes(case: Case) -> Mapping[str, Reals]:
    """Return every figure of every subject of sizing, those of limits included.

    Args:
        case: the builds; with one build and swept surroundings, one number for each step.

    Returns:
        By key, one number for each build in the unit of the figure; not-a-number where it is
        not decided.
    """
    figures = {figure.key: figure.values for figure in _figures(case)}
    return MappingProxyType(_columns(case, figures))


def margins(case: Case) -> Mapping[str, Reals]:
    """Return what is left to every limit as a share of its bound, by the key of its figure.

    Args:
        case: as for ``sizes``.

    Returns:
        One share for each build, negative past the limit; not-a-number where it is not decided.
    """
    return MappingProxyType(_columns(case, {x.figure.key: x.margin for x in _limits(case)}))


def _figures(case: Case) -> Iterator[Figure]:
    for sheet in sheets(case).values():
        yield from sheet.figures
        yield from (limit.figure for limit in sheet.limits)


def _limits(case: Case) -> Iterator[Limit]:
    for sheet in sheets(case).values():
        yield from sheet.limits


def _columns(case: Case, found: Mapping[str, object]) -> dict[str, Reals]:
    """Return numbers in columns of one length: that of the builds, or of the sweep."""
    arrays = {key: np.ravel(np.asarray(values, np.float64)) for key, values in found.items()}
    length = max((column.size for column in arrays.values()), default=case.size)
    return {key: np.broadcast_to(column, (length,)) for key, column in arrays.items()}

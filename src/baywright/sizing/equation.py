"""Equations: every formula of sizing with its number, source and range of validity.

A function that computes one carries the decorator, so that a figure on a page leads to the
formula behind it, and the list of all formulas writes itself.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, TypeAlias, TypeVar

import numpy as np
import numpy.typing as npt

Reals: TypeAlias = npt.NDArray[np.float64]
"""One number for each build or site."""

Floats: TypeAlias = float | Reals
"""One number, or one for each build or site; arrays of one call broadcast together."""

ASSUMED = "computed all the same: whether it applies is the reader's to judge"
"""What happens outside an assumption, which no function can check."""

F = TypeVar("F", bound=Callable[..., Any])


@dataclass(frozen=True, slots=True)
class Equation:
    """A formula as a reader sees it.

    Args:
        number: its number, a letter for the subject and a count, such as ``P3``.
        text: the formula itself, such as ``P_in = P_out / efficiency``.
        source: where it comes from; ``common practice, no source`` where there is none.
        valid: for which arguments it holds.
        outside: what the function does with others.
        estimate: whether the result is an estimate and has to say so.
    """

    number: str
    text: str
    source: str
    valid: str = "all values"
    outside: str = ""
    estimate: bool = False


_ALL: dict[str, Equation] = {}
_OF: dict[Callable[..., Any], Equation] = {}


def equation(
    number: str,
    text: str,
    *,
    source: str,
    valid: str = "all values",
    outside: str = "",
    estimate: bool = False,
) -> Callable[[F], F]:
    """Mark a function as the one that computes a formula.

    The arguments are those of ``Equation``.

    Raises:
        ValueError: when the number is taken.
    """

    def mark(function: F) -> F:
        if number in _ALL:
            raise ValueError(f"equation {number} is there twice")
        _ALL[number] = _OF[function] = Equation(number, text, source, valid, outside, estimate)
        return function

    return mark


def equation_of(function: Callable[..., Any]) -> Equation:
    """Return the formula that a function computes."""
    return _OF[function]


def equations() -> Mapping[str, Equation]:
    """Return every formula of the modules that are loaded, by number."""
    return MappingProxyType(_ALL)


def within(values: Floats, valid: npt.ArrayLike) -> Floats:
    """Return values where they are valid and not-a-number elsewhere.

    Args:
        values: results of a formula.
        valid: for each, whether its arguments lie in the range of the formula.
    """
    return plain(np.where(np.asarray(valid), values, np.nan))


def plain(values: npt.ArrayLike) -> Floats:
    """Return an array as it is, and one without dimensions as a number."""
    array = np.asarray(values, np.float64)
    return float(array) if array.ndim == 0 else array

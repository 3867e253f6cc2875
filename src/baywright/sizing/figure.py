"""Figures and limits: what sizing says of a build, with all that a reader needs to check it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, Literal

import numpy as np

from baywright.facts.citation import Citation
from baywright.sizing.equation import Equation, Floats, Reals, equation_of

Side = Literal["most", "least"]


@dataclass(frozen=True, slots=True)
class Input:
    """Something that a figure was computed from.

    Args:
        name: what it is, a few words.
        text: its value with its unit, as shown.
        facts: the facts it stands on; none for what was computed or asked for.
    """

    name: str
    text: str
    facts: tuple[Citation, ...] = ()


@dataclass(frozen=True, slots=True)
class Figure:
    """A number about each build, with its unit and its condition.

    Args:
        key: identity, the subject first, such as ``power.input``.
        name: what it is, a few words, without its unit.
        values: one number for each build or site; not-a-number where it is not decided.
        unit: unit of the values; empty for a plain number.
        condition: what it holds for, such as ``at peak, 230 V``.
        by: the function that computed it; its equation is shown.
        inputs: what it was computed from.
        missing: what a figure that is not decided depends on: paths of facts, or names such as
            ``site.voltage``.
        outside: why a number that is there is not shown, such as the range of the formula.
    """

    key: str
    name: str
    values: Floats
    unit: str
    condition: str = ""
    by: Callable[..., Any] | None = None
    inputs: tuple[Input, ...] = ()
    missing: tuple[str, ...] = ()
    outside: str = ""

    @property
    def equation(self) -> Equation | None:
        """The formula behind it, where there is one."""
        return equation_of(self.by) if self.by else None

    @property
    def value(self) -> float:
        """The number of the first build."""
        return float(np.ravel(self.values)[0])


@dataclass(frozen=True, slots=True)
class Limit:
    """A figure that must not pass a bound.

    Args:
        figure: what is limited.
        bound: the bound for each build or site, in the unit of the figure; not-a-number where
            it is not decided.
        side: whether the figure may be at most or must be at least the bound.
        breaks: what happens past the bound, one sentence.
        legal: whether a build past it is not legal; otherwise a promise such as redundancy ends.
        facts: what sets the bound.
        scale: what the margin is measured against; the bound unless given. A temperature has no
            zero to measure from, so its limits give one.
    """

    figure: Figure
    bound: Floats
    side: Side
    breaks: str
    legal: bool = True
    facts: tuple[Citation, ...] = ()
    scale: float | None = None

    @property
    def room(self) -> Reals:
        """What is left to the bound, in the unit of the figure; negative past it.

        A figure on its bound is not past it, whatever its last binary digit says.
        """
        difference = np.subtract(self.bound, self.figure.values)
        slack = 1e-12 * np.abs(np.asarray(self.bound, np.float64))
        left = np.where(np.abs(difference) <= slack, 0.0, difference)
        return np.asarray(left if self.side == "most" else -left + 0.0, np.float64)

    @property
    def margin(self) -> Reals:
        """What is left as a share of the bound, or of the scale."""
        against = np.abs(np.asarray(self.bound if self.scale is None else self.scale, float))
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.asarray(self.room / against, np.float64)


@dataclass(frozen=True, slots=True)
class Listing:
    """A table about one build: ways to a capacity, cut sets, placements.

    Args:
        key: identity, the subject first.
        title: what it lists.
        header: a title for each column, unit included.
        rows: texts by column.
        note: what has to be said beside it.
        by: the function that computed it.
    """

    key: str
    title: str
    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""
    by: Callable[..., Any] | None = None


@dataclass(frozen=True, slots=True)
class Sheet:
    """What one subject of sizing says of some builds.

    Args:
        figures: numbers.
        limits: numbers with a bound.
        cautions: keys of the cautions that stand before them.
    """

    figures: tuple[Figure, ...] = ()
    limits: tuple[Limit, ...] = ()
    cautions: tuple[str, ...] = field(default=())

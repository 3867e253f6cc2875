"""Builds at their peak, read once for every figure about their supplies and feeds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from baywright.facts.citation import Citation
from baywright.facts.fact import Fact
from baywright.sizing.amounts import conditions, shown, undecided
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Input
from baywright.sizing.power.bays import Bays, bays_of
from baywright.sizing.power.draw import draw, lacking
from baywright.sizing.power.feeds import Circuit, circuits_of

NO_FEEDS = ("site.feeds",)
"""What figures of a feed depend on while nobody says which feeds there are."""

TAKEN = ("efficiency", "power_factor")
"""Facts of supplies that a current at an inlet needs."""

ABOVE = "The load is above the highest point of the efficiency curve."

NONE_LEFT = "No supply is left, or the load is above the highest point of the efficiency curve."


@dataclass(frozen=True)
class Scene:
    """Builds at their peak, with their supplies and feeds.

    Args:
        case: the builds and their surroundings.
    """

    case: Case

    @cached_property
    def bays(self) -> Bays:
        """The supplies."""
        return bays_of(self.case)

    @cached_property
    def load(self) -> Floats:
        """The peak draw, DC [W]."""
        return draw(self.case, "peak")

    @cached_property
    def circuits(self) -> tuple[Circuit, ...]:
        """The feeds; none where nobody says which there are."""
        return circuits_of(self.case, self.bays, self.load)

    @cached_property
    def most_on_feed(self) -> Floats:
        """Supplies of each build on the feed that has most of them."""
        most: Floats = np.full(self.case.size, np.nan)
        for circuit in self.circuits:
            most = np.fmax(most, circuit.supplies)
        return most

    @cached_property
    def unknown(self) -> tuple[str, ...]:
        """What the peak and the ratings depend on, where they are not decided."""
        return lacking(self.case, "peak") + self.bays.unset + self.bays.missing

    @cached_property
    def ratings(self) -> tuple[Citation, ...]:
        """The ratings of the supplies fitted, quoted."""
        return self.quoted(*(f for m in self.bays.models for f in m.supply.ratings.values()))

    def quoted(self, *facts: Fact[Any] | None) -> tuple[Citation, ...]:
        """Quote facts of the book; what it leaves out is passed over."""
        return self.case.cite(*facts)

    def of_supplies(self, field: str) -> tuple[Citation, ...]:
        """Quote one fact of each supply fitted."""
        return self.quoted(*(getattr(model.supply, field) for model in self.bays.models))

    def figure(
        self,
        key: str,
        name: str,
        values: Floats,
        unit: str,
        by: Callable[..., Any],
        *words: str,
        missing: tuple[str, ...] = (),
        inputs: tuple[Input, ...] = (),
        outside: str = "",
        bound: Floats = 0.0,
    ) -> Figure:
        """Return a figure at the peak, with its condition and what it depends on.

        Args:
            key: its key without that of this subject.
            name: what it is.
            values: a number for each build or site.
            unit: their unit.
            by: the function that computed it.
            words: what it holds for beside the peak, the voltage and the altitude.
            missing: what it depends on beside the draw and the ratings.
            inputs: what it was computed from beside the peak draw.
            outside: why a number may not be there.
            bound: the bound of its limit; what that depends on is named with the figure.
        """
        peak = Input("peak draw, DC", shown(self.load, "W"))
        return Figure(
            f"power.{key}",
            name,
            values,
            unit,
            conditions(self.case, "at peak", *words),
            by,
            (peak, *inputs),
            undecided(np.add(values, bound), *self.unknown, *missing),
            outside,
        )

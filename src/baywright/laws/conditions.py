"""What a question takes as given: the day, and the air of the site."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from fractions import Fraction

from baywright.facts.citation import Citation
from baywright.units import Quantity


@dataclass(frozen=True, slots=True)
class Conditions:
    """The conditions a space is compiled for.

    Args:
        as_of: the day the answer holds for.
        heat_per_flow: heat that air carries at the site, in W for each CFM and K of rise.
        altitude: altitude of the site.
        inlet: temperature of the air taken in, or ``None`` when the question does not say.
        grounds: how ``heat_per_flow`` was derived.
    """

    as_of: datetime.date
    heat_per_flow: Fraction
    altitude: Quantity
    inlet: Quantity | None = None
    grounds: tuple[Citation, ...] = ()

"""What sizing says of a build at its site, as the graph of its functions needs it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import numpy as np

from baywright.facts.parts import Fan
from baywright.facts.places import Fans
from baywright.service.losing.standing import Loads, Standing
from baywright.service.losing.subsystems.arrays import failures_of, groups_of
from baywright.sizing.air.flow import CFM, heat_carried
from baywright.sizing.amounts import amount
from baywright.sizing.availability.functions import spare_of
from baywright.sizing.case import Case
from baywright.sizing.power.bays import Bays, bays_of
from baywright.sizing.power.draw import draw, lacking
from baywright.sizing.storage.levels import TB, usable_surviving


def loads_of(case: Case, standing: Standing) -> Loads:
    """Return the load of a build and what its supplies, fans and drives are made for.

    Args:
        case: one build at its site, for sizing.
        standing: the same, for its functions.
    """
    bays, peak = bays_of(case), first(draw(case, "peak"))
    missing = lacking(case, "peak")
    return Loads(
        peak,
        first(bays.rating),
        _needed(case, bays),
        heat := dict(_heat(case, standing)),
        (*missing, *bays.unset, *bays.missing),
        (*missing, *_air_open(case, heat)),
        _usable(standing),
    )


def first(values: object) -> float:
    """Return the number of the first build."""
    return float(np.ravel(np.asarray(values, float))[0])


def _needed(case: Case, bays: Bays) -> int | None:
    """Return how many supplies carry the peak; all of them where even those do not."""
    spare = first(spare_of(case, bays))
    return None if math.isnan(spare) else int(first(bays.count) - spare)


def _heat(case: Case, standing: Standing) -> Iterator[tuple[str, float]]:
    rise = amount(case.book.air.rise, "K")
    for place in case.book.places_of(Fans):
        for unit, name in standing.units(place):
            part = case.book.parts[name]
            flow = amount(part.flow, "CFM") if isinstance(part, Fan) else math.nan
            yield unit, first(heat_carried(flow * CFM, rise, case.around.altitude))


def _air_open(case: Case, heat: Mapping[str, float]) -> tuple[str, ...]:
    if len(case.book.places_of(Fans)) > 1:
        return ("how sets of fans share the heat",)
    return ("flow and rise of the fans",) if any(map(math.isnan, heat.values())) else ()


def _usable(standing: Standing) -> Mapping[str, float]:
    survives = failures_of(standing)
    if survives is None:
        return {}
    return {
        group.key: first(
            usable_surviving(len(group.units), survives, amount(group.drive.capacity, "B"))
        )
        / TB
        for group in groups_of(standing)
    }

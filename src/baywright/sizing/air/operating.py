"""Where the fans of each build meet its air path, by the curves that the book gives."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass

import numpy as np

from baywright.facts.places import Fans
from baywright.sizing.air.curves import (
    NOWHERE,
    OperatingPoint,
    operating_point,
    resistance_of,
    side_by_side,
)
from baywright.sizing.air.intake import added_resistance
from baywright.sizing.air.stream import Stream
from baywright.sizing.amounts import amount, ratio
from baywright.sizing.equation import Reals


@dataclass(frozen=True, slots=True)
class Operating:
    """Operating points of the builds of a case, one for each.

    Args:
        flow: volume flow [m3/s]; not-a-number where a curve or the resistance is missing.
        pressure: pressure in air of 1.2 kg/m3 [Pa].
    """

    flow: Reals
    pressure: Reals


def operating(stream: Stream, failed: int = 0, blocked: float = 0.0) -> Operating:
    """Return where fans at full speed meet the air path of each build.

    Builds with the same fans and the same air path have the same point, so that it is sought
    once for each such layout.

    Args:
        stream: the air through the builds.
        failed: fans of each set that stand still, the strongest first.
        blocked: share of the open intake that is blocked, 0 to 1.
    """
    sets = list(stream.book.places_of(Fans))
    columns = [stream.case.codes[name] for name in sets]
    layouts, which = np.unique(np.stack([*columns, stream.path]), axis=1, return_inverse=True)
    points = []
    for *codes, path in layouts.T.tolist():
        fans = _running(stream, dict(zip(sets, codes, strict=True)), failed)
        resistance = _resistance(stream, path) + _added(stream, blocked)
        points.append(_point(stream, fans, resistance))
    flows = np.array([point.flow for point in points])
    pressures = np.array([point.pressure for point in points])
    return Operating(flows[which.ravel()], pressures[which.ravel()])


def lacks_curves(stream: Stream) -> tuple[str, ...]:
    """Return what the book does not say for operating points to be found."""
    curves = (f"parts.{name}.curve" for name in stream.fans if name not in stream.curves)
    path = () if stream.air.resistance else ("air.resistance",)
    return (*curves, *path) if stream.book.places_of(Fans) else stream.lacks_flow()


def _running(stream: Stream, codes: dict[str, int], failed: int) -> Counter[str]:
    """Return the fans of a layout that still run, by part."""
    running: Counter[str] = Counter()
    for place, code in codes.items():
        option = stream.case.frame.options(place)[code]
        running.update(name for _, name in stream.running(option, failed))
    return running


def _resistance(stream: Stream, path: int) -> float:
    if path < 0:
        return math.nan
    entry = stream.air.resistance[path]
    return resistance_of(amount(entry.flow, "m³/s"), amount(entry.pressure, "Pa"))


def _added(stream: Stream, blocked: float) -> float:
    if blocked == 0:
        return 0.0
    grille, share = amount(stream.air.grille, "m²"), ratio(stream.air.grille_open)
    return added_resistance(grille, share, blocked)


def _point(stream: Stream, fans: Counter[str], resistance: float) -> OperatingPoint:
    if not fans:
        return OperatingPoint(0.0, 0.0) if stream.book.places_of(Fans) else NOWHERE
    if not fans.keys() <= stream.curves.keys():
        return NOWHERE
    curves = [(stream.curves[name], count) for name, count in fans.items()]
    return operating_point(side_by_side(curves), resistance)

"""Air: the fans, and whether those that are left carry the heat of the peak at the site."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.facts.parts import Fan
from baywright.facts.places import Fans
from baywright.service.losing.items import (
    STARTS,
    Effect,
    Function,
    Item,
    Measure,
    Named,
    Open,
    Thing,
)
from baywright.service.losing.nodes import Enough, Ground, Node, every
from baywright.service.losing.standing import Standing, label_of


def air(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield the fans and the heat they carry."""
    fans = [unit for place in at.book.places_of(Fans) for unit in at.units(place)]
    for unit, part in fans:
        named = f"fan {label_of(unit)}" if label_of(unit) else str(at.part(part).name)
        yield Thing(unit, named, "fan", unit, part)
    if at.loads.air_open or not fans:
        yield Open("how many fans may fail", at.loads.air_open or ("fans in the build",))
        yield Named("air works", every())
        return
    carried = tuple((nodes[unit], at.loads.heat[unit]) for unit, _ in fans)
    because = _because(at)
    yield Named("air works", Enough(at.loads.peak, carried, because))
    # Whichever of the fans fails next, the others still have to carry the heat.
    ways = [Enough(at.loads.peak, carried[:i] + carried[i + 1 :]) for i in range(len(carried))]
    bare = "No further fan may fail at this load and altitude."
    node = every(*ways, because=because)
    yield Function(
        "air.redundant", "a fan to spare", node, Effect.BARE, bare, served=False, covered=STARTS
    )
    yield Measure("air", "heat the fans carry", "W", carried, because, served=False)


def _because(at: Standing) -> Ground:
    heat, altitude = at.loads.heat, at.build.site.altitude
    fans = [at.part(part) for place in at.book.places_of(Fans) for _, part in at.units(place)]
    flows = dict.fromkeys(fan.flow for fan in fans if isinstance(fan, Fan))
    each = sorted({round(watts) for watts in heat.values()})
    carried = " or ".join(f"{watts:,} W" for watts in each)
    where = f"{altitude.text} above sea level" if altitude is not None else "sea level"
    sentence = (
        f"The fans have to carry the peak of {at.loads.peak:,.0f} W, and one carries {carried} "
        f"at {where}."
    )
    return Ground("air.heat", sentence, at.cite(*flows, at.book.air.rise, altitude))

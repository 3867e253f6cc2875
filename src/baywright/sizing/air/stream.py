"""The stream: what the fans of each build move, what it has to carry, and the air of the site."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from baywright.facts.book import Book
from baywright.facts.citation import Citation
from baywright.facts.parts import Fan
from baywright.facts.places import Fans
from baywright.facts.sections import AirSection
from baywright.laws.frame import Option
from baywright.laws.power import load
from baywright.sizing.air.curves import Curve
from baywright.sizing.air.fans import speed_for
from baywright.sizing.air.flow import flow_needed, heat_carried, heat_in_stream, rise_of
from baywright.sizing.air.inlet import derated
from baywright.sizing.amounts import amount
from baywright.sizing.case import Case, Codes
from baywright.sizing.equation import Floats, Reals


@dataclass(frozen=True)
class Stream:
    """The air through the builds of a case; whatever is not known is not-a-number.

    Args:
        case: the builds and their surroundings.
    """

    case: Case

    @property
    def book(self) -> Book:
        """The facts."""
        return self.case.book

    @property
    def air(self) -> AirSection:
        """The facts of cooling."""
        return self.book.air

    @property
    def altitude(self) -> Floats:
        """Altitude of the site [m]."""
        return self.case.around.altitude

    @property
    def inlet(self) -> Floats:
        """Temperature of the air taken in [degrees Celsius]."""
        return math.nan if self.case.around.inlet is None else self.case.around.inlet

    @property
    def allowed_rise(self) -> float:
        """Rise that the book allows from inlet to outlet [K]."""
        return amount(self.air.rise, "K")

    @cached_property
    def heat(self) -> Floats:
        """Heat that the fans have to carry: the peak draw, DC, and what is asked on top [W]."""
        return heat_in_stream(self.case.total(load(self.case.frame)), self.case.around.extra)

    @cached_property
    def flow(self) -> Reals:
        """Flow of all fans at full speed [m3/s]."""
        return self._flow(failed=0)

    @cached_property
    def flow_failed(self) -> Reals:
        """Flow at full speed after the strongest fan of each set has failed [m3/s]."""
        return self._flow(failed=1)

    @cached_property
    def carried(self) -> Floats:
        """Heat that all fans carry at the site [W]."""
        return heat_carried(self.flow, self.allowed_rise, self.altitude)

    @cached_property
    def carried_failed(self) -> Floats:
        """Heat that they carry with one fan of each set failed [W]."""
        return heat_carried(self.flow_failed, self.allowed_rise, self.altitude)

    @cached_property
    def needed(self) -> Floats:
        """Flow that the heat asks for at the site [m3/s]."""
        return flow_needed(self.heat, self.allowed_rise, self.altitude)

    @cached_property
    def speed(self) -> Floats:
        """Share of full speed that all fans need."""
        return speed_for(self.needed, self.flow)

    @cached_property
    def speed_failed(self) -> Floats:
        """Share of full speed that they need with one fan of each set failed."""
        return speed_for(self.needed, self.flow_failed)

    @cached_property
    def full_rise(self) -> Floats:
        """Rise of the air at full speed [K]."""
        return rise_of(self.heat, self.flow, self.altitude)

    @cached_property
    def fan_power(self) -> Reals:
        """Peak draw of all fans [W]."""
        places = self.book.places_of(Fans)
        return self.case.weighed(lambda _, part: amount(part.power, "W"), places)

    @cached_property
    def low_limit(self) -> Reals:
        """Inlet limit of each build at low altitude [degrees Celsius]."""
        entries = self.air.inlet_limits
        limits = np.array([*(amount(entry.limit, "°C") for entry in entries), math.nan])
        return limits[self.case.first_that_holds(entry.when for entry in entries)]

    @cached_property
    def limit(self) -> Floats:
        """Inlet limit of each build at the site [degrees Celsius]."""
        return derated(self.low_limit, *self.fall, self.altitude)

    @property
    def fall(self) -> tuple[float, float, float]:
        """Altitude from which the limit falls [m], the fall [K], and the metres for it."""
        derating = self.air.derating
        per = amount(derating.per, "m")
        return amount(derating.above, "m"), amount(derating.by, "K"), per if per > 0 else math.nan

    @cached_property
    def path(self) -> Codes:
        """Which resistance of the air path each build has; -1 where the book gives none."""
        return self.case.first_that_holds(entry.when for entry in self.air.resistance)

    @cached_property
    def fans(self) -> dict[str, Fan]:
        """Kinds of fan that some build has."""
        fans = ((name, part) for name, part in self.book.parts.items() if isinstance(part, Fan))
        return {name: part for name, part in fans if self.case.has(name).any()}

    @cached_property
    def curves(self) -> dict[str, Curve]:
        """Curves of those fans, at full speed in m3/s and Pa, where the book gives all of one."""
        found = {name: _curve_of(fan) for name, fan in self.fans.items()}
        return {name: curve for name, curve in found.items() if curve is not None}

    def cited_fans(self) -> tuple[Citation, ...]:
        """Quote the flow of every kind of fan that some build has."""
        return self.case.cite(*(fan.flow for fan in self.fans.values()))

    def lacks(self, *facts: str) -> tuple[str, ...]:
        """Return which of some facts about cooling the book does not say.

        Args:
            facts: names of fields, such as ``noise_full`` or ``derating.up_to``.
        """
        return tuple(f"air.{fact}" for fact in facts if _unknown(self.air, fact.split(".")))

    def lacks_flow(self) -> tuple[str, ...]:
        """Return what the book does not say of the flow of its fans."""
        if not self.book.places_of(Fans):
            return ("places: no fans",)
        return self.case.lacking("fan", "flow")

    def lacks_inlet(self) -> tuple[str, ...]:
        """Return the inlet temperature as missing where nobody said it."""
        return ("site.inlet",) if self.case.around.inlet is None else ()

    def lacks_limit(self) -> tuple[str, ...]:
        """Return what is missing for the inlet limit at the site."""
        undecided = bool(np.isnan(self.low_limit).any())
        paths = ("air.inlet_limits",) if undecided else ()
        return paths + self.lacks("derating.above", "derating.by", "derating.per")

    def running(self, option: Option, failed: int) -> list[tuple[float, str]]:
        """Return flow [m3/s] and part of each fan of a set that still runs.

        Args:
            option: what the set holds.
            failed: how many fans stand still, the strongest first: the safe side for a mixture.
        """
        fans = sorted(
            (amount(part.flow, "m³/s"), name)
            for name, part, count in self.case.frame.parts_in(option)
            if isinstance(part, Fan)
            for _ in range(count)
        )
        return fans[: max(0, len(fans) - failed)]

    def _flow(self, failed: int) -> Reals:
        places = self.book.places_of(Fans)
        if not places:
            return np.full(self.case.size, math.nan)

        def moved(option: Option) -> float:
            return sum(flow for flow, _ in self.running(option, failed))

        sets = [self.case.looked_up(name, moved) for name in places]
        return np.asarray(np.sum(sets, axis=0), np.float64)


def _curve_of(fan: Fan) -> Curve | None:
    flows = tuple(amount(point.flow, "m³/s") for point in fan.curve)
    pressures = tuple(amount(point.pressure, "Pa") for point in fan.curve)
    unknown = any(math.isnan(number) for number in (*flows, *pressures))
    return None if unknown or len(flows) < 2 else Curve(flows, pressures)


def _unknown(subject: object, names: Iterable[str]) -> bool:
    for name in names:
        subject = getattr(subject, name)
    return subject is None or getattr(subject, "value", subject) is None

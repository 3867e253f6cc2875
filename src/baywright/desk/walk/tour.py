"""The best tour over stops: fewest covers opened and closed, fewest turns, shortest travel.

A tour starts before the front with everything closed and ends with everything closed again. Its
cost is compared in that order: covers, then quarter turns, then millimetres.

Covers come off in one order, from outside in, so what is open is told by how many are off. A stop
names the fewest and the most it can be shown with, and nothing comes off before a stop asks for it.
There is no step back: what is off stays off until the tour ends, so a stop that needs a cover on
comes before every stop that needs it off. The search goes over subsets of stops (M. Held, R. M.
Karp, "A dynamic programming approach to sequencing problems", J. SIAM 10 (1962) 196-210, from
memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple, TypeAlias

from baywright.problems import problem

Side: TypeAlias = Literal["front", "rear", "inside"]

MOST_STOPS = 18
"""More stops than this are not gone through: their subsets are too many."""

NEVER_TOO_OPEN = 99
"""More covers than any machine has."""


class Cost(NamedTuple):
    """What a tour costs; tuples compare in this order.

    Args:
        covers: covers opened and closed.
        turns: quarter turns between the sides one looks at.
        travel: way between the points one looks at [mm].
    """

    covers: int
    turns: int
    travel: int


@dataclass(frozen=True, slots=True)
class Stop:
    """A point of a tour.

    Args:
        key: its id.
        side: the side one looks at.
        point: where it is, from the front left lower corner: across, inwards, up [mm].
        off: fewest covers that are off.
        off_most: most covers that may be off.
        after: ids of stops that come before it.
    """

    key: str
    side: Side
    point: tuple[int, int, int]
    off: int = 0
    off_most: int = NEVER_TOO_OPEN
    after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Tour:
    """An order of stops with what it costs.

    Args:
        order: the stops in their order.
        cost: what the tour costs.
    """

    order: tuple[Stop, ...]
    cost: Cost


def turns(one: Side, other: Side) -> int:
    """Return the quarter turns between two sides; front and rear are opposite."""
    if one == other:
        return 0
    return 1 if "inside" in (one, other) else 2


def travel(one: Stop, other: Stop) -> int:
    """Return the way between two stops along the edges of the machine [mm]."""
    return sum(abs(a - b) for a, b in zip(one.point, other.point, strict=True))


def cost_of(order: Sequence[Stop]) -> Cost | None:
    """Return what a tour costs, or ``None`` for one that steps back or comes too early to a stop.

    Args:
        order: the stops in their order.
    """
    seen: set[str] = set()
    keys = {stop.key for stop in order}
    off, turned, way = 0, 0, 0
    side: Side = "front"
    for number, stop in enumerate(order):
        if any(key in keys and key not in seen for key in stop.after):
            return None
        seen.add(stop.key)
        off = max(off, stop.off)
        if off > stop.off_most:
            return None
        turned += turns(side, stop.side)
        way += travel(order[number - 1], stop) if number else 0
        side = stop.side
    return Cost(2 * off, turned, way)


def best_tour(stops: Sequence[Stop]) -> Tour:
    """Return the cheapest tour; of several that cost the same, always the same one.

    Args:
        stops: the stops, with ids of their own; the fewest covers off are never more than the most.

    Raises:
        Problems: kind ``too-many-stops``; kind ``no-tour`` when some have to come before each
            other.
    """
    if len(stops) > MOST_STOPS:
        message = f"{len(stops)} stops are too many for an exact tour."
        raise problem("too-many-stops", message, None, f"Up to {MOST_STOPS} can be gone through.")
    order = _Search(stops).order() if stops else ()
    cost = cost_of(order) if order is not None else None
    if order is None or cost is None:
        message = "No order of the stops keeps what has to come first."
        raise problem("no-tour", message, None, "Let no two stops wait for each other.")
    return Tour(tuple(order), cost)


_Step: TypeAlias = tuple[int, int, int]
"""Quarter turns, millimetres, and the stop before."""


@dataclass
class _Search:
    """Goes through the subsets of stops, smaller ones first."""

    stops: Sequence[Stop]
    _best: dict[tuple[int, int], _Step] = field(default_factory=dict)

    def order(self) -> list[Stop] | None:
        """Return the stops in the order of the best tour, or ``None`` when there is none."""
        before = self._before()
        layer = {
            (1 << at, at): (turns("front", stop.side), 0, -1)
            for at, stop in enumerate(self.stops)
            if not before[at]
        }
        for _ in range(len(self.stops) - 1):
            self._best |= layer
            layer = self._next(layer, before)
        self._best |= layer
        full = (1 << len(self.stops)) - 1
        ends = [at for at in range(len(self.stops)) if (full, at) in layer]
        if not ends:
            return None
        return self._back(full, min(ends, key=lambda at: layer[full, at][:2]))

    def _before(self) -> list[int]:
        """Return, for each stop, those before it: the named ones, and those it is too open for."""
        return [
            sum(
                1 << at
                for at, other in enumerate(self.stops)
                if other.key in stop.after or (other is not stop and other.off_most < stop.off)
            )
            for stop in self.stops
        ]

    def _next(
        self, layer: dict[tuple[int, int], _Step], before: Sequence[int]
    ) -> dict[tuple[int, int], _Step]:
        """Return the best way to each subset with one stop more."""
        found: dict[tuple[int, int], _Step] = {}
        for (visited, last), (turned, way, _) in layer.items():
            here = self.stops[last]
            for at, stop in enumerate(self.stops):
                if visited >> at & 1 or before[at] & ~visited:
                    continue
                key = (visited | 1 << at, at)
                step = (turned + turns(here.side, stop.side), way + travel(here, stop), last)
                if key not in found or step < found[key]:
                    found[key] = step
        return found

    def _back(self, visited: int, last: int) -> list[Stop]:
        order = []
        while last >= 0:
            order.append(self.stops[last])
            visited, last = visited ^ (1 << last), self._best[visited, last][2]
        return order[::-1]

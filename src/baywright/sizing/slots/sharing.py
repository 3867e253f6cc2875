"""Lanes of each processor and of each link: there, used, free; and who sits on which side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial

import numpy as np

from baywright.facts.parts import Cage, Part
from baywright.facts.places import Zone
from baywright.facts.sections import Link
from baywright.laws.links import lanes_of
from baywright.sizing.case import Case, Truths
from baywright.sizing.equation import Reals
from baywright.sizing.slots.lanes import lane_bandwidth
from baywright.sizing.slots.rows import Row, bandwidth_of, cards_of, of_processor


@dataclass(frozen=True, slots=True)
class Shared:
    """A link in each build.

    Args:
        name: its id.
        link: its facts.
        behind: lanes that cards and cages use behind it.
        cards: cards behind it.
        fastest: what the fastest card behind it moves through its slot [B/s].
        uplink: what the link itself carries in one direction [B/s].
    """

    name: str
    link: Link
    behind: Reals
    cards: Reals
    fastest: Reals
    uplink: Reals

    @property
    def switched(self) -> bool:
        """Whether a switch shares the lanes, so that more may be behind it."""
        return self.link.switched is not None and bool(self.link.switched.value)


@dataclass(frozen=True, slots=True)
class Side:
    """One processor and what works with it, in each build.

    Args:
        owner: its socket.
        there: lanes it offers; 0 without it, not-a-number where it does not say.
        used: lanes that its links use; a switch uses its whole link.
        bandwidth: what its cards move in one direction [B/s].
        networks: network cards.
        accelerators: accelerators.
        controllers: controllers.
        drives: drives on its lanes.
    """

    owner: str
    there: Reals
    used: Reals
    bandwidth: Reals
    networks: Reals
    accelerators: Reals
    controllers: Reals
    drives: Reals


def shared_links(case: Case, rows: Mapping[str, Row]) -> dict[str, Shared]:
    """Return the links of the book, by id."""
    return {name: _shared(case, name, link, rows) for name, link in case.book.links.items()}


def _shared(case: Case, name: str, link: Link, rows: Mapping[str, Row]) -> Shared:
    feeding = [rows[place] for place in link.feeds if place in rows]
    generation = case.looked_up(link.owner, partial(of_processor, case, field="lane_generation"))
    return Shared(
        name=name,
        link=link,
        behind=case.weighed(lambda _, part: lanes_of(part), link.feeds),
        cards=sum((row.filled for row in feeding), np.zeros(case.size)),
        fastest=_fastest(case, feeding),
        uplink=link.lanes.known * np.asarray(lane_bandwidth(generation), np.float64),
    )


def _fastest(case: Case, rows: list[Row]) -> Reals:
    fastest = np.zeros(case.size)
    for row in rows:
        for _, card, count in cards_of(case, row):
            moved = np.where(count > 0, bandwidth_of(row, card), 0.0)
            fastest = np.maximum(fastest, moved)
    return fastest


def sides_of(case: Case, rows: Mapping[str, Row], links: Mapping[str, Shared]) -> tuple[Side, ...]:
    """Return every processor that owns links, slots or zones, in the order of the book."""
    zones = case.book.places_of(Zone).values()
    named = (
        *(str(link.owner) for link in case.book.links.values()),
        *(str(row.slot.owner) for row in rows.values() if row.slot.owner),
        *(str(zone.owner) for zone in zones if zone.owner),
    )
    order = [name for name in case.book.places if name in named]
    return tuple(_side(case, owner, rows, links) for owner in order)


def _side(case: Case, owner: str, rows: Mapping[str, Row], links: Mapping[str, Shared]) -> Side:
    fitted = case.looked_up(owner, lambda option: float(bool(option.parts))) > 0
    given = case.looked_up(owner, partial(of_processor, case, field="lanes"))
    own = [name for name, row in rows.items() if row.slot.owner == owner]
    moved = (_moved(case, rows[name]) for name in own)
    return Side(
        owner=owner,
        there=np.where(fitted, given, 0.0),
        used=_used(case, owner, fitted, links),
        bandwidth=sum(moved, np.zeros(case.size)),
        networks=case.counted("network", places=own),
        accelerators=case.counted("accelerator", places=own),
        controllers=case.counted("controller", places=own),
        drives=_drives(case, owner),
    )


def _used(case: Case, owner: str, fitted: Truths, links: Mapping[str, Shared]) -> Reals:
    used = np.zeros(case.size)
    for each in links.values():
        if each.link.owner == owner:
            lanes = float(each.link.lanes.known)
            used += np.where(fitted, lanes, 0.0) if each.switched else each.behind
    return used


def _moved(case: Case, row: Row) -> Reals:
    """Return what all cards of a row move [B/s]."""
    moved = np.zeros(case.size)
    for _, card, count in cards_of(case, row):
        moved += np.where(count > 0, count * bandwidth_of(row, card), 0.0)
    return moved


def _drives(case: Case, owner: str) -> Reals:
    """Return the drives in cages with lanes of a processor."""
    drives = np.zeros(case.size)
    for name, zone in case.book.places_of(Zone).items():
        if zone.owner == owner:
            drives += np.where(bay_lanes(case, name) > 0, case.counted("drive", places=[name]), 0.0)
    return drives


def bay_lanes(case: Case, zone: str) -> Reals:
    """Return the processor lanes of each bay of a zone, 0 without a cage that has any."""
    return case.weighed(lambda _, part: _lanes_of_bay(part), [zone])


def _lanes_of_bay(part: Part) -> float:
    if not isinstance(part, Cage) or part.lanes_per_bay is None:
        return 0.0
    return float(part.lanes_per_bay.known)


def lanes_left(case: Case, row: Row, links: Mapping[str, Shared], sides: tuple[Side, ...]) -> Reals:
    """Return the lanes that one more card in a row would have.

    They are those of the slot, or fewer where its link or its processor has fewer left; a switch
    shares its lanes, so that it leaves every slot its own.
    """
    lanes = row.slot.lanes
    left = np.full(case.size, np.nan if lanes is None else float(lanes.known))
    for limit in _left(row, links, sides):
        left = np.fmin(left, np.maximum(limit, 0.0))
    return left


def _left(row: Row, links: Mapping[str, Shared], sides: tuple[Side, ...]) -> Iterator[Reals]:
    feeding = [each for each in links.values() if row.name in each.link.feeds]
    for each in feeding:
        if not each.switched:
            yield each.link.lanes.known - each.behind
    if feeding and not all(each.switched for each in feeding):
        yield from (side.there - side.used for side in sides if side.owner == row.slot.owner)

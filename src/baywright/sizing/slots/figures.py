"""Figures of slots: bandwidth of cards and bays, lanes, what is free, and who is far away."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial

import numpy as np

from baywright.facts.parts import Cage, Card
from baywright.facts.places import Slot, Zone
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Input
from baywright.sizing.slots.lanes import (
    bay_bandwidth,
    generation_number,
    lane_bandwidth,
    lane_bandwidth_raw,
    link_bandwidth,
    share_of_uplink,
)
from baywright.sizing.slots.rows import Row, bandwidth_of, cards_of, of_processor
from baywright.sizing.slots.sharing import Shared, bay_lanes, lanes_left
from baywright.sizing.slots.view import GIGA, ONE_WAY, Slots, lacking_lanes, said, undecided

WITH_FLITS = f"{ONE_WAY}; generation 6 after flits, 242 of 256 bytes"
RAW = f"{ONE_WAY}; generation 6 before flits"


def figures(slots: Slots) -> Iterator[Figure]:
    """Yield the figures of slots of some builds."""
    yield from _cards(slots)
    yield from _free(slots)
    yield from _lanes(slots)
    yield from _bays(slots)
    yield from _shares(slots)
    yield from _locality(slots)


def _cards(slots: Slots) -> Iterator[Figure]:
    """Cards, and what they move through their slots."""
    if not slots.rows:
        return
    size = slots.case.size
    cards = sum((row.filled for row in slots.rows.values()), np.zeros(size))
    yield Figure("slots.cards", "cards in slots", cards, "")
    yield _moved(slots, "", "all cards", slots.rows.values(), _total(slots, raw=False))
    if _newest(slots.case) >= 6:
        raw = _total(slots, raw=True)
        yield _moved(slots, "_raw", "all cards", slots.rows.values(), raw, raw=True)
    for side in slots.sides if len(slots.sides) > 1 else ():
        own = [row for row in slots.rows.values() if row.slot.owner == side.owner]
        whose = f"the cards of {slots.place(side.owner)}"
        yield _moved(slots, f".{side.owner}", whose, own, side.bandwidth)


def _moved(
    slots: Slots, ending: str, whose: str, rows: Iterable[Row], moved: Reals, *, raw: bool = False
) -> Figure:
    """What cards move, told by one of the two conventions where generation 6 is about."""
    rows = list(rows)
    by_flits = WITH_FLITS if _newest(slots.case) >= 6 else ONE_WAY
    return Figure(
        f"slots.bandwidth{ending}",
        f"bandwidth of {whose} through their slots",
        moved / GIGA,
        "GB/s",
        RAW if raw else by_flits,
        lane_bandwidth_raw if raw else link_bandwidth,
        said(slots, rows),
        undecided(slots, rows),
    )


def _newest(case: Case) -> float:
    """Return the newest generation that the book names."""
    slots = (slot.generation for slot in case.book.places_of(Slot).values())
    cards = (part.generation for part in case.book.parts.values() if isinstance(part, Card))
    numbers = [generation_number(name) for name in (*slots, *cards)]
    return float(np.nanmax([0.0, *numbers]))


def _total(slots: Slots, *, raw: bool) -> Reals:
    """Return what all cards move [B/s]."""
    total = np.zeros(slots.case.size)
    for row in slots.rows.values():
        for _, card, count in cards_of(slots.case, row):
            moved = bandwidth_of(row, card) * (_without_flits(row, card) if raw else 1.0)
            total += np.where(count > 0, count * moved, 0.0)
    return total


def _without_flits(row: Row, card: Card) -> Reals:
    """Return how much more a link carries when flits are not taken off."""
    generation = np.minimum(row.generation, generation_number(card.generation))
    ratio = np.divide(lane_bandwidth_raw(generation), lane_bandwidth(generation))
    return np.asarray(ratio, np.float64)


def _free(slots: Slots) -> Iterator[Figure]:
    """What stays free, and the widest card that still goes in."""
    if not slots.rows:
        return
    case = slots.case
    left = {n: lanes_left(case, row, slots.links, slots.sides) for n, row in slots.rows.items()}
    open_ = {
        name: np.where(np.nan_to_num(left[name], nan=1.0) > 0, row.empty, 0.0)
        for name, row in slots.rows.items()
    }
    free = sum(open_.values(), np.zeros(case.size))
    lanes = np.max([np.where(open_[n] > 0, left[n], 0.0) for n in slots.rows], axis=0)
    widths = np.max(
        [np.where(open_[n] > 0, slots.widths(slots.rows[n]), 0.0) for n in slots.rows], axis=0
    )
    served = "with their processor, lanes and room"
    yield Figure("slots.free", "free slots", free, "", served)
    unsaid = tuple(f"places.{n}.lanes" for n, row in slots.rows.items() if row.slot.lanes is None)
    missing = unsaid if np.isnan(lanes).any() else ()
    name = "most lanes that a free slot still has"
    yield Figure("slots.free_lanes", name, lanes, "lanes", served, missing=missing)
    name = "widest card that a free slot still takes"
    yield Figure("slots.free_width", name, widths, "slot widths", served)


def _lanes(slots: Slots) -> Iterator[Figure]:
    for side in slots.sides:
        name = f"free lanes of {slots.place(side.owner)}"
        yield Figure(
            f"slots.lanes_free.{side.owner}",
            name,
            side.there - side.used,
            "lanes",
            inputs=_links_said(slots, side.owner),
            missing=lacking_lanes(slots, side),
        )


def _links_said(slots: Slots, owner: str) -> tuple[Input, ...]:
    links = (each for each in slots.links.values() if each.link.owner == owner)
    return tuple(_link_said(slots, each) for each in links)


def _link_said(slots: Slots, each: Shared) -> Input:
    lanes = each.link.lanes
    return Input(f"lanes to {slots.fed_by(each)}", lanes.text, slots.case.cite(lanes))


def _bays(slots: Slots) -> Iterator[Figure]:
    """What each bay of fast drives has from its processor."""
    case = slots.case
    for name, zone in case.book.places_of(Zone).items():
        lanes = bay_lanes(case, name)
        if not lanes.any():
            continue
        generation = np.full(case.size, np.nan)
        if zone.owner is not None:
            generation = case.looked_up(
                zone.owner, partial(of_processor, case, field="lane_generation")
            )
        each = np.where(lanes > 0, bay_bandwidth(lanes, generation), 0.0) / GIGA
        unknown = f"places.{name}.owner" if zone.owner is None else ""
        missing = (unknown,) if unknown else case.lacking("processor", "lane_generation")
        yield Figure(
            f"slots.bay.{name}",
            f"bandwidth of the lanes of each bay of {zone.name}",
            each,
            "GB/s",
            f"{ONE_WAY}; a drive may be slower",
            bay_bandwidth,
            _cages_said(slots, name),
            missing if np.isnan(each).any() else (),
        )


def _cages_said(slots: Slots, zone: str) -> tuple[Input, ...]:
    """The lanes to each bay of the cages that some build has in a zone."""
    options = slots.case.frame.options(zone)
    fitted = (options[code].part or "" for code in np.unique(slots.case.codes[zone]))
    cages = (slots.case.book.parts.get(part) for part in fitted)
    return tuple(
        Input(f"lanes to each bay of the {cage.name}", fact.text, slots.case.cite(fact))
        for cage in cages
        if isinstance(cage, Cage) and (fact := cage.lanes_per_bay) is not None
    )


def _shares(slots: Slots) -> Iterator[Figure]:
    """What is left to each card behind a shared link when all of them are busy."""
    for name, each in slots.links.items():
        if each.switched:
            share = share_of_uplink(each.uplink, each.cards, each.fastest)
            behind = [slots.rows[place] for place in each.link.feeds if place in slots.rows]
            unsaid = undecided(slots, behind)
            yield Figure(
                f"slots.share.{name}",
                f"bandwidth of each card behind {slots.fed_by(each)}",
                np.where(each.cards > 0, np.asarray(share) / GIGA, 0.0),
                "GB/s",
                f"all of them busy with the processor; {ONE_WAY}",
                share_of_uplink,
                (_link_said(slots, each), *said(slots, behind)),
                unsaid or _lacking_generation(slots, each),
            )


def _lacking_generation(slots: Slots, each: Shared) -> tuple[str, ...]:
    unknown = np.isnan(each.uplink) & (each.cards > 0)
    return slots.case.lacking("processor", "lane_generation") if unknown.any() else ()


def _locality(slots: Slots) -> Iterator[Figure]:
    """What reaches the network only over the link between processors."""
    if len(slots.sides) < 2:
        return
    anywhere = sum((side.networks for side in slots.sides), np.zeros(slots.case.size)) > 0
    far = [np.where(anywhere & (side.networks == 0), 1.0, 0.0) for side in slots.sides]
    for word, name, counts in (
        ("accelerators", "accelerators", [side.accelerators for side in slots.sides]),
        ("drives", "drives on processor lanes", [side.drives for side in slots.sides]),
    ):
        values = sum((f * n for f, n in zip(far, counts, strict=True)), np.zeros(slots.case.size))
        yield Figure(
            f"slots.far_{word}",
            f"{name} whose processor has no network card",
            values,
            "",
            "their traffic to the network crosses between processors",
        )

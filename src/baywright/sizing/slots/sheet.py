"""What sizing says of slots, lanes and the cards on them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial

import numpy as np

from baywright.facts.parts import Card, Network, Processor
from baywright.facts.places import Slot, Zone
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Limit, Sheet
from baywright.sizing.part import Part
from baywright.sizing.slots.lanes import (
    bay_bandwidth,
    generation_number,
    lane_bandwidth,
    lane_bandwidth_raw,
    line_rate,
    link_bandwidth,
    oversubscription,
    share_of_uplink,
)
from baywright.sizing.slots.listings import listings
from baywright.sizing.slots.rows import (
    Row,
    bandwidth_of,
    cards_of,
    number,
    of_processor,
    rows_of,
    slot_draw,
)
from baywright.sizing.slots.sharing import (
    Shared,
    Side,
    bay_lanes,
    lanes_left,
    shared_links,
    sides_of,
)

GIGA = 1e9
ONE_WAY = "one direction, after line coding"
WITH_FLITS = f"{ONE_WAY}; generation 6 after flits, 242 of 256 bytes"
RAW = f"{ONE_WAY}; generation 6 before flits"


@dataclass(frozen=True, slots=True)
class _Slots:
    """The slots of some builds.

    Args:
        case: the builds.
        rows: rows of slots by place.
        links: links by id.
        sides: processors with what works with them.
    """

    case: Case
    rows: Mapping[str, Row]
    links: Mapping[str, Shared]
    sides: tuple[Side, ...]

    def place(self, name: str) -> str:
        """Return the name of a place as written in sentences."""
        return self.case.book.places[name].name


def sheet(case: Case) -> Sheet:
    """Return the figures and limits of slots of some builds."""
    rows = rows_of(case)
    links = shared_links(case, rows)
    slots = _Slots(case, rows, links, sides_of(case, rows, links))
    figures = (
        *_cards(slots),
        *_free(slots),
        *_lanes(slots),
        *_bays(slots),
        *_shares(slots),
        *_locality(slots),
    )
    limits = (*_lane_limits(slots), *_link_limits(slots), *_power(slots), *_networks(slots))
    return Sheet(figures, limits, ("estimate",) if _shares_any(slots) else ())


def _shares_any(slots: _Slots) -> bool:
    return any(each.switched for each in slots.links.values())


def _cards(slots: _Slots) -> Iterator[Figure]:
    """Cards, and what they move through their slots."""
    if not slots.rows:
        return
    size = slots.case.size
    cards = sum((row.filled for row in slots.rows.values()), np.zeros(size))
    yield Figure("slots.cards", "cards in slots", cards, "")
    newest = _newest(slots.case)
    condition = WITH_FLITS if newest >= 6 else ONE_WAY
    missing = _undecided(slots, slots.rows.values())
    total = _total(slots, raw=False) / GIGA
    name = "bandwidth of all cards through their slots"
    yield Figure("slots.bandwidth", name, total, "GB/s", condition, link_bandwidth, missing=missing)
    if newest >= 6:
        raw = _total(slots, raw=True) / GIGA
        yield Figure(
            "slots.bandwidth_raw", name, raw, "GB/s", RAW, lane_bandwidth_raw, missing=missing
        )
    for side in slots.sides if len(slots.sides) > 1 else ():
        titled = f"bandwidth of the cards of {slots.place(side.owner)}"
        moved = side.bandwidth / GIGA
        own = [row for row in slots.rows.values() if row.slot.owner == side.owner]
        key, unsaid = f"slots.bandwidth.{side.owner}", _undecided(slots, own)
        yield Figure(key, titled, moved, "GB/s", condition, link_bandwidth, missing=unsaid)


def _newest(case: Case) -> float:
    """Return the newest generation that the book names."""
    slots = (slot.generation for slot in case.book.places_of(Slot).values())
    cards = (part.generation for part in case.book.parts.values() if isinstance(part, Card))
    numbers = [generation_number(name) for name in (*slots, *cards)]
    return float(np.nanmax([0.0, *numbers]))


def _total(slots: _Slots, *, raw: bool) -> Reals:
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


def _undecided(slots: _Slots, rows: Iterable[Row]) -> tuple[str, ...]:
    """Return what the bandwidth of cards in some rows depends on and the book does not say."""
    paths: dict[str, None] = {}
    for row in rows:
        for name, card, count in cards_of(slots.case, row):
            for path, known in (
                (f"parts.{name}.lanes", number(card.lanes)),
                (f"parts.{name}.generation", generation_number(card.generation)),
                (f"places.{row.name}.lanes", number(row.slot.lanes)),
                (f"places.{row.name}.generation", np.max(np.where(count > 0, row.generation, 0))),
            ):
                if np.isnan(known):
                    paths[path] = None
    return tuple(paths)


def _free(slots: _Slots) -> Iterator[Figure]:
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
    widths = np.max([np.where(open_[n] > 0, _room(slots, n), 0.0) for n in slots.rows], axis=0)
    served = "with their processor, lanes and room"
    yield Figure("slots.free", "free slots", free, "", served)
    unsaid = tuple(f"places.{n}.lanes" for n, row in slots.rows.items() if row.slot.lanes is None)
    missing = unsaid if np.isnan(lanes).any() else ()
    name = "most lanes that a free slot still has"
    yield Figure("slots.free_lanes", name, lanes, "lanes", served, missing=missing)
    name = "widest card that a free slot still takes"
    yield Figure("slots.free_width", name, widths, "slot widths", served)


def _room(slots: _Slots, name: str) -> Reals:
    """Return the slot widths a free slot has, the neighbour's where that is empty too."""
    row = slots.rows[name]
    beside = slots.rows.get(row.slot.neighbour or "")
    more = np.zeros(slots.case.size) if beside is None else (beside.empty > 0).astype(float)
    return np.asarray(row.room + more, np.float64)


def _lanes(slots: _Slots) -> Iterator[Figure]:
    for side in slots.sides:
        name = f"free lanes of {slots.place(side.owner)}"
        yield Figure(
            f"slots.lanes_free.{side.owner}",
            name,
            side.there - side.used,
            "lanes",
            missing=_lacking_lanes(slots, side),
        )


def _lacking_lanes(slots: _Slots, side: Side) -> tuple[str, ...]:
    return slots.case.lacking("processor", "lanes") if np.isnan(side.there).any() else ()


def _bays(slots: _Slots) -> Iterator[Figure]:
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
            missing=missing if np.isnan(each).any() else (),
        )


def _shares(slots: _Slots) -> Iterator[Figure]:
    """What is left to each card behind a shared link when all of them are busy."""
    for name, each in slots.links.items():
        if each.switched:
            share = share_of_uplink(each.uplink, each.cards, each.fastest)
            behind = [slots.rows[place] for place in each.link.feeds if place in slots.rows]
            unsaid = _undecided(slots, behind)
            yield Figure(
                f"slots.share.{name}",
                f"bandwidth of each card behind {_fed(slots, each)}",
                np.where(each.cards > 0, np.asarray(share) / GIGA, 0.0),
                "GB/s",
                f"all of them busy with the processor; {ONE_WAY}",
                share_of_uplink,
                missing=unsaid or _lacking_generation(slots, each),
            )


def _lacking_generation(slots: _Slots, each: Shared) -> tuple[str, ...]:
    undecided = np.isnan(each.uplink) & (each.cards > 0)
    return slots.case.lacking("processor", "lane_generation") if undecided.any() else ()


def _fed(slots: _Slots, each: Shared) -> str:
    return " and ".join(slots.place(place) for place in each.link.feeds)


def _locality(slots: _Slots) -> Iterator[Figure]:
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


def _lane_limits(slots: _Slots) -> Iterator[Limit]:
    processors = [p for p in slots.case.book.parts.values() if isinstance(p, Processor)]
    most = float(np.nanmax([0.0, *(number(part.lanes) for part in processors)]))
    for side in slots.sides:
        if not (side.there + side.used).any():
            continue  # a processor that no build has limits nothing
        name = f"lanes of {slots.place(side.owner)} in use"
        figure = Figure(
            f"slots.lanes.{side.owner}",
            name,
            side.used,
            "lanes",
            missing=_lacking_lanes(slots, side),
        )
        yield Limit(
            figure,
            side.there,
            "most",
            "A slot or bay past the last lane does not work.",
            facts=slots.case.book.cite(*(part.lanes for part in processors)),
            scale=most or None,
        )


def _link_limits(slots: _Slots) -> Iterator[Limit]:
    """Lanes that places share by choice, and lanes that a switch shares in time."""
    for name, each in slots.links.items():
        lanes = float(each.link.lanes.known)
        facts = slots.case.book.cite(each.link.lanes)
        if each.switched:
            ratio = np.asarray(oversubscription(each.behind, lanes))
            title = f"lanes behind {_fed(slots, each)} for each lane of its link"
            figure = Figure(f"slots.uplink.{name}", title, ratio, "", by=oversubscription)
            breaks = "Cards behind the switch wait for each other when all are busy."
            yield Limit(figure, 1.0, "most", breaks, legal=False, facts=facts)
        elif len(each.link.feeds) > 1:
            title = f"lanes that {_fed(slots, each)} share"
            figure = Figure(f"slots.link.{name}", title, each.behind, "lanes")
            breaks = "The last of the places that share these lanes has none left."
            yield Limit(figure, lanes, "most", breaks, facts=facts)


def _power(slots: _Slots) -> Iterator[Limit]:
    """What the hungriest card draws from each slot itself."""
    for name, row in slots.rows.items():
        most = row.slot.power
        if most is None or most.value is None:
            continue
        drawn, missing = np.zeros(slots.case.size), []
        for card_id, card, count in cards_of(slots.case, row):
            drawn = np.maximum(drawn, np.where(count > 0, slot_draw(card), 0.0))
            missing += [f"parts.{card_id}.power"] if np.isnan(slot_draw(card)) else []
        yield Limit(
            Figure(
                f"slots.power.{name}",
                f"draw of a card from {row.slot.name}",
                drawn,
                "W",
                "at peak, cables not counted",
                missing=tuple(missing),
            ),
            float(most.known.to("W")),
            "most",
            "The connector is not made for more; the rest has to come over a cable.",
            facts=slots.case.book.cite(most),
        )


def _networks(slots: _Slots) -> Iterator[Limit]:
    """Whether a slot carries what the ports of its network card bring."""
    for name, row in slots.rows.items():
        for card_id, card, count in cards_of(slots.case, row):
            if isinstance(card, Network):
                yield _network(slots, name, row, card_id, card, count)


def _network(
    slots: _Slots, name: str, row: Row, card_id: str, card: Network, count: Reals
) -> Limit:
    ports = sum(port.count.known for port in card.ports if port.type == "network")
    rate = np.asarray(line_rate(ports if card.ports else np.nan, number(card.speed, "b/s")))
    unsaid = (("speed", number(card.speed, "b/s")), ("ports", ports if card.ports else np.nan))
    missing = tuple(f"parts.{card_id}.{word}" for word, known in unsaid if np.isnan(known))
    figure = Figure(
        f"slots.network.{name}.{card_id}",
        f"line rate of the ports of the {card.name} in {row.slot.name}",
        np.where(count > 0, rate, 0.0) / GIGA,
        "GB/s",
        "one direction, framing not taken off",
        line_rate,
        missing=(*missing, *_undecided(slots, [row])),
    )
    return Limit(
        figure,
        bandwidth_of(row, card) / GIGA,
        "most",
        "The ports cannot all run at line rate.",
        legal=False,
        facts=slots.case.book.cite(card.speed, card.lanes, row.slot.lanes),
    )


PART = Part("slots", "Slots, lanes and cards", sheet, listings)

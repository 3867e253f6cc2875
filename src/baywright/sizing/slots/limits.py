"""Limits of slots: lanes, shared links, power of a slot, and what network ports bring."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from baywright.facts.parts import Network, Processor
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Limit
from baywright.sizing.slots.lanes import line_rate, oversubscription
from baywright.sizing.slots.rows import Row, bandwidth_of, cards_of, number, slot_draw
from baywright.sizing.slots.view import GIGA, Slots, lacking_lanes, undecided


def limits(slots: Slots) -> Iterator[Limit]:
    """Yield the limits of slots of some builds."""
    yield from _lane_limits(slots)
    yield from _link_limits(slots)
    yield from _power(slots)
    yield from _networks(slots)


def _lane_limits(slots: Slots) -> Iterator[Limit]:
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
            missing=lacking_lanes(slots, side),
        )
        yield Limit(
            figure,
            side.there,
            "most",
            "A slot or bay past the last lane does not work.",
            facts=slots.case.cite(*(part.lanes for part in processors)),
            scale=most or None,
        )


def _link_limits(slots: Slots) -> Iterator[Limit]:
    """Lanes that places share by choice, and lanes that a switch shares in time."""
    for name, each in slots.links.items():
        lanes = float(each.link.lanes.known)
        facts = slots.case.cite(each.link.lanes)
        if each.switched:
            ratio = np.asarray(oversubscription(each.behind, lanes))
            title = f"lanes behind {slots.fed_by(each)} for each lane of its link"
            alike = "by lanes, all of one generation"
            figure = Figure(f"slots.uplink.{name}", title, ratio, "", alike, oversubscription)
            breaks = "Cards behind the switch wait for each other when all are busy."
            yield Limit(figure, 1.0, "most", breaks, legal=False, facts=facts)
        elif len(each.link.feeds) > 1:
            title = f"lanes that {slots.fed_by(each)} share"
            figure = Figure(f"slots.link.{name}", title, each.behind, "lanes")
            breaks = "The last of the places that share these lanes has none left."
            yield Limit(figure, lanes, "most", breaks, facts=facts)


def _power(slots: Slots) -> Iterator[Limit]:
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
            facts=slots.case.cite(most),
        )


def _networks(slots: Slots) -> Iterator[Limit]:
    """Whether a slot carries what the ports of its network card bring."""
    for name, row in slots.rows.items():
        for card_id, card, count in cards_of(slots.case, row):
            if isinstance(card, Network):
                yield _network(slots, name, row, card_id, card, count)


def _network(slots: Slots, name: str, row: Row, card_id: str, card: Network, count: Reals) -> Limit:
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
        missing=(*missing, *undecided(slots, [row])),
    )
    return Limit(
        figure,
        bandwidth_of(row, card) / GIGA,
        "most",
        "The ports cannot all run at line rate.",
        legal=False,
        facts=slots.case.cite(card.speed, card.lanes, row.slot.lanes),
    )

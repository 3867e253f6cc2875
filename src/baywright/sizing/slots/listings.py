"""Tables about the slots of one build: cards, processors, and what a free slot still takes."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from baywright.facts.parts import Card
from baywright.facts.places import Slot
from baywright.laws.slots import limits_of, width_of
from baywright.sizing.case import Case
from baywright.sizing.figure import Listing
from baywright.sizing.slots.lanes import generation_number, link_bandwidth
from baywright.sizing.slots.rows import Row, bandwidth_of, cards_of, number, slot_draw
from baywright.sizing.slots.sharing import lanes_left
from baywright.sizing.slots.view import GIGA, Slots, slots_of

NOT_STATED = "not stated"


def listings(case: Case) -> Iterator[Listing]:
    """Yield the tables about the slots of one build."""
    slots = slots_of(case)
    if slots.rows:
        yield _cards(slots)
        yield _free(slots)
    if slots.sides:
        yield _sides(slots)


def _cards(slots: Slots) -> Listing:
    """Each card with its slot, its bandwidth and what sets it."""
    lines = [
        _card(slots, row, card, count[0])
        for row in slots.rows.values()
        for _, card, count in cards_of(slots.case, row)
        if count[0] > 0
    ]
    header = (
        "slot",
        "card",
        "cards",
        "processor",
        "lanes of card and slot",
        "generation of card and slot",
        "bandwidth of each [GB/s]",
        "set by",
        "draw from the slot [W]",
        "most [W]",
    )
    note = "One direction, after line coding; generation 6 after flits, 242 of 256 bytes."
    return Listing("slots.cards", "Cards", header, tuple(lines), note, link_bandwidth)


def _card(slots: Slots, row: Row, card: Card, count: float) -> tuple[str, ...]:
    slot = row.slot
    generation = _plain(row.generation[0])
    return (
        slot.name,
        card.name,
        f"{count:.0f}",
        slots.place(slot.owner) if slot.owner else "none",
        f"x{_plain(number(card.lanes))} in x{_plain(number(slot.lanes))}",
        f"{_plain(generation_number(card.generation))} in {generation}",
        _plain(float(bandwidth_of(row, card)[0]) / GIGA, 1, "not decided"),
        _set_by(row, card),
        _plain(slot_draw(card)),
        _plain(number(slot.power, "W")),
    )


def _set_by(row: Row, card: Card) -> str:
    """Say which end of the link is narrower or older."""
    pairs = (
        (number(card.lanes), number(row.slot.lanes)),
        (generation_number(card.generation), float(row.generation[0])),
    )
    if any(np.isnan(each) for pair in pairs for each in pair):
        return "not decided"
    ends = {"card" if mine < theirs else "slot" for mine, theirs in pairs if mine != theirs}
    return " and ".join(sorted(ends)) if ends else "both alike"


def _free(slots: Slots) -> Listing:
    """Each slot that can still take a card, and which of the book's cards it takes."""
    lines = []
    for row in slots.rows.values():
        left = float(lanes_left(slots.case, row, slots.links, slots.sides)[0])
        if row.empty[0] > 0 and not left <= 0:
            lines.append(_free_slot(slots, row, left))
    header = (
        "slot",
        "free",
        "processor",
        "lanes",
        "length",
        "height",
        "slot widths",
        "power",
        "cards it still takes",
    )
    note = "By lanes, size and power. Numbers of each card and rules of the book may allow fewer."
    return Listing("slots.free", "Free slots", header, tuple(lines), note)


def _free_slot(slots: Slots, row: Row, left: float) -> tuple[str, ...]:
    slot, widths = row.slot, int(slots.widths(row)[0])
    return (
        slot.name,
        f"{row.empty[0]:.0f}",
        slots.place(slot.owner) if slot.owner else "none",
        _plain(left),
        slot.length.text if slot.length else NOT_STATED,
        slot.height.text if slot.height else NOT_STATED,
        f"{widths}",
        slot.power.text if slot.power else NOT_STATED,
        ", ".join(_takes(slots.case, slot, left, widths)) or "none of the book",
    )


def _takes(case: Case, slot: Slot, lanes: float, widths: int) -> Iterator[str]:
    """Yield the names of the cards that fit, the widest first."""
    cards = [part for part in case.book.taken(slot.takes).values() if isinstance(part, Card)]
    for card in sorted(cards, key=lambda card: -width_of(card)):
        fits = all(test(card) for _, _, test in limits_of(slot))
        if fits and width_of(card) <= widths and not number(card.lanes) > lanes:
            yield card.name


def _sides(slots: Slots) -> Listing:
    """What works with each processor."""
    lines = tuple(
        (
            slots.place(side.owner),
            *(
                f"{count[0]:.0f}"
                for count in (side.networks, side.accelerators, side.controllers, side.drives)
            ),
            f"{side.used[0]:.0f}",
            _plain(float(side.there[0])),
            _plain(float(side.there[0] - side.used[0])),
            _plain(float(side.bandwidth[0]) / GIGA, 1, "not decided"),
        )
        for side in slots.sides
    )
    header = (
        "processor",
        "network cards",
        "accelerators",
        "controllers",
        "drives on its lanes",
        "lanes used",
        "lanes there",
        "lanes free",
        "bandwidth of its cards [GB/s]",
    )
    note = "What one processor needs of the other's side crosses the link between them."
    return Listing("slots.sides", "What works with which processor", header, lines, note)


def _plain(value: float, places: int = 0, otherwise: str = NOT_STATED) -> str:
    return f"{value:,.{places}f}" if np.isfinite(value) else otherwise

"""Slots of a case: which cards each row of slots holds, what they move, and what is free."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np

from baywright.facts.fact import Fact
from baywright.facts.parts import Card, Processor
from baywright.facts.places import Slot
from baywright.laws.frame import Option
from baywright.laws.slots import width_of
from baywright.sizing.case import Case, Truths
from baywright.sizing.equation import Reals
from baywright.sizing.slots.lanes import generation_number, link_bandwidth


@dataclass(frozen=True, slots=True)
class Row:
    """A slot, or a row of interchangeable ones, in each build.

    Args:
        name: id of the place.
        slot: its facts.
        counts: by id, how many of each card it holds.
        generation: generation of its lanes; not-a-number where nobody says.
        served: whether its processor is fitted, or it needs none.
        covered: whether a wide card of the slot beside takes its room.
    """

    name: str
    slot: Slot
    counts: Mapping[str, Reals]
    generation: Reals
    served: Truths
    covered: Truths

    @property
    def positions(self) -> int:
        """Interchangeable slots of the row."""
        return self.slot.positions.known if self.slot.positions is not None else 1

    @property
    def room(self) -> int:
        """Slot widths of its own room."""
        return self.slot.slots.known if self.slot.slots is not None else 1

    @property
    def filled(self) -> Reals:
        """Cards that it holds."""
        return np.asarray(sum(self.counts.values(), np.zeros(len(self.served))), np.float64)

    @property
    def empty(self) -> Reals:
        """Slots of the row whose processor is there and whose room nobody takes."""
        open_ = self.served & ~self.covered
        return np.where(open_, self.positions - self.filled, 0.0)


def number(fact: Fact[Any] | None, unit: str = "") -> float:
    """Return the number of a fact, or not-a-number where it is not known.

    Args:
        fact: the fact, or ``None``.
        unit: the unit wanted, for amounts.
    """
    if fact is None or fact.value is None:
        return np.nan
    return float(fact.known.to(unit) if unit else fact.known)


def rows_of(case: Case) -> dict[str, Row]:
    """Return the rows of slots of the book, by place, in its order."""
    slots = case.book.places_of(Slot)
    counts = {name: _counts(case, name) for name in slots}
    return {
        name: Row(
            name,
            slot,
            counts[name],
            _generation(case, slot),
            _served(case, slot),
            _covered(case, name, counts),
        )
        for name, slot in slots.items()
    }


def cards_of(case: Case, row: Row) -> Iterator[tuple[str, Card, Reals]]:
    """Yield the cards that some build has in a row, with how many of each."""
    for name, count in row.counts.items():
        card = case.book.parts[name]
        if isinstance(card, Card) and bool(count.any()):
            yield name, card, count


def bandwidth_of(row: Row, card: Card) -> Reals:
    """Return what a card moves in one slot of a row, one direction [B/s]."""
    lanes, generation = number(card.lanes), generation_number(card.generation)
    moved = link_bandwidth(lanes, generation, number(row.slot.lanes), row.generation)
    return np.asarray(moved, np.float64)


def slot_draw(card: Card) -> float:
    """Return what a card draws from the slot itself [W]."""
    return number(card.slot_power if card.slot_power is not None else card.power, "W")


def of_processor(case: Case, option: Option, field: str) -> float:
    """Return a number of the processor in a socket: its ``lanes`` or ``lane_generation``."""
    part = case.book.parts.get(option.part or "")
    if not isinstance(part, Processor):
        return np.nan
    return number(part.lanes) if field == "lanes" else generation_number(part.lane_generation)


def _counts(case: Case, name: str) -> dict[str, Reals]:
    counts: dict[str, Reals] = {}
    for choice in case.frame.at(name):
        for card, row in _by_option(case.frame.options(choice)).items():
            fitted = row[case.codes[choice]]
            counts[card] = counts[card] + fitted if card in counts else fitted
    return counts


def _by_option(options: tuple[Option, ...]) -> dict[str, Reals]:
    """Return, for each card, how many of it each option of a choice has."""
    held = dict.fromkeys(part for option in options for part, _ in option.parts)
    return {
        card: np.array([float(dict(option.parts).get(card, 0)) for option in options])
        for card in held
    }


def _generation(case: Case, slot: Slot) -> Reals:
    """Return the generation of a slot: the older of what it and its processor state."""
    stated = np.full(case.size, generation_number(slot.generation))
    if slot.owner is None or (slot.generation is not None and np.isnan(stated).all()):
        return stated
    given = case.looked_up(slot.owner, partial(of_processor, case, field="lane_generation"))
    return np.asarray(np.fmin(stated, given), np.float64)


def _served(case: Case, slot: Slot) -> Truths:
    if slot.owner is None:
        return np.ones(case.size, bool)
    return case.looked_up(slot.owner, lambda option: float(bool(option.parts))) > 0


def _covered(case: Case, name: str, counts: Mapping[str, Mapping[str, Reals]]) -> Truths:
    covered = np.zeros(case.size, bool)
    for other, slot in case.book.places_of(Slot).items():
        if slot.neighbour == name:
            room = slot.slots.known if slot.slots is not None else 1
            for card, count in counts[other].items():
                part = case.book.parts[card]
                if isinstance(part, Card) and width_of(part) > room:
                    covered |= count > 0
    return covered

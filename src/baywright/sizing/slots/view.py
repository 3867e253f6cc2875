"""The slots of some builds as figures and limits read them, and what is not said of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from baywright.facts.parts import Card
from baywright.facts.places import Slot
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Input
from baywright.sizing.slots.lanes import generation_number
from baywright.sizing.slots.rows import Row, cards_of, number, rows_of
from baywright.sizing.slots.sharing import Shared, Side, shared_links, sides_of

GIGA = 1e9
ONE_WAY = "one direction, after line coding"


@dataclass(frozen=True, slots=True)
class Slots:
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

    def widths(self, row: Row) -> Reals:
        """Return the slot widths of a row, the neighbour's with it where that is empty too."""
        beside = self.rows.get(row.slot.neighbour or "")
        more = np.zeros(self.case.size) if beside is None else beside.empty > 0
        return np.asarray(row.room + more, np.float64)

    def fed_by(self, link: Shared) -> str:
        """Return the names of the places on a link."""
        return " and ".join(self.place(place) for place in link.link.feeds)


def slots_of(case: Case) -> Slots:
    """Return the slots of some builds."""
    rows = rows_of(case)
    links = shared_links(case, rows)
    return Slots(case, rows, links, sides_of(case, rows, links))


def undecided(slots: Slots, rows: Iterable[Row]) -> tuple[str, ...]:
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


def said(slots: Slots, rows: Iterable[Row]) -> tuple[Input, ...]:
    """Return the lanes and generations of the cards in some rows, and of their slots."""
    found: dict[str, Input] = {}
    for row in rows:
        for name, card, _ in cards_of(slots.case, row):
            found[name] = _lanes_said(slots, card.name, card)
            found[row.name] = _lanes_said(slots, row.slot.name, row.slot)
    return tuple(found.values())


def _lanes_said(slots: Slots, name: str, what: Card | Slot) -> Input:
    lanes = f"x{what.lanes.text}" if what.lanes is not None else ""
    text = ", ".join(each for each in (lanes, what.generation) if each)
    return Input(f"lanes of {name}", text, slots.case.cite(what.lanes, what.generation))


def lacking_lanes(slots: Slots, side: Side) -> tuple[str, ...]:
    """Return the processors that do not say how many lanes they offer."""
    return slots.case.lacking("processor", "lanes") if np.isnan(side.there).any() else ()

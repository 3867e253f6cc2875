"""Slots and cards: what each slot offers, what each card needs, which card goes where."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.tables.making import Field, parts_of, parts_table
from baywright.desk.guide.writer import Writer
from baywright.facts.places import Slot
from baywright.papers.document import Block, Column, Run, Table

KINDS = ("controller", "accelerator", "network", "card")
CARDS = (
    Field("lanes", "lanes"),
    Field("generation", "generation"),
    Field("length", "length"),
    Field("height", "height"),
    Field("slot widths", "slots"),
    Field("peak draw", "power"),
    Field("from the slot", "slot_power"),
    Field("most in one machine", "at_most"),
    Field("list price", "price"),
)
OFFERS = (
    ("lanes", "lanes"),
    ("generation", "generation"),
    ("longest card", "length"),
    ("height", "height"),
    ("power of the slot", "power"),
    ("positions", "positions"),
)


def slots(writer: Writer) -> Iterable[Block]:
    """Yield what each slot offers."""
    found, facts = writer.book.places_of(Slot), writer.shared.facts
    kept = [o for o in OFFERS if any(f"places.{name}.{o[1]}" in facts for name in found)]
    rows = tuple(
        (
            (Run(str(slot.name), "strong"),),
            (Run(writer.names.place(slot.owner) if slot.owner else "–"),),
            *((writer.fact(f"places.{name}.{path}"),) for _, path in kept),
            (Run(writer.names.place(slot.neighbour) if slot.neighbour else "–"),),
        )
        for name, slot in found.items()
    )
    if rows:
        columns = (
            Column("slot"),
            Column("works with"),
            *(Column(title, right=True) for title, _ in kept),
            Column("a double-wide card also takes"),
        )
        yield Table("Slots", columns, rows)


def cards(writer: Writer) -> Iterable[Block]:
    """Yield what each card needs."""
    yield from parts_table(writer, "Cards", parts_of(writer, *KINDS), CARDS)


def placements(writer: Writer) -> Iterable[Block]:
    """Yield how many of each card each slot can hold in some legal build."""
    found = writer.book.places_of(Slot)
    cards = parts_of(writer, *KINDS)
    rows = []
    for card in cards:
        cells = [writer.cell(f'most(count("{card}", at={name}))') for name in found]
        shown = [
            Run("–" if cell.text == "0" else cell.text, "plain", cell.statement) for cell in cells
        ]
        name = (Run(str(writer.book.parts[card].name), "strong"), *writer.standing(card))
        rows.append((name, *((each,) for each in shown)))
    if rows and found:
        heads = (Column(str(slot.name), right=True) for slot in found.values())
        title = "Most of each card in each slot, in some legal build"
        yield Table(title, (Column("card"), *heads), tuple(rows))

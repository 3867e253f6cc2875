"""Boot media, systems, settings, firmware."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.tables.making import Field, parts_of, parts_table
from baywright.desk.guide.writer import Writer
from baywright.facts.places import Position
from baywright.papers.document import Block, Column, Run, Table

MEDIA = (
    Field("mirrored", "mirrored"),
    Field("cards or sticks", "media"),
    Field("capacity of one", "capacity"),
    Field("endurance", "endurance"),
    Field("list price", "price"),
)
REMOVABLE = (
    Field("capacity of a cartridge", "capacity"),
    Field("rate", "rate"),
    Field("list price", "price"),
)


def media(writer: Writer) -> Iterable[Block]:
    """Yield boot media, and units for removable media."""
    yield from parts_table(writer, "Boot media", parts_of(writer, "boot"), MEDIA)
    found = parts_of(writer, "media")
    yield from parts_table(writer, "Units for removable media", found, REMOVABLE)


def systems(writer: Writer) -> Iterable[Block]:
    """Yield which system starts from which boot medium."""
    system = writer.book.settings.get("system")
    place = _boot_place(writer)
    media = [*parts_of(writer, "boot"), ""] if place else []
    if system is None or not media:
        return
    rows = []
    for value, meaning in system.values.items():
        given = f'system == "{value}"'
        cells = []
        for part in media:
            here = f'{place} == "{part}"' if part else f"{place} == empty"
            cells.append((writer.cell(f"can({here} and {given})"),))
        rows.append(((Run(str(meaning.known), "strong"),), *cells))
    heads = [Column(str(writer.book.parts[p].name) if p else "none, from drives") for p in media]
    yield Table("Systems by boot medium", (Column("system"), *heads), tuple(rows))


def _boot_place(writer: Writer) -> str:
    book = writer.book
    boot = set(book.parts_of("boot"))
    for name, place in book.places_of(Position).items():
        if boot & set(book.taken(list(place.takes))):
            return name
    return ""


def settings(writer: Writer) -> Iterable[Block]:
    """Yield the settings, each with what its values mean."""
    rows = tuple(
        (
            (Run(str(setting.name), "strong"),),
            (writer.fact(f"settings.{name}.values.{value}"),),
        )
        for name, setting in writer.book.settings.items()
        if name != "system"
        for value in setting.values
    )
    if rows:
        yield Table("Settings", (Column("setting"), Column("can be")), rows)


def firmware(writer: Writer) -> Iterable[Block]:
    """Yield the least firmware by part and system."""
    rows = []
    system = writer.book.settings.get("system")
    for at, each in enumerate(writer.book.firmware.minimum):
        wanted = [
            str(system.values[name].known) if system and name in system.values else str(name)
            for name in each.systems
        ]
        rows.append(
            (
                (Run(writer.names.part(each.part), "strong"),),
                (writer.fact(f"firmware.minimum.{at}.at_least"),),
                (Run(", ".join(wanted) or "every system"),),
            )
        )
    if rows:
        columns = (Column("part"), Column("at least", right=True), Column("with"))
        yield Table("Least firmware", columns, tuple(rows))

"""What a zone and a boot position hold, which a record shows by their drives."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from baywright.desk.reading.locating import Located
from baywright.desk.reading.matching import CAPACITY_TOLERANCE, Match, match, words_of
from baywright.facts.book import Book
from baywright.facts.parts import Boot, Cage
from baywright.facts.places import Position, Zone
from baywright.facts.record import Entry, Record
from baywright.laws.wording import counted, listed
from baywright.units import Quantity


def cage_of(book: Book, zone: Zone, modules: list[Entry], drives: list[Entry], bays: int) -> Match:
    """Find what is in a zone: by the enclosure recorded, else by the drives it holds.

    Args:
        book: the book.
        zone: the zone.
        modules: the enclosure recorded there; none or one.
        drives: the drives recorded there.
        bays: the bays recorded there, empty ones included.
    """
    taken = book.taken([str(each) for each in zone.takes])
    for module in modules:
        found = match(book, module, taken)
        if found.part is not None or not drives:
            return found
    if zone.always is not None:
        return Match(str(zone.always), (str(zone.always),), "it is always there")
    cages = {name: part for name, part in taken.items() if isinstance(part, Cage)}
    left = [name for name, cage in cages.items() if _holds(book, cage, drives, bays)]
    grounds = f"it has {counted(bays, 'bay')} for drives of their kind"
    if len(left) == 1:
        return Match(left[0], tuple(left), f"of the cages that fit there only this: {grounds}")
    could = f"it could be {listed(left, 'or')}" if left else "no cage there holds its drives"
    return Match(None, tuple(left), could)


def _holds(book: Book, cage: Cage, drives: list[Entry], bays: int) -> bool:
    if cage.bays.value is not None and cage.bays.value < bays:
        return False
    words = [each.values["interface"].value for each in drives if "interface" in each.values]
    return all(
        word is None or any(words_of(book, interface, word) for interface in cage.holds)
        for word in words
    )


def controller_of(
    zone: Zone, drives: list[Entry], record: Record, located: Mapping[str, Located]
) -> tuple[str, tuple[str, ...]]:
    """Find the slot whose controller drives a zone, and say why; empty where it is not certain."""
    subsystems = {path for drive in drives for path in drive.behind}
    slots: dict[str, Entry] = {}
    for entry in record.present("controller"):
        places = located[entry.where].places
        if subsystems & set(entry.behind) and len(places) == 1 and places[0] in zone.controllers:
            slots[places[0]] = entry
    if len(slots) != 1:
        return "", ()
    ((slot, entry),) = slots.items()
    return slot, (f"controller {slot}: {entry.where} has these drives",)


def boot_medium(book: Book, place: Position, drives: list[Entry]) -> Match:
    """Find the boot medium that some drives in one position are together."""
    taken = book.taken([str(each) for each in place.takes])
    media = {name: part for name, part in taken.items() if isinstance(part, Boot)}
    left = [name for name, part in media.items() if _is_made_of(part, drives)]
    if len(left) == 1:
        said = f"it has {counted(len(drives), 'medium', 'media')} of its capacity"
        return Match(left[0], tuple(left), said)
    could = f"it could be {listed(left, 'or')}" if left else "no boot medium is made of them"
    return Match(None, tuple(left), could)


def _is_made_of(part: Boot, drives: Iterable[Entry]) -> bool:
    entries = list(drives)
    own = part.capacity.value if part.capacity else None
    if part.media is not None and part.media.value not in (None, len(entries)):
        return False
    sizes = [each.values["capacity"].value for each in entries if "capacity" in each.values]
    return own is None or all(_near(size, own) for size in sizes if isinstance(size, Quantity))


def _near(size: Quantity, own: Quantity) -> bool:
    return abs(size.canonical - own.canonical) <= CAPACITY_TOLERANCE * own.canonical

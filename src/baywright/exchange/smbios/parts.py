"""Entries from structures; offsets and meanings are those of DSP0134, section 7."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from baywright.exchange.smbios.structures import Structure
from baywright.facts.record import Entry, Reading, Value
from baywright.units import Quantity

UNKNOWN = frozenset({"", "unknown", "not specified", "none", "n/a", "to be filled by o.e.m."})
"""Texts by which firmware says that it does not know, in small letters; common practice."""

GENERATIONS = {0x12: "DDR", 0x13: "DDR2", 0x18: "DDR3", 0x1A: "DDR4", 0x22: "DDR5"}
"""Memory types of structure 17 (7.18.2) that books call by a generation."""

_WIDTHS = {8: 1, 9: 2, 10: 4, 11: 8, 12: 12, 13: 16, 14: 32}
"""Lanes by the code of the data bus width (7.10.2)."""

_SLOT_GENERATIONS = (
    (0xA5, 0xAA, "PCIe 1.0"),
    (0xAB, 0xB0, "PCIe 2.0"),
    (0xB1, 0xB6, "PCIe 3.0"),
    (0xB8, 0xBD, "PCIe 4.0"),
    (0xBE, 0xC3, "PCIe 5.0"),
)
"""First and last code of the slot types of a generation (7.10.1)."""

AVAILABLE, IN_USE = 3, 4
"""Codes of the current usage of a slot (7.10.3)."""


def texts(structure: Structure, *offsets: int) -> Iterator[str]:
    """Yield texts that say something, each once."""
    seen: set[str] = set()
    for offset in offsets:
        text = structure.text(offset) or ""
        if text.casefold() not in UNKNOWN and text not in seen:
            seen.add(text)
            yield text


def reading(name: str, field: str, number: int | None, value: Value | None) -> dict[str, Reading]:
    """Return a reading by its name, or nothing where the structure is too short for it.

    Args:
        name: what a book calls the field.
        field: what the standard calls it.
        number: the number recorded.
        value: what it means, or ``None`` when it is unknown.
    """
    return {} if number is None else {name: Reading(field, f"{number} (0x{number:X})", value)}


def rest_of(structure: Structure, named: Iterable[tuple[str, int]]) -> dict[str, str]:
    """Return texts of a structure that nothing was made of, and its bytes, so that none is lost."""
    found = {name: structure.text(offset) or "" for name, offset in named}
    return {
        **{name: text for name, text in found.items() if text},
        "formatted area": structure.data.hex(),
    }


def processor(structure: Structure) -> Entry:
    """Return a processor (structure 4)."""
    cores, known = _cores(structure)
    status = structure.number(0x18, 1)
    return Entry(
        "processor",
        structure.where,
        tuple(texts(structure, 0x04)),
        label=next(texts(structure, 0x04), ""),
        present=status is None or bool(status & 0x40),
        names=tuple(texts(structure, 0x10, 0x22)),
        values=reading("cores", "Core Count", cores, known),
        rest=rest_of(structure, (("Manufacturer", 0x07), ("Serial Number", 0x20))),
    )


def _cores(structure: Structure) -> tuple[int | None, int | None]:
    """Return a number of cores as recorded and as read; 0 is unknown, FFh is in Core Count 2."""
    number, unknown = structure.number(0x23, 1), (None, 0, 0xFF)
    if number == 0xFF:
        number, unknown = structure.number(0x2A, 2), (None, 0, 0xFFFF)
    return number, None if number in unknown else number


def memory(structure: Structure) -> Entry:
    """Return a module of memory, or its empty socket (structure 17)."""
    size = structure.number(0x0C, 2)
    kind = structure.number(0x12, 1)
    total, data = structure.number(0x08, 2), structure.number(0x0A, 2)
    known = total is not None and data is not None and 0xFFFF not in (total, data)
    check = total - data if known and total and data and total >= data else None
    ranks = structure.number(0x1B, 1)
    values = {
        **reading("size", "Size", size, _size(structure)),
        **reading("generation", "Memory Type", kind, GENERATIONS.get(kind or 0)),
        **reading("type", "Type Detail", structure.number(0x13, 2), _type(structure)),
        **reading("ranks", "Attributes", ranks, (ranks or 0) & 15 or None),
        **reading("check_bits", "Total Width", total, check),
        **reading("speed", "Speed", *_speed(structure, 0x15, 0x54)),
        **reading("speed_now", "Configured Memory Speed", *_speed(structure, 0x20, 0x58)),
    }
    named = (("Manufacturer", 0x17), ("Serial Number", 0x18), ("Asset Tag", 0x19))
    locators = _memory_locators(structure)
    return Entry(
        "memory",
        structure.where,
        locators,
        label=next(iter(locators), ""),
        present=size != 0,
        names=tuple(texts(structure, 0x1A)),
        values=values if size else {},
        rest=rest_of(structure, named),
        behind=(f"handle 0x{structure.number(0x04, 2) or 0:04X}",),
    )


def _memory_locators(structure: Structure) -> tuple[str, ...]:
    """Return the locators of a module: device and bank together are more exact than either."""
    device, bank = structure.text(0x10) or "", structure.text(0x11) or ""
    known = [each for each in (bank, device) if each.casefold() not in UNKNOWN]
    joined = [" ".join(known)] if len(known) == 2 else []
    return tuple(dict.fromkeys([*joined, *reversed(known)]))


def _size(structure: Structure) -> Quantity | None:
    """Return the size of a module (7.18.4, and 7.18.5 from 32 GB)."""
    size = structure.number(0x0C, 2)
    if size in (None, 0, 0xFFFF):
        return None
    if size == 0x7FFF:
        extended = structure.number(0x1C, 4)
        megabytes = Fraction((extended or 0) & 0x7FFFFFFF)
    else:
        megabytes = Fraction(size & 0x7FFF, 1024 if size & 0x8000 else 1)
    return Quantity(megabytes / 1024, "GB", "memory") if megabytes else None


def _type(structure: Structure) -> str | None:
    """Return the kind of module (7.18.3)."""
    detail = structure.number(0x13, 2) or 0
    kinds = ((0x8000, "load-reduced"), (0x2000, "registered"), (0x4000, "unbuffered"))
    return next((name for bit, name in kinds if detail & bit), None)


def _speed(structure: Structure, offset: int, extended: int) -> tuple[int | None, Quantity | None]:
    """Return a speed as recorded and as read; 0 is unknown, FFFFh is in the extended field."""
    number = structure.number(offset, 2)
    if number == 0xFFFF:
        number = (structure.number(extended, 4) or 0) & 0x7FFFFFFF
    return number, Quantity(Fraction(number), "MT/s") if number else None


def slot(structure: Structure) -> Entry:
    """Return a slot (structure 9); what is in it the tables do not say."""
    kind, width = structure.number(0x05, 1), structure.number(0x06, 1)
    usage = structure.number(0x07, 1)
    values = {
        **reading("lanes", "Slot Data Bus Width", width, _WIDTHS.get(width or 0)),
        **reading("generation", "Slot Type", kind, _generation(kind or 0)),
    }
    if usage not in (AVAILABLE, IN_USE):
        values |= reading("usage", "Current Usage", usage, None)
    return Entry(
        "slot",
        structure.where,
        tuple(texts(structure, 0x04)),
        label=next(texts(structure, 0x04), ""),
        present=usage != AVAILABLE,
        values=values,
        rest=rest_of(structure, ()),
    )


def _generation(kind: int) -> str | None:
    return next((name for low, high, name in _SLOT_GENERATIONS if low <= kind <= high), None)


def supply(structure: Structure) -> Entry:
    """Return a supply (structure 39)."""
    watts = structure.number(0x0C, 2)
    known = None if watts in (None, 0, 0x8000) else Quantity(Fraction(watts), "W")
    characteristics = structure.number(0x0E, 2)
    named = (("Manufacturer", 0x07), ("Serial Number", 0x08), ("Asset Tag Number", 0x09))
    return Entry(
        "supply",
        structure.where,
        tuple(texts(structure, 0x05, 0x06)),
        label=next(texts(structure, 0x05), ""),
        present=characteristics is None or bool(characteristics & 2),
        names=tuple(texts(structure, 0x0A, 0x06)),
        values=reading("rating", "Max Power Capacity", watts, known),
        rest=rest_of(structure, named),
    )


MAKERS = {4: processor, 9: slot, 17: memory, 39: supply}
"""How each type of structure becomes an entry."""

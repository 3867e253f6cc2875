"""A record from SMBIOS tables."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from baywright.exchange.smbios.entry_point import Dump, read_dump
from baywright.exchange.smbios.parts import MAKERS, texts
from baywright.exchange.smbios.structures import END_OF_TABLE, Structure, Table
from baywright.facts.record import Entry, Finding, Reading, Record, RedundancyGroup, Total
from baywright.units import Quantity

_SYSTEM_MEMORY = 3
_USED = frozenset({0, 1, 2, 3, 16, 19, END_OF_TABLE, *MAKERS})


def read_tables(source: Path) -> Record:
    """Read SMBIOS tables.

    Args:
        source: a folder with ``smbios_entry_point`` and ``DMI``, or a raw dump.

    Raises:
        Problems: when there is no table, or it cannot be read.
    """
    dump = read_dump(source)
    table = dump.table
    entries = _told_apart(_entry(each) for each in table.structures if each.type in MAKERS)
    version = dump.entry.version if dump.entry else "of no stated version"
    return Record(
        str(source),
        f"SMBIOS {version}",
        _called(table),
        tuple(entries),
        dict(_in_full(table)),
        tuple(_totals(table, entries)),
        tuple(_groups(table, entries)),
        tuple(_findings(dump)),
    )


def _entry(structure: Structure) -> Entry:
    return MAKERS[structure.type](structure)


def _told_apart(entries: Iterable[Entry]) -> list[Entry]:
    """Return entries of which no two are in one place of the record, though handles repeat."""
    seen: Counter[str] = Counter()
    found: list[Entry] = []
    for entry in entries:
        seen[entry.where] += 1
        number = seen[entry.where]
        found.append(
            replace(entry, where=f"{entry.where}, number {number}") if number > 1 else entry
        )
    return found


def _called(table: Table) -> str:
    """Return maker and product of the system (structure 1), else of the board (structure 2)."""
    for kind in (1, 2):
        for structure in table.of(kind):
            said = " ".join(texts(structure, 0x04, 0x05))
            if said:
                return said
    return "machine of no stated name"


def _in_full(table: Table) -> Iterator[tuple[str, str]]:
    """Yield what is listed in full: each socket has a structure of its own, filled or not."""
    if not table.complete:
        return
    for kind, number in (("processor", 4), ("memory", 17)):
        if table.of(number):
            yield kind, f"structures of type {number}"


def _totals(table: Table, entries: list[Entry]) -> Iterator[Total]:
    """Yield totals: sockets of each array of memory, and all memory as it is mapped."""
    modules = [each for each in entries if each.kind == "memory"]
    for array in table.of(16):
        count = array.number(0x0D, 2)
        inside = sum(array.where in each.behind for each in modules)
        if count is not None:
            stated = Reading("Number of Memory Devices", str(count), count)
            yield Total(array.where, stated, inside, "structures of its sockets")
    mapped = [_mapped(each) for each in table.of(19)]
    if mapped and modules and None not in mapped:
        size = sum((each for each in mapped if each is not None), Fraction(0))
        stated = Reading("mapped addresses", f"{size} GB", Quantity(size, "GB", "memory"))
        where = ", ".join(each.where for each in table.of(19))
        yield Total(where, stated, _memory(modules), "memory of all modules")


def _memory(modules: list[Entry]) -> Quantity:
    sizes = [each.values["size"].value for each in modules if "size" in each.values]
    whole = sum((size.to("GB") for size in sizes if isinstance(size, Quantity)), Fraction(0))
    return Quantity(whole, "GB", "memory")


def _mapped(structure: Structure) -> Fraction | None:
    """Return the size of a mapped range (structure 19), in GB of 1024³ bytes."""
    start, end = structure.number(0x04, 4), structure.number(0x08, 4)
    if start == 0xFFFFFFFF:
        start, end = structure.number(0x0F, 8), structure.number(0x17, 8)
        unit = 1024**3
    else:
        unit = 1024**2
    if start is None or end is None or end < start:
        return None
    return Fraction(end - start + 1, unit)


def _groups(table: Table, entries: list[Entry]) -> Iterator[RedundancyGroup]:
    """Yield groups of supplies: a number other than 0 says that a supply is redundant (7.40)."""
    present = {each.where for each in entries if each.kind == "supply" and each.present}
    groups: dict[int, list[str]] = {}
    for structure in table.of(39):
        group = structure.number(0x04, 1)
        if group and structure.where in present:
            groups.setdefault(group, []).append(structure.where)
    for group, members in groups.items():
        claim = f"Power Unit Group {group}"
        yield RedundancyGroup(
            members[0], claim, claimed=True, needed=1, members=len(members), words="supplies"
        )


def _findings(dump: Dump) -> Iterator[Finding]:
    table, entry = dump.table, dump.entry
    where = "the table"
    if entry is None:
        yield Finding("unknown", where, "There is no entry point, so the version is not known.")
    if entry is not None and not entry.sound:
        says = "The bytes of the entry point do not add up to zero."
        yield Finding("inconsistent", "the entry point", says)
    if dump.cut:
        says = "The table is shorter than its entry point says."
        yield Finding("inconsistent", where, says)
    if table.trouble:
        yield Finding("inconsistent", where, table.trouble)
    count = entry.structures if entry else None
    if count is not None and count != len(table.structures):
        says = f"The entry point speaks of {count} structures; {len(table.structures)} were read."
        yield Finding("inconsistent", "the entry point", says)
    yield from _handles(table)
    yield from _not_decoded(table)
    yield from _states(table)


def _handles(table: Table) -> Iterator[Finding]:
    counts = Counter(each.where for each in table.structures)
    for handle, count in counts.items():
        if count > 1:
            yield Finding("inconsistent", handle, f"{count} structures have this handle.")


def _not_decoded(table: Table) -> Iterator[Finding]:
    counts = Counter(each.type for each in table.structures if each.type not in _USED)
    if counts:
        said = ", ".join(f"{number} of type {kind}" for kind, number in sorted(counts.items()))
        yield Finding("unknown", "the table", f"Structures that nothing was made of: {said}.")


def _states(table: Table) -> Iterator[Finding]:
    """Yield supplies and processors that do not work, by their own status."""
    for structure in table.of(39):
        bits = structure.number(0x0E, 2) or 0
        if bits & 2 and bits & 4:
            yield Finding("fragile", structure.where, "This supply has no input power.")
        if bits & 2 and bits >> 7 & 7 in (4, 5):
            yield Finding("fragile", structure.where, "This supply reports that it has failed.")
    for structure in table.of(4):
        status = structure.number(0x18, 1) or 0
        if status & 0x40 and status & 7 in (2, 3):
            says = "This processor is there and switched off by the firmware."
            yield Finding("fragile", structure.where, says)

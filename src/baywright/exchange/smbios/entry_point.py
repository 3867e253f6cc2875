"""The entry point that leads to a table (DSP0134, 5.2), and where dumps keep the two."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from baywright.exchange.smbios.structures import Table, read_structures
from baywright.problems import Problems, problem

ENTRY, TABLE = "smbios_entry_point", "DMI"
"""Names of the two files in ``/sys/firmware/dmi/tables`` (Linux, sysfs-firmware-dmi-tables)."""

MOST_BYTES = 8_000_000
"""Bytes of a dump; tables of large machines have less than a hundredth of it."""

_PARAGRAPH = 16
_SEGMENT = 0xF0000


@dataclass(frozen=True, slots=True)
class EntryPoint:
    """An entry point.

    Args:
        version: version of the standard, such as ``3.7``, or empty when there is no entry point.
        length: bytes of the table; in version 3 the most it may have.
        address: where the table was in memory.
        structures: how many structures the table has, where it says so.
        size: bytes of the entry point itself.
        sound: whether its bytes add up to zero, as they must.
        exact: whether ``length`` is the length itself.
    """

    version: str
    length: int
    address: int
    structures: int | None
    size: int
    sound: bool
    exact: bool


@dataclass(frozen=True, slots=True)
class Dump:
    """A table with its entry point.

    Args:
        entry: the entry point, or ``None`` when the dump has none.
        table: the structures.
        cut: whether the dump is shorter than the entry point says.
    """

    entry: EntryPoint | None
    table: Table
    cut: bool = False


def is_tables(folder: Path) -> bool:
    """Say whether a folder holds tables as Linux shows them."""
    return (folder / TABLE).is_file()


def read_dump(source: Path) -> Dump:
    """Read a table and its entry point.

    Args:
        source: a folder with the two files that Linux shows, or a file: an entry point with its
            table, an image of the memory they lie in, or a table alone.

    Raises:
        Problems: kinds ``unreadable``, ``too-large`` and ``no-tables``.
    """
    if source.is_dir():
        data = _bytes(source / TABLE)
        point = source / ENTRY
        entry = _entry(_bytes(point), 0) if point.is_file() else None
        return _checked(_dump(entry, data), source)
    return _checked(_from_file(_bytes(source)), source)


def _from_file(data: bytes) -> Dump:
    for at in range(0, len(data), _PARAGRAPH):
        entry = _entry(data, at)
        if entry is not None and entry.sound:
            return _with_table(entry, data, at)
    return _dump(None, data)


def _with_table(entry: EntryPoint, data: bytes, at: int) -> Dump:
    """Look for the table where the entry point says, in memory, its segment, or right behind."""
    behind = at + entry.size
    after = behind + -behind % _PARAGRAPH
    candidates = (entry.address, entry.address - _SEGMENT, after, behind)
    dumps = [_dump(entry, data[start:]) for start in candidates if behind <= start < len(data)]
    return max(dumps, key=lambda dump: len(dump.table.structures), default=_dump(entry, b""))


def _dump(entry: EntryPoint | None, data: bytes) -> Dump:
    if entry is None:
        return Dump(None, read_structures(data))
    table = read_structures(data[: entry.length])
    return Dump(entry, table, cut=entry.exact and len(data) < entry.length)


def _checked(dump: Dump, source: Path) -> Dump:
    if not dump.table.structures or (dump.entry is None and not _looks_like_one(dump.table)):
        message = f"{source} holds no SMBIOS table."
        hint = "Give a raw dump of one, or a folder with smbios_entry_point and DMI."
        raise problem("no-tables", message, None, hint)
    return dump


def _looks_like_one(table: Table) -> bool:
    """Say whether bytes without an entry point are a table: it has an end, or a system in it."""
    return table.complete or bool(table.of(1))


def _entry(data: bytes, at: int) -> EntryPoint | None:
    if data[at : at + 5] == b"_SM3_":
        return _version_3(data[at:])
    if data[at : at + 4] == b"_SM_":
        return _version_2(data[at:])
    return None


def _version_3(data: bytes) -> EntryPoint | None:
    """Read a 64-bit entry point (DSP0134, 5.2.2)."""
    if len(data) < 24:
        return None
    size = max(data[6], 24)
    length, address = _number(data, 0x0C, 4), _number(data, 0x10, 8)
    version = f"{data[7]}.{data[8]}.{data[9]}"
    return EntryPoint(version, length, address, None, size, _adds_up(data[:size]), exact=False)


def _version_2(data: bytes) -> EntryPoint | None:
    """Read a 32-bit entry point (DSP0134, 5.2.1)."""
    if len(data) < 31 or data[16:21] != b"_DMI_":
        return None
    size = max(data[5], 31)
    length, address = _number(data, 0x16, 2), _number(data, 0x18, 4)
    count = _number(data, 0x1C, 2)
    sound = _adds_up(data[:size]) and _adds_up(data[0x10:0x1F])
    return EntryPoint(f"{data[6]}.{data[7]}", length, address, count, size, sound, exact=True)


def _number(data: bytes, offset: int, size: int) -> int:
    return int.from_bytes(data[offset : offset + size], "little")


def _adds_up(data: bytes) -> bool:
    return sum(data) % 256 == 0


def _bytes(path: Path) -> bytes:
    try:
        with path.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise _unreadable(path, error) from error
    if len(data) > MOST_BYTES:
        message = f"{path} has more than {MOST_BYTES:,} bytes."
        raise problem("too-large", message, None, "No SMBIOS table is that large.")
    return data


def _unreadable(path: Path, error: OSError | ValueError) -> Problems:
    hint = "Check its name."
    if isinstance(error, PermissionError):
        hint = "Only the administrator of the machine may read it; ask for a copy of the files."
    return problem("unreadable", f"{path} cannot be read.", None, hint)

"""SMBIOS tables written for tests, by the layout of DMTF DSP0134."""

from __future__ import annotations

import struct
from collections.abc import Iterable
from pathlib import Path

END = b"\x7f\x04\xfe\xfe\0\0"


def structure(kind: int, handle: int, area: bytes, texts: Iterable[str] = ()) -> bytes:
    """Return a structure: header, formatted area, texts, two zeros."""
    head = struct.pack("<BBH", kind, 4 + len(area), handle)
    said = b"".join(text.encode("latin-1") + b"\0" for text in texts)
    return head + area + (said + b"\0" if said else b"\0\0")


def system(maker: str = "Brackenmoor Works", product: str = "Ferryman F2") -> bytes:
    return structure(1, 0x0100, bytes([1, 2, 0, 0]) + bytes(19), (maker, product))


def processor(handle: int, socket: str, cores: int, *, there: bool = True) -> bytes:
    """Return structure 4 of version 3.0, 48 bytes long."""
    area = bytearray(44)
    area[0] = 1
    area[1] = 3
    area[0x18 - 4] = 0x41 if there else 0
    area[0x23 - 4] = cores if cores < 255 else 255
    struct.pack_into("<H", area, 0x2A - 4, cores)
    return structure(4, handle, bytes(area), (socket,))


def array(handle: int, sockets: int) -> bytes:
    """Return structure 16."""
    area = struct.pack("<BBBIHHQ", 3, 3, 6, 0x80000000, 0xFFFE, sockets, 2 << 40)
    return structure(16, handle, area)


def module(
    handle: int,
    locator: str,
    gigabytes: int,
    *,
    holder: int = 0x1000,
    speed: int = 5600,
    now: int = 5600,
    ranks: int = 2,
    bank: str = "",
) -> bytes:
    """Return structure 17 of version 3.3, 92 bytes long; 0 gigabytes is an empty socket."""
    area = bytearray(88)
    size = gigabytes * 1024
    struct.pack_into("<HHHHH", area, 0, holder, 0xFFFE, 80, 64, size if size < 0x7FFF else 0x7FFF)
    area[0x10 - 4] = 1
    area[0x11 - 4] = 2 if bank else 0
    area[0x12 - 4] = 0x22
    struct.pack_into("<HH", area, 0x13 - 4, 0x2080, speed)
    area[0x1B - 4] = ranks
    struct.pack_into("<IH", area, 0x1C - 4, size if size >= 0x7FFF else 0, now)
    return structure(17, handle, bytes(area), (locator, bank) if bank else (locator,))


def mapped(handle: int, gigabytes: int, holder: int = 0x1000) -> bytes:
    """Return structure 19, from address 0, with extended addresses."""
    end = gigabytes * 1024**3 - 1
    area = struct.pack("<IIHBQQ", 0xFFFFFFFF, 0xFFFFFFFF, holder, 1, 0, end)
    return structure(19, handle, area)


def slot(handle: int, label: str, usage: int, kind: int = 0xC3, width: int = 0x0D) -> bytes:
    """Return structure 9; usage 3 is available, 4 in use."""
    area = struct.pack("<BBBBBHBBHBB", 1, kind, width, usage, 4, handle, 4, 1, 0, 0, 0)
    return structure(9, handle, area, (label,))


def supply(handle: int, label: str, watts: int, group: int = 1, bits: int = 0b11_0000011) -> bytes:
    """Return structure 39; the bits say by default that it is there and works."""
    area = struct.pack("<BBBBBBBBHHHHH", group, 1, 0, 0, 0, 0, 0, 0, watts, bits, 0, 0, 0)
    return structure(39, handle, area, (label,))


def entry_3(length: int, address: int = 0x20) -> bytes:
    """Return a 64-bit entry point of version 3.7."""
    head = bytearray(struct.pack("<5sBBBBBBBIQ", b"_SM3_", 0, 24, 3, 7, 0, 1, 0, length, address))
    head[5] = -sum(head) % 256
    return bytes(head)


def entry_2(length: int, count: int, address: int = 0x20) -> bytes:
    """Return a 32-bit entry point of version 2.8."""
    inner = bytearray(struct.pack("<5sBHIHB", b"_DMI_", 0, length, address, count, 0x28))
    inner[5] = -sum(inner) % 256
    head = bytearray(struct.pack("<4sBBBBHB5s", b"_SM_", 0, 31, 2, 8, 92, 0, bytes(5)))
    head[4] = -(sum(head) + sum(inner)) % 256
    return bytes(head + inner)


def ferryman(*more: bytes) -> bytes:
    """Return a table of a Ferryman F2 of the demo: one processor, two modules, two supplies."""
    sockets = [module(0x1100 + n, f"PROC 1 DIMM {n}", 64 if n <= 2 else 0) for n in range(1, 17)]
    pieces = [
        system(),
        processor(0x0400, "PROC 1", 32),
        processor(0x0401, "PROC 2", 0, there=False),
        array(0x1000, 16),
        *sockets,
        mapped(0x1900, 128),
        slot(0x0900, "Riser 1 Slot A", 3),
        slot(0x0901, "Riser 1 Slot B", 4),
        supply(0x2700, "Supply 1", 1300),
        supply(0x2701, "Supply 2", 1300),
        *more,
        END,
    ]
    return b"".join(pieces)


def folder_of(table: bytes, folder: Path) -> Path:
    """Write the two files that Linux shows; return the folder."""
    (folder / "smbios_entry_point").write_bytes(entry_3(len(table)))
    (folder / "DMI").write_bytes(table)
    return folder


def dump_of(table: bytes, folder: Path) -> Path:
    """Write a dump: entry point, then the table at offset 32."""
    path = folder / "dump.bin"
    path.write_bytes(entry_3(len(table)).ljust(32, b"\0") + table)
    return path

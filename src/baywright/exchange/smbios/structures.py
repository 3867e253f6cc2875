"""Structures of an SMBIOS table: a formatted area each, and the texts behind it (DSP0134, 6.1).

Lengths are not believed: a structure that ends outside the table ends the reading, with a sentence.
"""

from __future__ import annotations

from dataclasses import dataclass

from baywright.exchange.texts import plain

END_OF_TABLE = 127
"""Type of the structure after which nothing follows (DSP0134, 7.45)."""

_HEADER = 4
MOST_STRUCTURES = 20_000
"""More than any machine has; handles end at 65,279 (DSP0134, 6.1.2)."""


@dataclass(frozen=True, slots=True)
class Structure:
    """One structure.

    Args:
        type: its type.
        handle: its handle.
        data: its formatted area, header included; its end may be missing in older versions.
        texts: the texts behind it, the first with number 1.
    """

    type: int
    handle: int
    data: bytes
    texts: tuple[str, ...]

    @property
    def where(self) -> str:
        """The handle, as people write it."""
        return f"handle 0x{self.handle:04X}"

    def number(self, offset: int, size: int) -> int | None:
        """Return a whole number, or ``None`` where the structure is too short to have it.

        Args:
            offset: where it starts.
            size: its bytes, the lowest first.
        """
        end = offset + size
        return int.from_bytes(self.data[offset:end], "little") if end <= len(self.data) else None

    def text(self, offset: int) -> str | None:
        """Return the text a byte points to; empty for number 0 (DSP0134, 6.1.3).

        ``None`` means that the structure is too short, or points to a text it does not have.
        """
        index = self.number(offset, 1)
        if index is None or index > len(self.texts):
            return None
        return self.texts[index - 1] if index else ""


@dataclass(frozen=True, slots=True)
class Table:
    """The structures of a table.

    Args:
        structures: all that could be read, in order.
        complete: whether the table ended with its own end.
        trouble: why it could not be read further, or empty.
    """

    structures: tuple[Structure, ...]
    complete: bool
    trouble: str = ""

    def of(self, kind: int) -> list[Structure]:
        """Return the structures of a type."""
        return [each for each in self.structures if each.type == kind]


def read_structures(data: bytes) -> Table:
    """Read a table as far as it goes.

    Args:
        data: the table; what follows its end is left out.
    """
    found: list[Structure] = []
    at = 0
    while at < len(data):
        if len(found) >= MOST_STRUCTURES:
            return Table(tuple(found), complete=False, trouble="It has too many structures.")
        end, trouble = _end_of(data, at)
        if trouble:
            return Table(tuple(found), complete=False, trouble=trouble)
        structure = _structure(data, at, end)
        found.append(structure)
        at = end
        if structure.type == END_OF_TABLE:
            return Table(tuple(found), complete=True)
    return Table(tuple(found), complete=False, trouble="It ends without an end-of-table structure.")


def _end_of(data: bytes, at: int) -> tuple[int, str]:
    """Return where a structure ends, behind the two zeros after its texts, or what is wrong."""
    if at + _HEADER > len(data):
        return at, f"It is cut off at byte {at:,}, inside a header."
    length = data[at + 1]
    if length < _HEADER:
        return at, f"The structure at byte {at:,} states a length of {length}, less than a header."
    if at + length > len(data):
        return at, f"It is cut off at byte {at:,}, inside a structure."
    end = data.find(b"\0\0", at + length)
    if end < 0:
        return at, f"It is cut off at byte {at:,}, inside the texts of a structure."
    return end + 2, ""


def _structure(data: bytes, at: int, end: int) -> Structure:
    length = data[at + 1]
    area = data[at : at + length]
    texts = data[at + length : end - 2].split(b"\0")
    handle = int.from_bytes(area[2:4], "little")
    shown = tuple(plain(text.decode("latin-1")) for text in texts) if texts != [b""] else ()
    return Structure(area[0], handle, area, shown)

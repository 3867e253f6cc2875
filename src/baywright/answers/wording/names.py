"""Names for people: what ids of places, parts and values are called in the book."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum

from baywright.facts.book import Book
from baywright.facts.places import Bank, Fans, Mount, PlaceBase, Slot, Socket, Supplies, Zone

_SEVERAL = re.compile(r"(\d+) x (\S+)")


class Section(Enum):
    """The groups in which a build is read, in their order."""

    PROCESSORS = "Processors"
    MEMORY = "Memory"
    DRIVES = "Drives"
    SLOTS = "Slots"
    NETWORK = "Network"
    BOOT = "Boot"
    PACKS = "Energy packs"
    OTHER = "Other positions"
    SUPPLIES = "Supplies"
    FANS = "Fans"
    SETTINGS = "Settings"


_BY_TYPE: dict[type[PlaceBase], Section] = {
    Socket: Section.PROCESSORS,
    Bank: Section.MEMORY,
    Zone: Section.DRIVES,
    Mount: Section.PACKS,
    Supplies: Section.SUPPLIES,
    Fans: Section.FANS,
}


@dataclass(frozen=True, slots=True)
class Names:
    """What a book calls its places, parts and values."""

    book: Book

    def section(self, place: str) -> Section:
        """Return the group that a place or a setting is read in."""
        held = self.book.places.get(place)
        if held is None:
            zone = place.removesuffix(" controller")
            return Section.DRIVES if zone in self.book.places else Section.SETTINGS
        for kind, section in _BY_TYPE.items():
            if isinstance(held, kind):
                return section
        kinds = {part.kind for part in self.book.taken(list(getattr(held, "takes", []))).values()}
        if kinds == {"boot"}:
            return Section.BOOT
        if not isinstance(held, Slot):
            return Section.OTHER
        return Section.NETWORK if kinds == {"network"} else Section.SLOTS

    def place(self, name: str) -> str:
        """Return what a place or a setting is called; the id itself where it has no name."""
        if name in self.book.places:
            return self.book.places[name].name
        if name in self.book.settings:
            return self.book.settings[name].name
        return "input power" if name == "line" else name

    def choice(self, name: str) -> str:
        """Return what a choice is called: of a zone, also its drives and its controller.

        Such choices are named ``A drives``, ``A controller`` or by the drive, ``A sas-2400``.
        """
        place, _, rest = name.partition(" ")
        if not rest or place not in self.book.places:
            return self.place(name)
        said = rest if rest in ("drives", "controller") else self.part(rest)
        return f"{self.place(place)}, {said}"

    def part(self, name: str) -> str:
        """Return the name of a part with its id, such as ``24-core processor (cpu-24)``."""
        part = self.book.parts.get(name)
        if part is None:
            return name
        return part.name if part.name == name else f"{part.name} ({name})"

    def label(self, choice: str, label: str) -> str:
        """Return what the label of a value says, part by part."""
        if choice in self.book.settings:
            meaning = self.book.settings[choice].values.get(label)
            return meaning.text if meaning is not None else label
        return ", ".join(self._piece(piece) for piece in label.split(" + "))

    def _piece(self, piece: str) -> str:
        several = _SEVERAL.fullmatch(piece)
        if several is None:
            return self.part(piece)
        return f"{several[1]} × {self.part(several[2])}"

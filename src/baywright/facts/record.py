"""A record: what a machine says of itself, whatever standard it was said in.

Nothing is thrown away: a value that is unknown or cannot be read keeps the text it had.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from baywright.units import Quantity

Value: TypeAlias = Quantity | int | str | frozenset[str]


@dataclass(frozen=True, slots=True)
class Reading:
    """One value as recorded.

    Args:
        field: its name in the record, such as ``CapacityMiB``.
        text: the value as recorded.
        value: the value read, or ``None`` when it is unknown or cannot be read.
    """

    field: str
    text: str
    value: Value | None


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing that a record speaks of: a part, or a place for one.

    Args:
        kind: kind of part, as books name them; ``slot`` for a slot whatever is in it, ``module``
            for an enclosure inside the machine, ``device`` for a card of no stated kind.
        where: path of the resource, or handle of the structure.
        locators: what the record calls its place, the most exact first.
        label: the one of them that names its place and no other, or empty.
        present: false when the place is there and empty.
        names: what the record calls the part: model, part number, name.
        values: readings by the field that a book has for them.
        rest: other fields as text, by their name in the record.
        behind: where the entry is that it hangs on, such as the controller of a drive.
    """

    kind: str
    where: str
    locators: tuple[str, ...] = ()
    label: str = ""
    present: bool = True
    names: tuple[str, ...] = ()
    values: Mapping[str, Reading] = field(default_factory=dict)
    rest: Mapping[str, str] = field(default_factory=dict)
    behind: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Total:
    """A total that the record states, beside the parts it lists.

    Args:
        where: path of the resource, or handle of the structure.
        stated: the total.
        listed: the same, added up over the parts listed.
        words: what is added up, such as ``memory of the system``.
    """

    where: str
    stated: Reading
    listed: Value
    words: str


@dataclass(frozen=True, slots=True)
class RedundancyGroup:
    """A group of parts that is said to be redundant.

    Args:
        where: path of the resource, or handle of the structure.
        claim: the claim as recorded, such as ``NPlusM, enabled``.
        claimed: false when the record itself says that the group is not redundant now.
        needed: parts that have to work, or ``None`` where it does not say.
        members: parts of the group that are there.
        words: what is in the group, such as ``supplies``.
    """

    where: str
    claim: str
    claimed: bool
    needed: int | None
    members: int
    words: str


@dataclass(frozen=True, slots=True)
class Finding:
    """Something about the record itself that a person should know.

    Args:
        kind: ``inconsistent``, ``fragile`` or ``unknown``.
        where: path of the resource, or handle of the structure.
        says: one sentence.
    """

    kind: str
    where: str
    says: str


@dataclass(frozen=True, slots=True)
class Record:
    """All that was read.

    Args:
        source: the folder, file or address.
        standard: standard and version, such as ``Redfish 1.15.0``.
        machine: what the record calls the machine.
        entries: parts and places.
        listed_in_full: where the record lists all it has of a kind, by kind.
        totals: totals stated beside them.
        groups: redundancy claimed.
        findings: what was noticed while reading.
    """

    source: str
    standard: str
    machine: str
    entries: tuple[Entry, ...]
    listed_in_full: Mapping[str, str] = field(default_factory=dict)
    totals: tuple[Total, ...] = ()
    groups: tuple[RedundancyGroup, ...] = ()
    findings: tuple[Finding, ...] = ()

    def present(self, *kinds: str) -> tuple[Entry, ...]:
        """Return the parts of some kinds that are there."""
        return tuple(entry for entry in self.entries if entry.present and entry.kind in kinds)

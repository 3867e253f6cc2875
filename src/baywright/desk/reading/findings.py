"""What is inconsistent, fragile or unknown in a record, whatever standard it is in."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping

from baywright.facts.record import Entry, Finding, Reading, Record, Value
from baywright.laws.wording import listed
from baywright.units import Quantity

ORDER = ("inconsistent", "fragile", "unknown")
"""Kinds of finding, the gravest first."""


def findings(record: Record, crowded: Mapping[str, tuple[Entry, ...]]) -> tuple[Finding, ...]:
    """Return all findings, the gravest kind first, otherwise in the order of the record.

    Args:
        record: the record.
        crowded: places of a book that hold one part and are said to hold several.
    """
    found = [
        *record.findings,
        *_totals(record),
        *_redundancy(record),
        *_same_label(record),
        *_crowds(crowded),
        *(finding for entry in record.entries for finding in _below_most(entry)),
        *(finding for entry in record.entries for finding in _unknown(entry)),
    ]
    return tuple(sorted(dict.fromkeys(found), key=lambda each: ORDER.index(each.kind)))


def _totals(record: Record) -> Iterator[Finding]:
    for total in record.totals:
        stated = total.stated
        if stated.text and stated.value is None:
            says = f"{stated.field} is {stated.text}, which is not known."
            yield Finding("unknown", total.where, says)
        elif stated.value is not None and stated.value != total.listed:
            says = f"{stated.field} is {stated.value}; {total.words}: {total.listed}."
            yield Finding("inconsistent", total.where, says)


def _redundancy(record: Record) -> Iterator[Finding]:
    for group in record.groups:
        there = f"{group.members} of the {group.words} are there and work"
        if not group.claimed:
            says = f"Redundancy of {group.words} is not in force ({group.claim}); {there}."
            yield Finding("fragile", group.where, says)
        elif group.members <= (1 if group.needed is None else group.needed):
            needed = f", and {group.needed} needed" if group.needed is not None else ""
            says = f"Redundancy of {group.words} is claimed ({group.claim}), but {there}{needed}."
            yield Finding("fragile", group.where, says)


def _same_label(record: Record) -> Iterator[Finding]:
    holders: dict[tuple[str, str], list[Entry]] = defaultdict(list)
    for entry in record.entries:
        if entry.present and entry.label:
            holders[entry.kind, entry.label.casefold()].append(entry)
    for (kind, _), entries in holders.items():
        if len(entries) > 1:
            others = listed(each.where for each in entries[1:])
            says = f"This {kind} and {others} are all said to be in {entries[0].label}."
            yield Finding("inconsistent", entries[0].where, says)


def _crowds(crowded: Mapping[str, tuple[Entry, ...]]) -> Iterator[Finding]:
    for place, entries in crowded.items():
        others = listed(each.where for each in entries[1:])
        says = f"{place} of the book holds one part; {others} are said to be in it as well."
        yield Finding("inconsistent", entries[0].where, says)


_PAIRS = (
    ("lanes_now", "lanes", "Its link has {} of {} lanes."),
    ("generation_now", "generation", "Its link runs at {}, below its maximum of {}."),
    ("link_now", "link_most", "Its link runs at {}, below its maximum of {}."),
    ("speed_now", "speed", "It runs at {}, below its own {}."),
)


def _below_most(entry: Entry) -> Iterator[Finding]:
    """Yield links that are trained below their maximum, and memory slower than it could be."""
    for now, most, says in _PAIRS:
        low, high = (_value(entry.values.get(name)) for name in (now, most))
        if low is not None and high is not None and _is_less(low, high):
            yield Finding("fragile", entry.where, says.format(low, high))


def _value(reading: Reading | None) -> Value | None:
    return reading.value if reading else None


def _is_less(low: Value, high: Value) -> bool:
    if isinstance(low, Quantity) and isinstance(high, Quantity):
        return low < high
    if isinstance(low, int) and isinstance(high, int):
        return low < high
    return isinstance(low, str) and isinstance(high, str) and low < high


def _unknown(entry: Entry) -> Iterator[Finding]:
    """Yield values that are recorded and cannot be read as what they should be."""
    unread = [each for each in entry.values.values() if each.value is None]
    if entry.present and unread:
        said = listed(f"{each.field} is {each.text}" for each in unread)
        yield Finding("unknown", entry.where, f"Not known: {said}.")

"""Totals that resources state beside their parts, and redundancy that they claim."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from baywright.exchange.redfish import parts
from baywright.exchange.redfish.bodies import Resource
from baywright.exchange.redfish.entries import Machine, older_entries
from baywright.exchange.redfish.machine import members
from baywright.exchange.redfish.values import (
    amount,
    inside,
    is_absent,
    link_of,
    links_of,
    number_at,
    objects,
    text_of,
    whole,
    word,
)
from baywright.facts.record import Entry, Reading, RedundancyGroup, Total
from baywright.units import Quantity


def totals_of(machine: Machine, entries: list[Entry]) -> Iterator[Total]:
    """Yield totals of the system, of its collections, and of older beside newer schemas."""
    yield from _of_system(machine, entries)
    for path, body in machine.found.resources.items():
        yield from _of_lists(path, body)
    for chassis in machine.chassis:
        yield from _of_schemas(machine, chassis)


def _of_system(machine: Machine, entries: list[Entry]) -> Iterator[Total]:
    body, where = machine.body(), machine.system
    processors = [each for each in entries if each.kind == "processor" and each.present]
    modules = [each for each in entries if each.kind == "memory" and each.present]
    if machine.collection(machine.system, "Processors"):
        count = number_at(body, "ProcessorSummary", "Count")
        yield Total(where, count, len(processors), "processors")
        cores = _summed(processors, "cores")
        stated = number_at(body, "ProcessorSummary", "CoreCount")
        if cores is not None:
            yield Total(where, stated, cores, "cores of all processors")
    if machine.collection(machine.system, "Memory"):
        stated = amount(body, "GB", "MemorySummary", "TotalSystemMemoryGiB", dimension="memory")
        size = Quantity(_memory(modules), "GB", "memory")
        yield Total(where, stated, size, "memory of all modules")


def _summed(found: Iterable[Entry], name: str) -> int | None:
    """Return a sum of whole numbers, or ``None`` where one of them is unknown."""
    values = [each.values[name].value if name in each.values else None for each in found]
    known = [value for value in values if isinstance(value, int)]
    return sum(known) if len(known) == len(values) else None


def _memory(modules: Iterable[Entry]) -> Fraction:
    sizes = [each.values["size"].value for each in modules if "size" in each.values]
    return sum((s.to("GB") for s in sizes if isinstance(s, Quantity)), Fraction(0))


def _of_lists(path: str, body: Resource) -> Iterator[Total]:
    """Yield the counts that stand beside lists, such as ``Members@odata.count``."""
    for key, value in body.items():
        name, mark, _ = key.partition("@odata.count")
        listed = body.get(name)
        if mark and isinstance(listed, list) and f"{name}@odata.nextLink" not in body:
            yield Total(path, Reading(key, text_of(value), whole(value)), len(listed), name)


def _of_schemas(machine: Machine, chassis: str) -> Iterator[Total]:
    """Yield how many supplies and fans the older schema has, beside the newer."""
    for newer, older, name, make in _BOTH:
        group = machine.collection(chassis, newer)
        path = machine.collection(group, name) if group else None
        new = members(machine.found, path)
        old = older_entries(machine, chassis, older, name, make)
        if new and old:
            stated = Reading(f"{older}.{name}", str(len(old)), len(old))
            yield Total(chassis, stated, len(new), f"members of {newer}.{name}")


_BOTH = (
    ("PowerSubsystem", "Power", "PowerSupplies", parts.supply),
    ("ThermalSubsystem", "Thermal", "Fans", parts.fan),
)


def groups_of(machine: Machine) -> Iterator[RedundancyGroup]:
    """Yield the redundancy that supplies and fans are said to have."""
    for chassis in machine.chassis:
        for name, field, words in _GROUPS:
            path = machine.collection(chassis, name)
            for index, group in enumerate(objects(machine.found.at(path).get(field))):
                yield _group(machine, f"{path}#/{field}/{index}", group, words)


_GROUPS = (
    ("PowerSubsystem", "PowerSupplyRedundancy", "supplies"),
    ("ThermalSubsystem", "FanRedundancy", "fans"),
    ("Power", "Redundancy", "supplies"),
    ("Thermal", "Redundancy", "fans"),
)


def _group(machine: Machine, where: str, group: Resource, words: str) -> RedundancyGroup:
    kind = word(group, "RedundancyType") or word(group, "Mode")
    state = word(group, "Status", "State")
    needed = whole(group.get("MinNeededInGroup"))
    if needed is None:
        needed = whole(group.get("MinNumNeeded"))
    listed = objects(group.get("RedundancyGroup")) or objects(group.get("RedundancySet"))
    there = sum(_is_there(machine, each) for each in listed)
    claimed = kind not in ("", "NotRedundant") and state in ("", "Enabled")
    return RedundancyGroup(where, f"{kind}, {state or 'no state'}", claimed, needed, there, words)


def _is_there(machine: Machine, link: Resource) -> bool:
    """Say whether a member of a group is there and works, as far as the record says."""
    full = inside(link, "@odata.id")
    body = machine.found.at(link_of(link))
    _, _, pointer = full.partition("#/") if isinstance(full, str) else ("", "", "")
    for step in filter(None, pointer.split("/")):
        held = inside(body, step) if not step.isdigit() else None
        body = held if isinstance(held, dict) else _nth(body, held, step)
    state = word(body, "Status", "State")
    return bool(body) and not is_absent(body) and state in ("", "Enabled", "StandbySpare")


def _nth(body: object, held: object, step: str) -> Resource:
    if isinstance(held, list):
        return {str(i): each for i, each in enumerate(held) if isinstance(each, dict)}
    found = inside(body, step)
    return found if isinstance(found, dict) else {}


def volumes_without_drives(machine: Machine) -> Iterator[tuple[str, str]]:
    """Yield volumes that are said to be redundant and lack drives, with what is wrong."""
    for storage in machine.storages():
        for path in members(machine.found, machine.collection(storage, "Volumes")):
            body = machine.found.at(path)
            drives = links_of(inside(body, "Links", "Drives"))
            level = word(body, "RAIDType")
            least = LEAST_DRIVES.get(level, 0)
            if drives and len(drives) < least:
                yield path, f"{level} takes at least {least} drives; it names {len(drives)}."


LEAST_DRIVES = {"RAID1": 2, "RAID5": 3, "RAID6": 4, "RAID10": 4, "RAID50": 6, "RAID60": 8}
"""Fewest drives of a level; common practice, no source."""

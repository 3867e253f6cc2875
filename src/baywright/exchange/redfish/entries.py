"""All entries of one machine, each part once though several resources may speak of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from baywright.exchange.redfish import parts
from baywright.exchange.redfish.bodies import Resource
from baywright.exchange.redfish.crawl import Crawl
from baywright.exchange.redfish.machine import members
from baywright.exchange.redfish.values import inside, link_of, links_of, objects, word
from baywright.facts.record import Entry

CABINETS = frozenset(
    {"Card", "Cartridge", "Component", "Drawer", "Module", "Shelf", "StorageEnclosure", "Zone"}
)
"""Types of chassis that are parts inside a machine rather than the machine."""


@dataclass(frozen=True, slots=True)
class Machine:
    """What of the resources is read.

    Args:
        found: the resources.
        system: path of the system.
        chassis: paths of its chassis.
    """

    found: Crawl
    system: str
    chassis: tuple[str, ...]

    def body(self) -> Resource:
        """Return the system."""
        return self.found.at(self.system)

    def collection(self, owner: str, *steps: str) -> str | None:
        """Return the path of a collection that was read, or ``None``."""
        path = link_of(inside(self.found.at(owner), *steps))
        return path if path in self.found.resources else None

    def storages(self) -> list[str]:
        """Return the paths of its storage subsystems."""
        return members(self.found, self.collection(self.system, "Storage"))


def entries_of(machine: Machine) -> list[Entry]:
    """Return all entries."""
    found = [
        *_members(machine, machine.system, "Processors", parts.processor),
        *_members(machine, machine.system, "Memory", parts.memory),
        *_drives(machine),
        *_controllers(machine),
        *_networks(machine),
        *supplies(machine),
        *fans(machine),
    ]
    for path in machine.chassis:
        found += _members(machine, path, "PowerSubsystem", parts.battery, "Batteries")
        body = machine.found.at(path)
        if word(body, "ChassisType") in CABINETS:
            found.append(parts.module(path, body))
    slots = list(_slots(machine))
    every = [*_in_slots([*found, *_devices(machine)], slots), *slots]
    return list({each.where: each for each in every}.values())


def _members(
    machine: Machine,
    owner: str,
    name: str,
    make: Callable[[str, Resource], Entry],
    inner: str = "",
) -> list[Entry]:
    """Return the members of a collection of a resource, or of one that a resource of it names."""
    path = machine.collection(owner, name)
    if inner:
        path = machine.collection(path, inner) if path else None
    return [make(each, machine.found.at(each)) for each in members(machine.found, path)]


def _drives(machine: Machine) -> Iterator[Entry]:
    """Yield drives: those of storage subsystems first, then those only a chassis names."""
    seen: set[str] = set()
    owners = [(path, links_of(machine.found.at(path).get("Drives"))) for path in machine.storages()]
    for path in machine.chassis:
        body = machine.found.at(path)
        listed = members(machine.found, link_of(body.get("Drives")))
        owners.append(("", [*links_of(inside(body, "Links", "Drives")), *listed]))
    for storage, paths in owners:
        for path in paths:
            if path in machine.found.resources and path not in seen:
                seen.add(path)
                body = machine.found.at(path)
                yield parts.drive(path, body, (storage,) if storage else ())
    if not seen:
        simple = machine.collection(machine.system, "SimpleStorage")
        for path in members(machine.found, simple):
            yield from parts.simple_drives(path, machine.found.at(path))


def _controllers(machine: Machine) -> Iterator[Entry]:
    """Yield storage controllers: from their collection, else those inside the subsystem."""
    for storage in machine.storages():
        listed = members(machine.found, machine.collection(storage, "Controllers"))
        for path in listed:
            yield parts.controller(path, machine.found.at(path), storage)
        body = machine.found.at(storage)
        for index, inner in enumerate(() if listed else objects(body.get("StorageControllers"))):
            yield parts.controller(f"{storage}#/StorageControllers/{index}", inner, storage)


def _networks(machine: Machine) -> Iterator[Entry]:
    for chassis in machine.chassis:
        for path in members(machine.found, machine.collection(chassis, "NetworkAdapters")):
            ports = members(machine.found, machine.collection(path, "Ports"))
            bodies = [machine.found.at(each) for each in ports]
            yield parts.network(path, machine.found.at(path), bodies)


def supplies(machine: Machine) -> list[Entry]:
    """Return supplies: from the newer schema where it has any, else from the older."""
    return _either(machine, ("PowerSubsystem", "PowerSupplies"), "Power", parts.supply)


def fans(machine: Machine) -> list[Entry]:
    """Return fans: from the newer schema where it has any, else from the older."""
    return _either(machine, ("ThermalSubsystem", "Fans"), "Thermal", parts.fan)


def _either(
    machine: Machine, newer: tuple[str, str], older: str, make: Callable[[str, Resource], Entry]
) -> list[Entry]:
    found: list[Entry] = []
    for chassis in machine.chassis:
        new = _members(machine, chassis, newer[0], make, newer[1])
        found += new or older_entries(machine, chassis, older, newer[1], make)
    return found


def older_entries(
    machine: Machine, chassis: str, older: str, name: str, make: Callable[[str, Resource], Entry]
) -> list[Entry]:
    """Return the members of the older schema of a chassis."""
    path = machine.collection(chassis, older)
    if path is None:
        return []
    listed = objects(machine.found.at(path).get(name))
    return [make(f"{path}#/{name}/{index}", inner) for index, inner in enumerate(listed)]


def _devices(machine: Machine) -> Iterator[Entry]:
    """Yield cards of no stated kind."""
    paths = links_of(machine.body().get("PCIeDevices"))
    for chassis in machine.chassis:
        paths += members(machine.found, machine.collection(chassis, "PCIeDevices"))
    for path in dict.fromkeys(paths):
        if path in machine.found.resources:
            yield parts.device(path, machine.found.at(path))


def _slots(machine: Machine) -> Iterator[Entry]:
    for chassis in machine.chassis:
        path = machine.collection(chassis, "PCIeSlots")
        for index, inner in enumerate(objects(machine.found.at(path).get("Slots"))):
            yield parts.slot(f"{path}#/Slots/{index}", inner)


def _in_slots(found: list[Entry], slots: Iterable[Entry]) -> Iterator[Entry]:
    """Give each card the labels of its slot, and leave out devices another entry stands for.

    A controller, a network adapter and an accelerator name their PCIe device; the device lies in
    a slot, or names one. All three are one card.
    """
    labelled: dict[str, tuple[str, ...]] = {}
    for each in (*slots, *(entry for entry in found if entry.kind == "device")):
        reached = each.behind if each.kind == "slot" else (each.where,)
        for path in reached:
            known = labelled.get(path, ())
            labelled[path] = tuple(dict.fromkeys((*known, *each.locators)))
    spoken_for = {path for each in found if each.kind in _CARDS for path in each.behind}
    for each in found:
        if each.kind == "device" and each.where in spoken_for:
            continue
        if each.kind in (*_CARDS, "device"):
            paths = (*each.behind, each.where)
            more = [label for path in paths for label in labelled.get(path, ())]
            yield replace(each, locators=tuple(dict.fromkeys((*more, *each.locators))))
        else:
            yield each


_CARDS = ("accelerator", "controller", "network")

"""Entries of parts from their resources; names of properties are those of the DMTF schemas."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from baywright.exchange.redfish.bodies import Resource
from baywright.exchange.redfish.values import (
    amount,
    fraction,
    inside,
    is_absent,
    labels,
    links_of,
    number_at,
    objects,
    reading,
    rest_of,
    stated,
    whole,
    word,
    word_at,
)
from baywright.facts.record import Entry, Reading
from baywright.units import Quantity

MODULE_TYPES = {
    "RDIMM": "registered",
    "Mini_RDIMM": "registered",
    "LRDIMM": "load-reduced",
    "UDIMM": "unbuffered",
    "Mini_UDIMM": "unbuffered",
    "SO_DIMM": "unbuffered",
}
"""What books call the kinds of module of the property BaseModuleType."""


def entry(
    kind: str,
    path: str,
    resource: Resource,
    readings: dict[str, Reading],
    *more_labels: object,
    behind: tuple[str, ...] = (),
) -> Entry:
    """Return an entry with what all resources have in common."""
    place = inside(resource, "Location", "PartLocation", "ServiceLabel")
    physical = inside(resource, "PhysicalLocation", "PartLocation", "ServiceLabel")
    name, own_id = inside(resource, "Name"), inside(resource, "Id") or inside(resource, "MemberId")
    socket = inside(resource, "Socket")
    used = [each.field.partition(".")[0] for each in readings.values()]
    return Entry(
        kind,
        path,
        tuple(labels(place, physical, socket, *more_labels, name, own_id, path)),
        label=next(labels(place, physical, socket), ""),
        present=not is_absent(resource),
        names=tuple(labels(*(inside(resource, key) for key in _NAMES))),
        values={} if is_absent(resource) else stated(readings),
        rest=rest_of(resource, used),
        behind=behind,
    )


_NAMES = ("Model", "PartNumber", "SKU", "SparePartNumber", "Name", "Description")


def processor(path: str, resource: Resource) -> Entry:
    """Return a processor (Processor schema); a GPU or another accelerator is one of its types."""
    cpu = word(resource, "ProcessorType") in ("", "CPU", "Core")
    watts = "TDPWatts" if inside(resource, "TDPWatts") is not None else "MaxTDPWatts"
    readings = {
        "cores": number_at(resource, "TotalCores"),
        "tdp": amount(resource, "W", watts),
        "generation": generation(resource, "SystemInterface", "PCIe", "MaxPCIeType"),
    }
    if not cpu:
        readings = {"power": readings["tdp"], "generation": readings["generation"]}
    kind = "processor" if cpu else "accelerator"
    device = tuple(links_of(inside(resource, "Links", "PCIeDevice")))
    return entry(kind, path, resource, readings, behind=device)


def memory(path: str, resource: Resource) -> Entry:
    """Return a module of memory (Memory schema)."""
    total, data = (whole(inside(resource, key)) for key in ("BusWidthBits", "DataWidthBits"))
    check = total - data if total is not None and data is not None and total >= data else None
    speeds = inside(resource, "AllowedSpeedsMHz")
    known = [fraction(each) for each in speeds] if isinstance(speeds, list) else []
    fastest = max((each for each in known if each is not None), default=None)
    kind = word(resource, "BaseModuleType")
    at = inside(resource, "MemoryLocation")
    spot = [f"{key} {at[key]}" for key in _SPOT if isinstance(at, dict) and key in at]
    readings = {
        "size": amount(resource, "GB", "CapacityMiB", dimension="memory", times=Fraction(1, 1024)),
        "generation": reading(resource, "MemoryDeviceType", value=_ddr(resource)),
        "type": reading(resource, "BaseModuleType", value=MODULE_TYPES.get(kind)),
        "ranks": number_at(resource, "RankCount"),
        "check_bits": reading(resource, "BusWidthBits", value=check),
        "speed": reading(resource, "AllowedSpeedsMHz", value=_transfers(fastest)),
        "speed_now": amount(resource, "MT/s", "OperatingSpeedMhz"),
    }
    locator = inside(resource, "DeviceLocator")
    return entry("memory", path, resource, readings, locator, " ".join(spot))


_SPOT = ("Socket", "MemoryController", "Channel", "Slot")


def _ddr(resource: Resource) -> str | None:
    """Return the generation of a module: ``DDR4_SDRAM`` is DDR4 as well."""
    return word(resource, "MemoryDeviceType").partition("_")[0] or None


def _transfers(number: Fraction | None) -> Quantity | None:
    return Quantity(number, "MT/s") if number else None


def drive(path: str, resource: Resource, behind: tuple[str, ...]) -> Entry:
    """Return a drive (Drive schema)."""
    readings = {
        "capacity": amount(resource, "B", "CapacityBytes", dimension="capacity"),
        "interface": word_at(resource, "Protocol"),
        "link_now": amount(resource, "Gb/s", "NegotiatedSpeedGbs"),
        "link_most": amount(resource, "Gb/s", "CapableSpeedGbs"),
    }
    slot = inside(resource, "PhysicalLocation", "PartLocation", "LocationOrdinalValue")
    info = inside(resource, "PhysicalLocation", "Info")
    return entry("drive", path, resource, readings, info, _bay(slot), behind=behind)


def _bay(number: object) -> str | None:
    return None if whole(number) is None else f"Bay {number}"


def simple_drives(path: str, resource: Resource) -> Iterator[Entry]:
    """Yield the drives of a simple storage controller (SimpleStorage schema)."""
    for index, device in enumerate(objects(inside(resource, "Devices"))):
        readings = {"capacity": amount(device, "B", "CapacityBytes", dimension="capacity")}
        yield entry("drive", f"{path}#/Devices/{index}", device, readings, behind=(path,))


def supply(path: str, resource: Resource) -> Entry:
    """Return a supply (PowerSupply schema, or a member of the older Power schema)."""
    readings = {"rating": amount(resource, "W", "PowerCapacityWatts")}
    return entry("supply", path, resource, readings)


def fan(path: str, resource: Resource) -> Entry:
    """Return a fan (Fan schema, or a member of the older Thermal schema)."""
    return entry("fan", path, resource, {}, inside(resource, "FanName"))


def battery(path: str, resource: Resource) -> Entry:
    """Return an energy pack (Battery schema)."""
    return entry("pack", path, resource, {})


def controller(path: str, resource: Resource, storage: str) -> Entry:
    """Return a storage controller (StorageController schema, or one inside Storage)."""
    protocols = inside(resource, "SupportedDeviceProtocols")
    words = frozenset(labels(*protocols)) if isinstance(protocols, list) else frozenset()
    readings = {
        "holds": reading(resource, "SupportedDeviceProtocols", value=words or None),
        **pcie(resource),
    }
    device = links_of(inside(resource, "Links", "PCIeDevice"))
    return entry("controller", path, resource, readings, behind=(storage, *device))


def network(path: str, resource: Resource, ports: list[Resource]) -> Entry:
    """Return a network adapter (NetworkAdapter schema).

    Args:
        path: its path.
        resource: the adapter.
        ports: its ports (Port schema).
    """
    parts = objects(inside(resource, "Controllers"))
    first = parts[0] if parts else {}
    count = whole(inside(first, "ControllerCapabilities", "NetworkPortCount"))
    readings = pcie(first)
    if ports:
        key = "MaxSpeedGbps" if "MaxSpeedGbps" in ports[0] else "CurrentSpeedGbps"
        readings["speed"] = amount(ports[0], "Gb/s", key)
        readings["ports"] = Reading("Ports", str(len(ports)), len(ports))
    elif count is not None:
        readings["ports"] = Reading("NetworkPortCount", str(count), count)
    labelled = [inside(each, "Location", "PartLocation", "ServiceLabel") for each in parts]
    device = [path for each in parts for path in links_of(inside(each, "Links", "PCIeDevices"))]
    return entry("network", path, resource, readings, *labelled, behind=tuple(device))


def device(path: str, resource: Resource) -> Entry:
    """Return a card of no stated kind (PCIeDevice schema)."""
    slot = inside(resource, "Slot", "Location", "PartLocation")
    label = inside(slot, "ServiceLabel")
    number = whole(inside(slot, "LocationOrdinalValue"))
    ordinal = None if number is None else f"Slot {number}"
    return entry("device", path, resource, pcie(resource), label, ordinal)


def slot(path: str, resource: Resource) -> Entry:
    """Return a slot (one of the PCIeSlots schema)."""
    readings = {
        "lanes": number_at(resource, "Lanes"),
        "generation": generation(resource, "PCIeType"),
    }
    number = whole(inside(resource, "Location", "PartLocation", "LocationOrdinalValue"))
    ordinal = None if number is None else f"Slot {number}"
    behind = links_of(inside(resource, "Links", "PCIeDevice"))
    return entry("slot", path, resource, readings, ordinal, behind=tuple(behind))


def module(path: str, resource: Resource) -> Entry:
    """Return an enclosure inside the machine (Chassis schema), such as a cage."""
    drives = tuple(links_of(inside(resource, "Links", "Drives")))
    return entry("module", path, resource, {}, behind=drives)


def pcie(resource: Resource) -> dict[str, Reading]:
    """Return the readings of a PCIe interface."""
    return {
        "lanes": number_at(resource, "PCIeInterface", "MaxLanes"),
        "lanes_now": number_at(resource, "PCIeInterface", "LanesInUse"),
        "generation": generation(resource, "PCIeInterface", "MaxPCIeType"),
        "generation_now": generation(resource, "PCIeInterface", "PCIeType"),
    }


def generation(resource: Resource, *steps: str) -> Reading:
    """Return the reading of a PCIe generation: ``Gen4`` is PCIe 4.0."""
    text = word(resource, *steps)
    known = text[3:] if text.startswith("Gen") and text[3:].isdigit() else ""
    return reading(resource, *steps, value=f"PCIe {known}.0" if known else None)

"""A build as a machine of the demo would report it: Redfish resources made from book and build."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from baywright.facts.book import Book
from baywright.facts.build import Build, Fitted, Item
from baywright.facts.fact import Fact
from baywright.facts.parts import Boot, Cage, Controller, Drive, Network, Processor, Supply
from baywright.units import Quantity

ROOT = "/redfish/v1"
SYSTEM = f"{ROOT}/Systems/1"
CHASSIS = f"{ROOT}/Chassis/1"

Tree = dict[str, dict[str, Any]]


def mockup(book: Book, build: Build) -> Tree:
    """Return all resources by path."""
    made = _Mockup(book, build)
    made.fill()
    return made.finished()


def write(tree: Tree, folder: Path) -> Path:
    """Write resources as a folder of mockup resources; return the folder."""
    for path, body in tree.items():
        target = folder / path.strip("/") / "index.json"
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(json.dumps(body), encoding="utf-8")
    return folder


class _Mockup:
    def __init__(self, book: Book, build: Build) -> None:
        self.book, self.build = book, build
        self.members: dict[str, list[str]] = {}
        self.tree: Tree = {}
        self.slots: list[dict[str, Any]] = []
        self.inside: list[str] = []
        self.driven: dict[str, list[str]] = {}

    def fill(self) -> None:
        for name, place in self.book.places.items():
            fitted = self.build.places.get(name, Fitted(()))
            getattr(self, f"_{place.type}")(name, fitted)

    def label(self, place: str, number: int = 1, *, inner: bool = False) -> str:
        named = self.book.record.places.get(place)
        patterns = named.locators if named else [place, f"{place} *"]
        pattern = next((p for p in patterns if ("*" in p) is inner), patterns[0])
        return str(pattern.replace("*", str(number)))

    def _interface(self, name: str) -> str:
        return str(self.book.record.interfaces.get(name, [name])[0])

    def add(self, collection: str, name: str, label: str, **fields: Any) -> str:
        path = f"{collection}/{name}"
        state = fields.pop("state", "Enabled")
        self.tree[path] = {
            "@odata.id": path,
            "Id": name,
            "Name": name,
            "Status": {"State": state, **({"Health": "OK"} if state == "Enabled" else {})},
            "Location": {"PartLocation": {"ServiceLabel": label}},
            **fields,
        }
        self.members.setdefault(collection, []).append(path)
        return path

    def _socket(self, name: str, fitted: Fitted) -> None:
        at = f"{SYSTEM}/Processors"
        if not fitted.items:
            self.add(at, name, self.label(name), state="Absent")
        for item in fitted.items:
            part = self.book.parts[item.part]
            assert isinstance(part, Processor)
            watts = number(part.tdp, "W")
            self.add(at, name, self.label(name), TotalCores=part.cores.known, TDPWatts=watts)

    def _bank(self, name: str, fitted: Fitted) -> None:
        self.members.setdefault(f"{SYSTEM}/Memory", [])
        for index, part in enumerate(each_of(fitted), 1):
            module: Any = self.book.parts[part]
            self.add(
                f"{SYSTEM}/Memory",
                f"{name}-{index}",
                self.label(name, index, inner=True),
                CapacityMiB=number(module.size, "MB"),
                MemoryDeviceType=str(module.generation),
                BaseModuleType="RDIMM",
                RankCount=module.ranks.known if module.ranks else None,
            )

    def _zone(self, name: str, fitted: Fitted) -> None:
        drives: list[str] = []
        for item in fitted.items:
            part = self.book.parts[item.part]
            if isinstance(part, Drive):
                drives += self._drives(name, item, f"{CHASSIS}/Drives")
            else:
                kind = "StorageEnclosure" if isinstance(part, Cage) else "Module"
                self._module(name, item.part, kind)
        self.driven.setdefault(fitted.controller or "", []).extend(drives)

    def _module(self, place: str, part: str, kind: str) -> None:
        path = f"{ROOT}/Chassis/{place}"
        label = {"PartLocation": {"ServiceLabel": self.label(place)}}
        up = {"ContainedBy": {"@odata.id": CHASSIS}}
        body = {"Id": place, "ChassisType": kind, "Model": part, "Location": label, "Links": up}
        self.tree[path] = {"@odata.id": path, **body}
        self.inside.append(path)

    def _drives(self, place: str, item: Item, collection: str) -> list[str]:
        part: Any = self.book.parts[item.part]
        word = self._interface(part.interface)
        return [
            self.add(
                collection,
                f"{place}-{index}",
                self.label(place, index, inner=True),
                CapacityBytes=number(part.capacity, "B"),
                Protocol=word,
                CapableSpeedGbs=12,
                NegotiatedSpeedGbs=12,
            )
            for index in range(1, item.count + 1)
        ]

    def _slot(self, name: str, fitted: Fitted) -> None:
        parts = list(each_of(fitted)) or [""]
        for index, part in enumerate(parts, 1):
            label = self.label(name, index, inner="*" in self.label(name))
            device = self._card(name, index, part) if part else None
            state = "Enabled" if part else "Absent"
            links = {"PCIeDevice": [{"@odata.id": device}]} if device else {}
            where = {"PartLocation": {"ServiceLabel": label}}
            slot = {"Status": {"State": state}, "Location": where, "Links": links}
            self.slots.append(slot)

    def _card(self, place: str, index: int, name: str) -> str:
        part: Any = self.book.parts[name]
        lanes = part.lanes.known if part.lanes else 4
        kind = f"Gen{part.generation[5]}" if part.generation else "Gen5"
        link = {"MaxLanes": lanes, "LanesInUse": lanes, "MaxPCIeType": kind, "PCIeType": kind}
        path = f"{CHASSIS}/PCIeDevices/{place}-{index}"
        label = f"device {place}-{index}"
        self.add(
            f"{CHASSIS}/PCIeDevices", f"{place}-{index}", label, Model=name, PCIeInterface=link
        )
        device = {"@odata.id": path}
        if isinstance(part, Network):
            self._adapter(f"{place}-{index}", part, name, device)
        elif isinstance(part, Controller):
            words = [self._interface(each) for each in part.holds]
            inner = {
                "Name": name,
                "Model": name,
                "SupportedDeviceProtocols": words,
                "PCIeInterface": link,
                "Links": {"PCIeDevice": device},
            }
            self.add(f"{SYSTEM}/Storage", place, f"storage {place}", StorageControllers=[inner])
        return path

    def _adapter(self, name: str, part: Network, model: str, device: dict[str, str]) -> None:
        at = f"{CHASSIS}/NetworkAdapters"
        ports = f"{at}/{name}/Ports"
        parts = [{"Links": {"PCIeDevices": [device]}}]
        self.add(at, name, f"adapter {name}", Model=model, Controllers=parts, Ports=link_to(ports))
        count = sum(port.count.known for port in part.ports if port.type == "network")
        self.members.setdefault(ports, [])
        for index in range(1, count + 1):
            self.add(
                ports,
                str(index),
                f"{name} port {index}",
                MaxSpeedGbps=number(part.speed, "Gb/s") if part.speed else None,
            )

    def _supplies(self, name: str, fitted: Fitted) -> None:
        for index, each in enumerate(each_of(fitted), 1):
            part = self.book.parts[each]
            assert isinstance(part, Supply)
            watts = max(number(rating, "W") for rating in part.ratings.values())
            at = f"{CHASSIS}/PowerSubsystem/PowerSupplies"
            self.add(
                at,
                str(index),
                self.label(name, index, inner=True),
                PowerCapacityWatts=watts,
                Model=each,
            )

    def _fans(self, name: str, fitted: Fitted) -> None:
        for index, _ in enumerate(each_of(fitted), 1):
            at = f"{CHASSIS}/ThermalSubsystem/Fans"
            self.add(at, str(index), self.label(name, index, inner=True))

    def _mount(self, name: str, fitted: Fitted) -> None:
        at = f"{CHASSIS}/PowerSubsystem/Batteries"
        self.members.setdefault(at, [])
        for part in each_of(fitted):
            self.add(at, name, self.label(name), Model=part)

    def _position(self, name: str, fitted: Fitted) -> None:
        for item in fitted.items:
            part = self.book.parts[item.part]
            if isinstance(part, Boot) and part.capacity and part.media and part.media.known > 1:
                for index in range(1, part.media.known + 1):
                    size = number(part.capacity, "B")
                    label = self.label(name, index, inner=True)
                    paths = [
                        self.add(f"{CHASSIS}/Drives", f"{name}-{index}", label, CapacityBytes=size)
                    ]
                    self.driven.setdefault("", []).extend(paths)
            else:
                self._module(name, item.part, "Module")

    def finished(self) -> Tree:
        for place, drives in self.driven.items():
            path = f"{SYSTEM}/Storage/{place}" if place else f"{SYSTEM}/Storage/board"
            if path not in self.tree and drives:
                self.add(f"{SYSTEM}/Storage", "board", "on the board")
            if drives:
                self.tree[path]["Drives"] = [{"@odata.id": each} for each in drives]
        for collection in ("Storage", "Processors"):
            self.members.setdefault(f"{SYSTEM}/{collection}", [])
        for name in ("PCIeDevices", "ThermalSubsystem/Fans", "PowerSubsystem/PowerSupplies"):
            self.members.setdefault(f"{CHASSIS}/{name}", [])
        self._frame()
        for collection, paths in self.members.items():
            listed = [{"@odata.id": path} for path in paths]
            body = {"@odata.id": collection, "Members": listed, "Members@odata.count": len(paths)}
            self.tree[collection] = body
        return self.tree

    def _frame(self) -> None:
        self.members[f"{ROOT}/Systems"] = [SYSTEM]
        self.members[f"{ROOT}/Chassis"] = [CHASSIS, *self.inside]
        self.tree[ROOT] = {
            "@odata.id": f"{ROOT}/",
            "RedfishVersion": "1.20.0",
            "Systems": link_to(f"{ROOT}/Systems"),
            "Chassis": link_to(f"{ROOT}/Chassis"),
            "Links": {"Sessions": link_to(f"{ROOT}/SessionService/Sessions")},
        }
        self._system()
        self._chassis()
        slots = f"{CHASSIS}/PCIeSlots"
        self.tree[slots] = {"@odata.id": slots, "Slots": self.slots}
        self._power()
        air = f"{CHASSIS}/ThermalSubsystem"
        self.tree[air] = {"@odata.id": air, "Fans": link_to(f"{air}/Fans")}

    def _system(self) -> None:
        sizes = [body.get("CapacityMiB", 0) for body in self.tree.values()]
        processors = self.members[f"{SYSTEM}/Processors"]
        there = [p for p in processors if self.tree[p]["Status"]["State"] == "Enabled"]
        self.tree[SYSTEM] = {
            "@odata.id": SYSTEM,
            "Manufacturer": self.book.book.maker,
            "Model": self.book.book.name,
            "ProcessorSummary": {"Count": len(there)},
            "MemorySummary": {"TotalSystemMemoryGiB": sum(sizes) // 1024},
            "Links": {"Chassis": [link_to(CHASSIS)]},
            **{name: link_to(f"{SYSTEM}/{name}") for name in ("Processors", "Memory", "Storage")},
        }

    def _chassis(self) -> None:
        always = ("PCIeDevices", "PCIeSlots", "PowerSubsystem", "ThermalSubsystem")
        inside = {"Contains": [link_to(path) for path in self.inside]} if self.inside else {}
        self.tree[CHASSIS] = {
            "@odata.id": CHASSIS,
            "ChassisType": "RackMount",
            "Links": {"ComputerSystems": [link_to(SYSTEM)], **inside},
            **{name: link_to(f"{CHASSIS}/{name}") for name in always},
            **self._links(CHASSIS, "Drives", "NetworkAdapters"),
        }

    def _power(self) -> None:
        path = f"{CHASSIS}/PowerSubsystem"
        self.tree[path] = {"@odata.id": path, **self._links(path, "PowerSupplies", "Batteries")}
        supplies = self.members.get(f"{path}/PowerSupplies", [])
        if supplies:
            self.tree[path]["PowerSupplyRedundancy"] = [
                {
                    "RedundancyType": "NPlusM",
                    "MinNeededInGroup": 1,
                    "RedundancyGroup": [link_to(each) for each in supplies],
                    "Status": {"State": "Enabled"},
                }
            ]

    def _links(self, owner: str, *names: str) -> dict[str, dict[str, str]]:
        """Links to those collections of a resource that this machine has."""
        return {n: link_to(f"{owner}/{n}") for n in names if f"{owner}/{n}" in self.members}


def link_to(path: str) -> dict[str, str]:
    return {"@odata.id": path}


def each_of(fitted: Fitted) -> Iterator[str]:
    return (item.part for item in fitted.items for _ in range(item.count))


def number(fact: Fact[Quantity], unit: str) -> int:
    return int(fact.known.to(unit))

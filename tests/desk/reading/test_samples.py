"""Resources that others wrote: a public mockup of DMTF and the samples of PyPI sushy.

Both are read where they lie; nothing of them is in this project. The book of the machine they are
put on, ``w8``, is made up.
"""

from __future__ import annotations

import json
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import pytest

from baywright.answers.verdicts import Yes
from baywright.desk.reading.fitting import fit
from baywright.desk.reading.reading import MachineRead, read_machine
from baywright.exchange.machines import Wanted, read_record
from baywright.files.disk import is_folder
from tests.desk.reading.machines import drafted, opened
from tests.desk.reading.mockups import Tree, write

TOWER = Path(__file__).parents[4] / "shared" / "data" / "redfish" / "public-tower"
SYSTEM = "/redfish/v1/Systems/437XR1238R2"
CHASSIS = "/redfish/v1/Chassis/Tower"


@pytest.fixture(scope="module")
def tower() -> MachineRead:
    if not is_folder(TOWER):
        pytest.skip("the public mockup of DMTF DSP2043 is not beside this repository")
    return read_machine(opened("w8"), Wanted(str(TOWER)))


def test_the_public_mockup_on_a_book(tower: MachineRead) -> None:
    content = drafted(tower)
    assert [content[f"P{n}"] for n in range(1, 9)] == [([("cpu-16", 1)], None)] * 8
    # One of two sockets of each processor is filled: DIMM1 to DIMM8, 128 GiB each.
    assert [content[f"M{n}"] for n in range(1, 9)] == [([("dimm-128", 1)], None)] * 8
    assert content["D1"] == ([("S8", 1), ("sas-20p", 4)], "RAID")
    assert content["D2"] == ([("N8", 1), ("fast-1p", 4)], None)
    assert content["BOOT"] == ([("boot-pair", 1)], None)
    assert content["PS"] == ([("ps-1100", 2)], None)
    assert content["F"] == ([("fan", 4)], None)
    assert content["S5"] == content["S6"] == ([], None)
    assert tower.judgement is not None
    assert isinstance(tower.judgement.verdict, Yes)


def test_cards_of_the_public_mockup_that_the_book_does_not_have(tower: MachineRead) -> None:
    assert [each.place for each in tower.on_book.left_open] == ["S3", "S4"]
    where = {each.entry.where for each in tower.on_book.not_fitted}
    assert {f"{CHASSIS}/PCIeDevices/Slot3", f"{CHASSIS}/PCIeDevices/Slot4"} <= where
    assert f"{CHASSIS}/PCIeDevices/EmbeddedNVMeBridge" in where


@pytest.mark.parametrize(
    ("kind", "where", "text"),
    [
        # Seen in the files: each drive has the path of the other.
        ("inconsistent", f"{CHASSIS}/Drives/Disk-2-0", "names itself"),
        # Thermal lists two fans, ThermalSubsystem four.
        ("inconsistent", CHASSIS, "Thermal.Fans is 2"),
        # Eight modules claim socket 1, controller 1, channel 1, slot 1.
        ("inconsistent", f"{SYSTEM}/Memory/DIMM1", "MemoryLocation"),
        ("inconsistent", f"{CHASSIS}/PCIeDevices/Slot1", "SerialNumber 2M220100SL"),
        ("fragile", f"{CHASSIS}/NetworkAdapters/NIC1", "2 of 4 lanes"),
        ("fragile", f"{CHASSIS}/PCIeDevices/Slot3", "below its maximum of PCIe 3.0"),
        ("fragile", f"{CHASSIS}/ThermalSubsystem#/FanRedundancy/1", "not in force"),
        ("fragile", f"{CHASSIS}/PowerSubsystem/PowerSupplies/Bay1", "health as Warning"),
    ],
)
def test_what_is_doubtful_in_the_public_mockup(
    tower: MachineRead, kind: str, where: str, text: str
) -> None:
    found = [each.says for each in tower.findings if (each.kind, each.where) == (kind, where)]
    assert any(text in each for each in found), found


def test_totals_of_the_public_mockup_agree(tower: MachineRead) -> None:
    # 8 processors of 16 cores, 8 modules of 128 GiB: the summaries say 8, 128 and 1024.
    fields = {each.stated.field: each for each in tower.record.totals}
    for field in ("ProcessorSummary.Count", "ProcessorSummary.CoreCount"):
        assert fields[field].stated.value == fields[field].listed
    memory = fields["MemorySummary.TotalSystemMemoryGiB"]
    assert memory.stated.value == memory.listed


# --- sushy ---


SAMPLES = (
    "root",
    "system_collection",
    "system",
    "processor_collection",
    "processor",
    "processor2",
    "storage_collection",
    "storage",
    "drive",
    "drive2",
    "drive3",
    "storage_controller_collection",
    "storage_controller",
)


def samples() -> dict[str, Any]:
    spec = find_spec("sushy")
    if spec is None or not spec.submodule_search_locations:
        pytest.skip("sushy, a development dependency, is not installed")
    folder = Path(spec.submodule_search_locations[0]) / "tests" / "unit" / "json_samples"
    return {
        path.stem: json.loads(path.read_text(encoding="utf-8"))
        for path in sorted(folder.glob("*.json"))
    }


@pytest.fixture(scope="module")
def sushy(tmp_path_factory: pytest.TempPathFactory) -> MachineRead:
    every = samples()
    tree: Tree = {}
    for name in SAMPLES:
        body = every[name]
        tree[body["@odata.id"].rstrip("/")] = body
    folder = write(tree, tmp_path_factory.mktemp("sushy"))
    return read_machine(opened("w8"), Wanted(str(folder), incomplete=True))


def test_the_samples_of_sushy_on_a_book(sushy: MachineRead) -> None:
    content = drafted(sushy)
    assert content["P1"] == ([("cpu-8", 1)], None)
    assert content["P2"] == ([], None)  # processor2.json is absent
    # drive.json, drive2.json and drive3.json: 899,527,000,000 bytes, within 1 % of 900 GB.
    assert content["D1"][0] == [("S8", 1), ("sas-900", 3)]
    places = {each.place for each in sushy.on_book.left_open}
    assert {"M1", "PS", "F"} <= places  # no sample speaks of them


def test_what_is_doubtful_in_the_samples_of_sushy(sushy: MachineRead) -> None:
    drives = "/redfish/v1/Systems/437XR1138R2/Storage/1/Drives"
    found = {(each.kind, each.where): each.says for each in sushy.findings}
    # The summary says two processors, and one is there.
    assert "Count is 2" in found["inconsistent", "/redfish/v1/Systems/437XR1138R2"]
    # storage.json names four drives; three have a sample.
    assert "could not be read" in found["unknown", f"{drives}/3F5A8C54207B7233"]
    # drive.json and drive3.json have one DurableName.
    text = found["inconsistent", f"{drives}/32ADF365C6C1B7BD"]
    assert text == f"DurableName 32ADF365C6C1B7BD is also that of {drives}/3D58ECBC375FD9F2."


def test_every_sample_of_sushy_can_be_read_as_any_resource(tmp_path: Path) -> None:
    for number, body in enumerate(samples().values()):
        links = [{"@odata.id": "/redfish/v1/Systems/1/All/1"}]
        system = "/redfish/v1/Systems/1"
        names = ("Processors", "Memory", "Storage", "PCIeDevices", "SimpleStorage")
        tree: Tree = {
            "/redfish/v1": {"Systems": {"@odata.id": "/redfish/v1/Systems"}},
            "/redfish/v1/Systems": {"Members": [{"@odata.id": system}]},
            system: {name: {"@odata.id": f"{system}/All"} for name in names},
            f"{system}/All": {"Members": links},
            f"{system}/All/1": body if isinstance(body, dict) else {"list": body},
        }
        folder = write(tree, tmp_path / str(number))
        record = read_record(Wanted(str(folder), incomplete=True))
        places = fit(opened("w8").book, record)
        assert len(places.lines) + len(places.left_open) == len(opened("w8").book.places)

"""What a record leaves open or gets wrong: told with its resource, never guessed, never dropped."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from baywright.answers.verdicts import No
from baywright.desk.reading.reading import MachineRead
from baywright.problems import Problems
from tests.desk.reading.machines import bundled, drafted, full, read, tree_of
from tests.desk.reading.mockups import CHASSIS, SYSTEM, Tree

MEMORY = f"{SYSTEM}/Memory"
POWER = f"{CHASSIS}/PowerSubsystem"


def changed(change: Callable[[Tree], Any], folder: Path) -> MachineRead:
    """Read the machine of N4 after a change of its resources."""
    tree = tree_of("f2", bundled("f2", "n4"))
    change(tree)
    return read("f2", tree, folder)


def says(found: MachineRead, kind: str) -> list[tuple[str, str]]:
    return [(each.where, each.says) for each in found.findings if each.kind == kind]


def left_open(found: MachineRead) -> dict[str, str]:
    return {each.place: each.why for each in found.on_book.left_open}


# --- findings ---


def test_a_total_that_differs_from_its_parts(tmp_path: Path) -> None:
    summary = {"TotalSystemMemoryGiB": 960}
    found = changed(lambda tree: tree[SYSTEM].update(MemorySummary=summary), tmp_path)
    text = "MemorySummary.TotalSystemMemoryGiB is 960 GB; memory of all modules: 1024 GB."
    assert says(found, "inconsistent") == [(SYSTEM, text)]


def test_a_count_that_differs_from_its_list(tmp_path: Path) -> None:
    found = changed(lambda tree: tree[MEMORY].update({"Members@odata.count": 17}), tmp_path)
    assert says(found, "inconsistent") == [(MEMORY, "Members@odata.count is 17; Members: 16.")]


@pytest.mark.parametrize(
    ("fields", "text"),
    [
        ({"LanesInUse": 4}, "Its link has 4 of 8 lanes."),
        ({"PCIeType": "Gen3"}, "Its link runs at PCIe 3.0, below its maximum of PCIe 4.0."),
    ],
)
def test_links_below_their_maximum(fields: dict[str, Any], text: str, tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        inner = tree[f"{SYSTEM}/Storage/R1b"]["StorageControllers"][0]
        inner["PCIeInterface"] = inner["PCIeInterface"] | fields

    found = changed(change, tmp_path)
    assert says(found, "fragile") == [(f"{SYSTEM}/Storage/R1b#/StorageControllers/0", text)]


def test_a_drive_link_below_its_maximum(tmp_path: Path) -> None:
    drive = f"{CHASSIS}/Drives/A-3"
    found = changed(lambda tree: tree[drive].update(NegotiatedSpeedGbs=6), tmp_path)
    text = "Its link runs at 6 Gb/s, below its maximum of 12 Gb/s."
    assert says(found, "fragile") == [(drive, text)]


def test_redundancy_claimed_and_absent(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        tree[f"{POWER}/PowerSupplies/2"]["Status"] = {"State": "Absent"}

    found = changed(change, tmp_path)
    ((where, text),) = says(found, "fragile")
    assert where == f"{POWER}#/PowerSupplyRedundancy/0"
    assert "claimed" in text
    assert "1 of the supplies are there and work, and 1 needed" in text


def test_two_modules_in_one_place(tmp_path: Path) -> None:
    label = {"PartLocation": {"ServiceLabel": "PROC 1 DIMM 1"}}
    found = changed(lambda tree: tree[f"{MEMORY}/M1-2"].update(Location=label), tmp_path)
    ((where, text),) = says(found, "inconsistent")
    assert where == f"{MEMORY}/M1-1"
    assert f"{MEMORY}/M1-2" in text
    assert "PROC 1 DIMM 1" in text


def test_two_cards_in_one_slot_leave_it_open(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        for slot in tree[f"{CHASSIS}/PCIeSlots"]["Slots"]:
            if slot["Location"]["PartLocation"]["ServiceLabel"] == "Riser 3 Slot B":
                slot["Location"]["PartLocation"]["ServiceLabel"] = "Riser 1 Slot B"

    found = changed(change, tmp_path)
    assert "R1b" in left_open(found)
    assert any("R1b of the book holds one part" in text for _, text in says(found, "inconsistent"))
    assert "R1b" not in drafted(found)


def test_health_and_failures_foretold(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        tree[f"{CHASSIS}/Drives/B-1"]["Status"]["Health"] = "Critical"
        tree[f"{CHASSIS}/Drives/B-1"]["FailurePredicted"] = True

    texts = [text for _, text in says(changed(change, tmp_path), "fragile")]
    assert texts == ["It reports its health as Critical.", "It predicts its own failure."]


@pytest.mark.parametrize("value", [None, "Unknown", -1, True, "many", 10**400, [], {"a": 1}])
def test_unknown_values_are_kept_as_text(value: object, tmp_path: Path) -> None:
    found = changed(lambda tree: tree[f"{MEMORY}/M1-1"].update(RankCount=value), tmp_path)
    (entry,) = (each for each in found.record.entries if each.where == f"{MEMORY}/M1-1")
    reading = entry.values.get("ranks")
    assert reading is None or reading.value is None
    if value is not None:
        assert reading is not None
        assert reading.text
        assert says(found, "unknown") == [(entry.where, f"Not known: RankCount is {reading.text}.")]
    assert drafted(found)["M1"] == ([("dimm-64", 8)], None)


def test_fields_that_nothing_is_made_of_are_kept(tmp_path: Path) -> None:
    oddity = {"Shade": "\x1b[31mred\u202e", "Depth": None}
    found = changed(lambda tree: tree[f"{MEMORY}/M1-1"].update(Oddity=oddity), tmp_path)
    (entry,) = (each for each in found.record.entries if each.where == f"{MEMORY}/M1-1")
    assert "Shade" in entry.rest["Oddity"]
    assert entry.rest["Oddity"].isprintable()


# --- what is left open ---


def test_a_part_that_the_book_does_not_have(tmp_path: Path) -> None:
    found = changed(lambda tree: tree[f"{SYSTEM}/Processors/P1"].update(TotalCores=28), tmp_path)
    assert "nothing that fits there has 28 cores" in left_open(found)["P1"]
    assert [each.entry.where for each in found.on_book.not_fitted] == [f"{SYSTEM}/Processors/P1"]


def test_a_part_that_could_be_several(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        for name in ("A-1", "A-2"):
            del tree[f"{CHASSIS}/Drives/{name}"]["CapacityBytes"]

    found = changed(change, tmp_path)
    assert "sas-1200 or sas-2400" in left_open(found)["A"]
    could_be = [each.could_be for each in found.on_book.not_fitted]
    # Two drives, six more that are left open with them, and their cage.
    both, one, cage = ("sas-1200", "sas-2400"), ("sas-2400",), ("S8",)
    assert sorted(could_be) == sorted([both] * 2 + [one] * 6 + [cage])


def test_a_part_of_no_known_place_keeps_places_from_being_empty(tmp_path: Path) -> None:
    label = {"PartLocation": {"ServiceLabel": "somewhere"}}
    found = changed(lambda tree: tree[f"{CHASSIS}/Drives/C-8"].update(Location=label), tmp_path)
    assert "could be in it" in left_open(found)["BOOT"]
    assert drafted(found)["C"] == ([("S8", 1), ("sas-2400", 7)], "R3b")
    assert (
        "not counted, as their place is not known: /redfish/v1/Chassis/1/Drives/C-8" in found.draft
    )
    assert [each.entry.where for each in found.on_book.not_fitted] == [f"{CHASSIS}/Drives/C-8"]


def test_a_cage_is_found_by_its_drives(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        for place in ("A", "B", "C"):
            path = f"/redfish/v1/Chassis/{place}"
            tree.pop(path)
            tree["/redfish/v1/Chassis"]["Members"].remove({"@odata.id": path})
        del tree["/redfish/v1/Chassis"]["Members@odata.count"]
        del tree[CHASSIS]["Links"]["Contains"]

    found = changed(change, tmp_path)
    assert drafted(found)["A"] == ([("S8", 1), ("sas-2400", 8)], "R1b")
    # Nothing lists enclosures now, so an empty place could hold one.
    assert left_open(found).keys() == {"BOOT"}


def test_a_cage_without_a_word_of_its_drives_is_left_open(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        del tree[SYSTEM]["Storage"]
        del tree[CHASSIS]["Drives"]

    found = changed(change, tmp_path)
    assert left_open(found)["A"] == "it has S8, and the record does not speak of its drives"
    assert "A" not in drafted(found)


def test_a_slot_in_use_by_nothing_known(tmp_path: Path) -> None:
    tree = tree_of("f2", full())
    for slot in tree[f"{CHASSIS}/PCIeSlots"]["Slots"]:
        if slot["Location"]["PartLocation"]["ServiceLabel"] == "Riser 1 Slot B":
            slot["Status"]["State"] = "Enabled"
    found = read("f2", tree, tmp_path)
    assert left_open(found) == {"R1b": "it is in use, and the record does not say by what"}


def test_a_machine_the_book_does_not_allow_is_a_no(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        for name in ("5", "6"):
            tree[f"{CHASSIS}/ThermalSubsystem/Fans/{name}"]["Status"] = {"State": "Absent"}

    found = changed(change, tmp_path)
    assert drafted(found)["F"] == ([("fan", 4)], None)
    assert found.judgement is not None
    assert isinstance(found.judgement.verdict, No)
    assert found.judgement.verdict.nearest


def test_a_number_of_modules_the_book_does_not_allow_is_a_no(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        tree[f"{MEMORY}/M1-8"]["Status"] = {"State": "Absent"}

    found = changed(change, tmp_path)
    assert drafted(found)["M1"] == ([("dimm-64", 7)], None)
    assert found.judgement is not None
    assert isinstance(found.judgement.verdict, No)


def test_a_machine_the_book_has_no_words_for_is_told(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        for number in range(1, 21):
            path = f"{CHASSIS}/Drives/A-{number}"
            label = {"PartLocation": {"ServiceLabel": f"Front A Bay {number}"}}
            tree[path] = tree[f"{CHASSIS}/Drives/A-1"] | {"@odata.id": path, "Location": label}
            tree[f"{SYSTEM}/Storage/R1b"]["Drives"].append({"@odata.id": path})

    found = changed(change, tmp_path)  # twenty drives in a cage of eight
    assert found.judgement is None
    assert [each.kind for each in found.refused] == ["not-a-value"]
    assert drafted(found)["A"] == ([("S8", 1), ("sas-2400", 20)], "R1b")


# --- several machines in one source ---


def two_systems(tree: Tree) -> None:
    other = f"{SYSTEM[:-1]}2"
    tree[other] = {"@odata.id": other, "Name": "the other"}
    tree["/redfish/v1/Systems"]["Members"].append({"@odata.id": other})
    tree["/redfish/v1/Systems"]["Members@odata.count"] = 2


def test_one_of_several_systems_has_to_be_named(tmp_path: Path) -> None:
    with pytest.raises(Problems) as found:
        changed(two_systems, tmp_path)
    (only,) = found.value.problems
    assert only.kind == "no-system"
    assert "1, 2" in only.hint


def test_the_chassis_of_others_is_left_out_and_said(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        other = "/redfish/v1/Chassis/other"
        tree[other] = {"@odata.id": other, "PowerSubsystem": {"@odata.id": f"{other}/Power"}}
        tree[f"{other}/Power"] = {"@odata.id": f"{other}/Power"}
        tree["/redfish/v1/Chassis"]["Members"].append({"@odata.id": other})
        del tree["/redfish/v1/Chassis"]["Members@odata.count"]

    found = changed(change, tmp_path)
    assert [where for where, _ in says(found, "unknown")] == ["/redfish/v1/Chassis/other"]

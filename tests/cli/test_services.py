"""The command service: what stands on the page, cautions before acts in each form of output."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from baywright.cli import app
from baywright.desk.opening import open_book
from baywright.desk.service.access import AccessRequest, service_plan
from baywright.files.books import find_book, read_build
from baywright.service.access.plan import Plan
from tests.service.access.saying import acts, again, flat, full, lacking_in_json, lacking_in_text

OFFICE = find_book("f2") / "builds" / "n4.yaml"
SHOP = find_book("p1") / "builds" / "n1.yaml"
CASES = [
    ("f2", OFFICE, ("R1b", "P1", "M2", "A")),
    ("f2", OFFICE, ("F",)),
    ("p1", SHOP, ("PS", "D", "board")),
]


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(app, ["service", *map(str, arguments)], env={"COLUMNS": "80"})


def planned(book: str, path: Path, places: tuple[str, ...]) -> Plan:
    ((_, plan),) = service_plan(open_book(book), read_build(path), AccessRequest(places)).plans
    return plan


def printed(*arguments: str | Path) -> str:
    found = run(*arguments)
    assert found.exit_code == 0, found.output
    return found.output


@pytest.mark.parametrize(("book", "path", "places"), CASES)
def test_no_caution_can_be_left_out_of_the_text(
    book: str, path: Path, places: tuple[str, ...]
) -> None:
    text, plan = printed(book, path, *places), planned(book, path, places)
    assert lacking_in_text(text, plan) == []
    assert max(map(len, text.splitlines())) <= 80
    said = flat(text)
    for key in plan.cautions:
        assert said.count(full(key)) == 1
        assert lacking_in_text(said.replace(full(key), ""), plan)
        if again(key) in said:
            assert lacking_in_text(said.replace(again(key), "", 1), plan)


@pytest.mark.parametrize(("book", "path", "places"), CASES)
def test_no_caution_comes_after_its_act_in_the_text(
    book: str, path: Path, places: tuple[str, ...]
) -> None:
    said, plan = flat(printed(book, path, *places)), planned(book, path, places)
    first = {key: act for keys, act in reversed(acts(plan)) for key in keys}
    for key, act in first.items():
        assert lacking_in_text(said.replace(full(key), "") + full(key), plan)
        assert said.index(full(key)) < said.index(flat(act))


@pytest.mark.parametrize(("book", "path", "places"), CASES)
def test_no_caution_can_be_left_out_of_the_json(
    book: str, path: Path, places: tuple[str, ...]
) -> None:
    data: dict[str, Any] = json.loads(printed(book, path, *places, "--json"))
    plan = planned(book, path, places)
    assert lacking_in_json(data, plan) == []
    for key in plan.cautions:
        less = copy.deepcopy(data)
        del less["cautions"][key]
        assert lacking_in_json(less, plan)
    for at, (keys, _) in enumerate(acts(plan)):
        for key in keys:
            less = copy.deepcopy(data)
            less["plans"][0]["steps"][at]["says"].remove({"caution": key})
            assert (at + 1, key) in lacking_in_json(less, plan)


def test_it_says_who_decides_and_what_stands_behind_it() -> None:
    text = flat(printed("f2", OFFICE, "F"))
    assert "Planning aid." in text
    assert "90 s: air.cover_off; Ferryman F2 air test report, 2031-03-10" in text
    assert "While the machine runs it may be off for 90 s; it is back after 80 s." in text
    assert "Put back, in this order cover, slides" in text


def test_a_closed_lock_without_its_key_is_a_refusal_and_leaves_what_it_does_not_hold() -> None:
    text = flat(printed("f2", OFFICE, "A", "--lock", "closed"))
    assert "Front lock: the front lock is closed, and its key is not at hand." in text
    assert "Step" not in text
    assert "Step 1" in printed("f2", OFFICE, "PS", "--lock", "closed")
    assert "Unlock the front lock with the front key." in printed(
        "f2", OFFICE, "A", "--lock", "key"
    )


def test_what_stops_the_machine_is_refused_when_it_has_to_run() -> None:
    data = json.loads(printed("f2", OFFICE, "M1", "--keep-running", "--json"))
    (plan,) = data["plans"]
    assert (plan["possible"], plan["steps"]) == (False, [])
    (refused,) = plan["refused"]
    assert any("power is off at once" in reason for reason in refused["reasons"])


def test_the_voltage_decides_whether_a_supply_is_changed_while_it_runs() -> None:
    low = flat(printed("f2", OFFICE, "PS"))
    assert "1,159 W drawn, 1,000 W carried (at peak, 120 V, 0 m)" in low
    assert "never off" not in low
    assert "never off" in printed("f2", OFFICE, "PS", "--volts", "230 V")


def test_labels_of_the_log_name_parts() -> None:
    text = flat(printed("f2", OFFICE, "PROC 1 DIMM A3", "Proc 1 DIMM B1"))
    assert "(1 of 2): memory of processor 1, in the log PROC 1 DIMM A3." in text
    assert "(2 of 2): memory of processor 1, in the log Proc 1 DIMM B1." in text


def test_the_users_lifting_rule_says_who_lifts(tmp_path: Path) -> None:
    site = tmp_path / "site.yaml"
    bands = "[{up_to: 5 kg, by: one person}, {up_to: 20 kg, by: two people}]"
    site.write_text(f"rack: {{lift_bands: {bands}}}\n", encoding="utf-8")
    text = flat(printed("p1", SHOP, "M1", "--site", site))
    assert "2 min, 1 person, lifted by two people" in text
    assert "The site states no lifting rule" not in text


@pytest.mark.parametrize(
    ("places", "says"),
    [
        (("Q9",), "There is no place or step 'Q9'."),
        (("K1",), "There is nothing in pack mount near riser 1 to replace."),
        (("A:fan",), "It is not clear which part of zone A is to be replaced."),
        (("F",) * 7, "F is named 7 times, and has 6 of fan."),
        (("Fan 1", "Fan 1"), "Fan 1 is named twice."),
        (("power",), "There is no place or step 'power'."),
    ],
)
def test_what_is_not_there_is_said(places: tuple[str, ...], says: str) -> None:
    found = run("f2", OFFICE, *places)
    assert found.exit_code == 2
    assert says in flat(found.output)


def test_a_place_the_build_says_nothing_of_is_named(tmp_path: Path) -> None:
    """A build that leaves its supplies out does not have none."""
    build = tmp_path / "shop.yaml"
    lines = Path(SHOP).read_text("utf-8").splitlines(keepends=True)
    build.write_text("".join(line for line in lines if not line.startswith("  PS:")), "utf-8")
    found = run("p1", build, "PS")
    assert found.exit_code == 2
    assert "The build does not say what is in supplies." in flat(found.output)
    assert "under places, PS" in flat(found.output)

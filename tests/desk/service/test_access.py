"""Plans of service at the desk: books of others, unknown facts, parts that have to match."""

from __future__ import annotations

from pathlib import Path

import pytest

from baywright.desk.opening import open_book
from baywright.desk.service.access import AccessRequest, Service, service_plan
from baywright.desk.service.access_telling import service_sheet
from baywright.facts.build import Build, read_fitted
from baywright.files.books import read_build
from baywright.problems import Problems
from baywright.service.access.circumstances import Doing
from baywright.service.access.moves import Least
from baywright.service.access.plan import Plan
from tests.files.example import write_example
from tests.service.access.machines import build

OTHERS = Path(__file__).parents[2] / "books_by_others"
ONE = Build.model_validate({"book": "t1", "name": "one", "places": {"P1": "cpu-8", "O1": "C4"}})


def planned(book: str, *places: str, doing: Doing = "replace", least: Least = "time") -> Plan:
    request = AccessRequest(places, doing, least=least)
    names = {"f2": "n4", "p1": "n1"}
    ((_, plan),) = service_plan(open_book(book), build(book, names[book]), request).plans
    return plan


def test_of_two_aims_each_is_kept() -> None:
    soon = planned("p1", "M1", "PS", least="time")
    gentle = planned("p1", "M1", "PS", least="off")
    # While the cords are out for the memory anyhow, the cord of the supply is not pulled twice.
    assert soon.time < gentle.time
    assert gentle.off < soon.off
    supplies = [next(s for s in plan.steps if s.name == "PS:ps-ac") for plan in (soon, gentle)]
    assert [step.power for step in supplies] == ["off", "running"]


def test_the_whole_time_is_that_of_the_steps() -> None:
    plan = planned("f2", "R1b", "A")
    assert plan.time == sum(step.time for step in plan.steps)
    assert plan.untimed == ()
    # By the facts of the book: stop 9, cords 1, cover 15 s, guide 30 s, held 30 s, riser 1, and
    # back; start 7; controller 2 x 5 min. The slides are out before the stop.
    assert plan.off == 540 + 2 * (60 + 15 + 30 + 30 + 60) + 420 + 600


def test_what_a_new_part_has_to_match_is_said() -> None:
    notes = " ".join(planned("f2", "P1", "M1", "PS", "R1b", "A").notes)
    assert "Processors are identical in a machine: fit 32-core processor." in notes
    assert "Modules are of one size in a machine: fit 64 GB." in notes
    assert "Supplies are identical in a machine: fit 1300 W supply." in notes
    assert "holds drives of one kind: fit 2.4 TB SAS drive." in notes
    assert "It needs firmware 2.4 or later with Reedbed 10 and Reedbed 11." in notes
    assert "The log calls memory of processor 1 PROC 1 DIMM *" in notes


def test_what_is_taken_out_is_closed_with_a_blank() -> None:
    notes = planned("p1", "D", doing="remove").notes
    assert "Close what is empty then with blank for an empty bay." in notes
    assert "Whether the machine is legal without it, judging that build tells." in notes


def test_a_wait_comes_before_what_is_hot_and_leaves_nothing_to_put_back() -> None:
    plan = planned("f2", "P1", "P2")
    kinds = [step.kind for step in plan.steps]
    names = [step.name for step in plan.steps]
    assert kinds.count("wait") == 1
    assert names.index("wait: heat sink") < names.index("P1:cpu-32")
    assert "wait: heat sink" not in plan.refit


def test_fixed_drives_are_changed_with_power_off() -> None:
    hot = build("f2", "n4")
    zone = read_fitted({"cage": "F4", "drives": "4 x sata-960"})
    fixed = hot.model_copy(update={"places": {**hot.places, "A": zone}})
    ((_, plan),) = service_plan(open_book("f2"), fixed, AccessRequest(("A",))).plans
    assert plan.stops
    ((why,),) = (each.reasons for each in plan.why_off)
    assert why == "The drives of cage for four fixed SATA drives are changed with power off."
    assert not planned("f2", "A").stops


def of_others(book: str, name: str, *places: str) -> Service:
    read = read_build(OTHERS / book / "builds" / f"{name}.yaml")
    return service_plan(open_book(OTHERS / book), read, AccessRequest(places))


def test_a_book_without_facts_of_service_is_stopped_and_owns_up() -> None:
    found = of_others("t4", "low", "P1")
    ((_, plan),) = found.plans
    assert [step.name for step in plan.steps] == ["power", "cords", "P1:cpu-56", "cords", "power"]
    assert plan.untimed == ("power", "cords", "the work on P1:cpu-56")
    assert len(plan.unstated) == 1
    sheet = service_sheet(found)
    assert any(
        sentence.startswith("No time is stated for") for sentence in sheet.plans[0].sentences
    )
    assert set(plan.unstated) <= set(sheet.plans[0].sentences)


def test_without_steps_of_access_the_order_of_service_is_followed(tmp_path: Path) -> None:
    book = behind(tmp_path, "riser 1", "order: [cords, cover, risers]\n  stop: 5 min")
    ((_, plan),) = service_plan(open_book(book), ONE, AccessRequest(("O1",))).plans
    off = [step.name for step in plan.steps if step.kind == "out"]
    assert off == ["power", "cords", "cover", "risers"]
    # The stop of such a book takes in the cords and the cover.
    assert plan.untimed == ("risers", "the work on O1:C4")


def test_an_unknown_number_of_people_gives_a_plan_for_each(tmp_path: Path) -> None:
    book = behind(tmp_path, "cover", "access:\n    cover: {people: {could_be: [1, 2]}}")
    found = service_plan(open_book(book), ONE, AccessRequest(("O1",)))
    assert [(dict(given), plan.people) for given, plan in found.plans] == [
        ({"service.access.cover.people": "1"}, 1),
        ({"service.access.cover.people": "2"}, 2),
    ]
    titles = [sheet.title for sheet in service_sheet(found).plans]
    assert titles == [f"If service.access.cover.people is {number}" for number in (1, 2)]


def behind(folder: Path, inside: str, service: str) -> Path:
    """Write the book of the documentation with its slot inside something."""
    book = write_example(folder)
    places = (book / "places.yaml").read_text("utf-8")
    places = places.replace("type: slot", f"type: slot\n    inside: {inside}")
    (book / "places.yaml").write_text(places, "utf-8")
    (book / "service.yaml").write_text(f"service:\n  {service}\n", "utf-8")
    return book


def test_nothing_is_done_by_nobody() -> None:
    with pytest.raises(Problems, match="nothing is done by 0 people"):
        service_plan(open_book("f2"), build("f2", "n4"), AccessRequest(("F",), people=0))

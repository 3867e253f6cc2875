"""Each hazard of service work has its caution before the act that it belongs to."""

from __future__ import annotations

import pytest

from baywright.desk.service.access import AccessRequest
from baywright.service.access.circumstances import Doing, Lock
from baywright.service.access.plan import Guarded, Plan, Step
from baywright.service.access.planning import plan
from tests.service.access.machines import given, opened

# Hazards of the trade, common practice, no source; where each is met, and what says it.
CASES = [
    ("several cords, standby power", "f2", "M1", "cords", "several-cords"),
    ("stored energy of a pack", "f2", "K1", "K1:pack", "stored-energy"),
    ("stored energy of a supply", "f2", "PS", "PS:ps-1300", "stored-energy"),
    ("hot heat sink", "f2", "P1", "P1:cpu-32", "hot-surface"),
    ("hot card", "l4", "X1", "X1:accel-350", "hot-surface"),
    ("moving fans", "f2", "F", "F:fan", "moving-fan"),
    ("sharp edges", "p1", "M1", "cover", "moving-fan"),
    ("no airflow while the cover is off", "f2", "F", "cover", "no-airflow"),
    ("no airflow during the work", "f2", "F", "F:fan", "no-airflow"),
    ("an interlock that cuts power", "f2", "M1", "air guide", "interlock"),
    ("an interlock that cuts power", "l4", "P1", "lid", "interlock"),
    ("an interlock that stops it", "p1", "P1", "cover", "interlock"),
    ("static", "f2", "M1", "M1:dimm-64", "static"),
    ("lifting and tipping", "f2", "M1", "slides", "lifting"),
    ("lifting the whole machine", "p1", "M1", "wall kit", "lifting"),
    ("rails", "f2", "M1", "slides", "rails"),
    ("a rebuild, the wrong drive", "f2", "A", "A:sas-2400", "rebuild"),
    ("moving arrays", "f2", "R1b", "R1b:C16", "moving-array"),
    ("moving arrays with their cage", "f2", "A:S8", "A:S8", "moving-array"),
    ("moving arrays with their cable", "f2", "A:cable", "A:cable", "moving-array"),
    ("write cache unprotected", "f2", "K1", "K1:pack", "write-cache"),
    ("forced power-off", "f2", "M1", "power", "forced-off"),
    ("redundancy below a load", "p1", "PS", "supply cord", "redundancy"),
    ("circuits overloaded by one cord", "p1", "PS", "supply cord", "overloaded-circuit"),
    ("keys left behind", "f2", "A", "front lock", "keys-left"),
    ("default credentials of a new board", "f2", "board", "board", "keys-left"),
    ("data on removed drives", "f2", "A", "A:sas-2400", "removed-media"),
    ("data on removed cartridges", "p1", "MEDIA", "MEDIA:cartridge", "removed-media"),
]
BUILDS = {"f2": "n4", "p1": "n1", "l4": "n3"}


def planned(book: str, *places: str, doing: Doing = "replace", lock: Lock = "key") -> Plan:
    asked = AccessRequest(places, doing, lock)
    return plan(opened(book).machine.book, given(book, BUILDS[book], asked), places, doing)


def steps(found: Plan, name: str) -> list[Step]:
    return [step for step in found.steps if step.name == name and step.kind != "back"]


@pytest.mark.parametrize(("hazard", "book", "place", "step", "key"), CASES)
def test_the_act_has_its_caution(hazard: str, book: str, place: str, step: str, key: str) -> None:
    found = steps(planned(book, place), step)
    assert found, hazard
    assert any(key in each.says.cautions for each in found), hazard


def test_a_drive_that_is_added_takes_no_data_away() -> None:
    (step,) = steps(planned("l4", "E", doing="add"), "E:fast-3840")
    assert "removed-media" not in step.says.cautions
    assert "rebuild" in step.says.cautions


def test_a_book_adds_cautions_and_takes_none_away() -> None:
    # Nothing but drive: {time, running} stands in the book of the F2 for drives.
    (step,) = steps(planned("f2", "A"), "A:sas-2400")
    work = opened("f2").book.service.work["drive"]
    assert work.cautions == []
    assert step.says.cautions == ("removed-media", "rebuild")


def test_an_act_is_told_behind_its_cautions_only() -> None:
    held = Guarded(("static", "lifting"), "Take it out.")
    assert held.told(lambda key: f"! {key}", str) == ("! static", "! lifting", "Take it out.")
    shown = [name for name in dir(held) if not name.startswith("_")]
    assert shown == ["cautions", "told"]
    assert "Take it out." not in f"{held}{held!r}"

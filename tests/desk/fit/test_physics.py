"""Sizing in the loop: what feeds, racks and rooms refuse is not proposed, and nothing else is lost.

Hosts of the demo scenario with one processor and no drives, so that every legal one can be sized.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import Any

import pytest
import yaml

from baywright.answers.inquiry import Inquiry
from baywright.desk.fit import hosts
from baywright.desk.fit.candidates import Candidate, measures, unbeaten
from baywright.desk.fit.cuts import load_cuts, mass_cuts
from baywright.desk.fit.hosts import Explored, Explorer
from baywright.desk.fit.standing import Standing
from baywright.desk.opening import standard_panel
from baywright.engines.contract import Limit
from baywright.engines.diagram import Diagram
from baywright.engines.search import Search
from baywright.facts.need import Need
from baywright.files.books import need_from
from baywright.laws.linear import Linear
from baywright.laws.wishes import read_wishes, with_wishes
from tests.desk.demo import opened

MUST = [
    "processors == 1",
    "count(drive) == 0",
    "count(controller) == 0",
    "count(accelerator) == 0",
    "count(cage) == 0",
    "count(boot) == 0",
    "count(pack) == 0",
    "C == empty",
    'management == "dedicated"',
    'system == "not_stated"',
    'variant == "hot_swap"',
]
FEEDS = {
    "A": {"current": "16 A", "continuous": "80 %"},
    "B": {"current": "16 A", "continuous": "80 %"},
}


def need(**raw: Any) -> Need:
    text = {"book": "f2", "name": "need", "must": MUST, **raw}
    return need_from(yaml.safe_dump(text).encode(), "need.yaml")


def explored(asked: Need) -> Explored:
    machine, panel = opened("f2").machine, standard_panel()
    compared = measures(machine, asked)
    explorer = Explorer(
        machine, asked, compared, lambda: Inquiry(machine, panel), Diagram(), Limit(60.0)
    )
    return explorer.explore()


@cache
def builds(volts: str, beside: tuple[str, ...]) -> list[Mapping[str, int]]:
    """Return every legal host with what has to hold at a voltage."""
    machine = opened("f2").machine
    said = " and ".join((*MUST, f"voltage == {volts}", *beside))
    space = with_wishes(machine.space, read_wishes(machine, said))
    names = tuple(choice.name for choice in machine.space.choices)
    return [dict(zip(names, row, strict=True)) for row in Search().each(space, names)]


def accepted(asked: Need, number: int, *beside: str) -> list[Candidate]:
    """Return the front of every legal host that sizing accepts, found by sizing them all."""
    machine = opened("f2").machine
    voltage = asked.site.voltage
    every = builds(voltage.text if voltage else "230 V", beside)
    assert len(every) > 100
    standing = Standing(asked, number)
    checks = standing.checks(standing.case(machine, every))
    compared = measures(machine, asked)
    left = [
        compared.candidate(number, build, 2 * number)
        for position, build in enumerate(every)
        if not any(check.room[position] < 0 for check in checks)
    ]
    return unbeaten(left)


def same(asked: Need, number: int, *beside: str) -> Explored:
    found = explored(asked)
    wanted = accepted(asked, number, *beside)
    assert {each.costs for each in found.front} == {each.costs for each in wanted}
    return found


def test_a_small_feed_bounds_the_load_of_hosts_in_a_rack() -> None:
    """Eight hosts on two feeds of 16 A at four fifths: 1.6 A each with one feed lost."""
    asked = need(
        hosts=8,
        racks=1,
        prefer=["cores"],
        survive={"feeds": 1},
        site={"voltage": "230 V", "feeds": FEEDS},
    )
    (law,) = load_cuts(opened("f2").machine, Standing(asked, 8))
    assert "with 8 in a rack" in law.origin.sentence
    assert "feeds when one is lost" in law.origin.sentence
    found = same(asked, 8)
    # 12.8 A over 8 hosts is 1.6 A at 230 V: 360 W at a power factor of 0.98 are not passed.
    assert all(each.load / 8 <= 360 for each in found.front)


def test_a_hot_room_bounds_the_load_of_the_hosts_of_a_site() -> None:
    asked = need(
        hosts=6,
        sites=2,
        prefer=["memory"],
        site={"voltage": "230 V", "room": {"heat_most": "1.2 kW"}},
        must_not=["memory > 128 GB"],
    )
    found = same(asked, 6, "memory <= 128 GB")
    # Three at each site give off no more than 1.2 kW, so each draws less than 400 W.
    assert found.front
    assert all(each.load / 6 < 400 for each in found.front)


def light(mass: str) -> Need:
    return need(
        hosts=1,
        prefer=["memory"],
        site={"voltage": "230 V", "rack": {"mass_most": mass}},
        must_not=["memory > 128 GB"],
    )


def test_a_weak_rack_bounds_the_mass() -> None:
    asked = light("17.8 kg")
    found = same(asked, 1, "memory <= 128 GB")
    (law,) = mass_cuts(opened("f2").machine, Standing(asked, 1))
    assert law.text == "Mass in a rack is at most 17.8 kg"
    assert found.front
    assert all(mass(each) <= 17_800 for each in found.front)


def mass(candidate: Candidate) -> Fraction:
    """Return the mass of one machine [g]."""
    meaning = opened("f2").machine.names["mass"].meaning
    assert isinstance(meaning, Linear)
    return meaning.value(candidate.values)


def test_what_has_no_bound_is_taken_out_one_by_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same without its bound: what sizing refuses goes, and the rest of the front stays."""
    heaviest = max(mass(each) for each in explored(light("40 kg")).front)
    monkeypatch.setattr(hosts, "mass_cuts", lambda _machine, _standing: [])
    found = same(light(f"{heaviest - 1} g"), 1, "memory <= 128 GB")
    gone = [wish for count in found.counts for wish in count.wishes if "refused" in wish.key]
    assert gone, "no build was refused, so that nothing was tested"
    # What stands in the settings has no mass, so that it is no part of what is refused.
    assert all("system" not in wish.text for wish in gone)


def test_nothing_is_bound_where_nothing_is_said_of_the_site() -> None:
    machine = opened("f2").machine
    assert load_cuts(machine, Standing(need(hosts=1), 1)) == []


@pytest.mark.parametrize("volts", ["120 V", "230 V"])
def test_the_front_without_limits_is_that_of_the_laws(volts: str) -> None:
    same(need(hosts=1, site={"voltage": volts}), 1)

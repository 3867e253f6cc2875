"""The college of the demo: its F1 gets a second processor, twelve drives and a card, or an F2.

The numbers are of the demo scenario; the watts are worked out here by hand from its facts of the
F1: base 42, a processor 150 / 0.9, a module 7, a SAS drive 12, a controller 16, the network
module 18, a fan 20, the card 75.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from baywright.answers.verdicts import Witness, Yes
from baywright.desk.upgrade.successor import Successor
from baywright.desk.upgrade.upgrading import Upgrade
from baywright.desk.upgrade.ways import Way
from baywright.laws.builds import parts_list
from baywright.space import broken
from tests.desk.upgrade.files import WANTED, upgrade_to


@pytest.fixture(scope="module")
def college() -> Upgrade:
    return upgrade_to(WANTED)


def ways(college: Upgrade) -> tuple[Way, Way]:
    cheapest, gentlest = college.plans[0].ways
    return cheapest, gentlest


def f2(college: Upgrade) -> Successor:
    (found,) = college.successors
    return found


def watts(build: Witness) -> Fraction:
    return next(figure.value for figure in build.figures if figure.name == "load")


PROCESSOR = Fraction(150) / Fraction(9, 10)


def test_it_stands_and_can_be_upgraded(college: Upgrade) -> None:
    (plans,) = college.plans
    assert isinstance(plans.stands, Yes)
    assert isinstance(plans.meets, Yes)
    # 42 + 166.67 + 6 × 7 + 5 × 12 + 16 + 18 + 4 × 20 = 424.67 W
    assert watts(plans.stands.witness) == 42 + PROCESSOR + 42 + 60 + 16 + 18 + 80


def test_the_supplies_it_owns_are_not_enough(college: Upgrade) -> None:
    # It keeps 96 GB or more and has the same modules beside both processors: 4 or 6 of 16 GB each.
    for way, modules in zip(ways(college), (8, 12), strict=True):
        drawn = 42 + 2 * PROCESSOR + 7 * modules + 12 * 12 + 16 + 18 + 6 * 20 + 75
        assert watts(way.target) == drawn
        assert 750 < drawn <= 1100
        assert way.target.parts["ps-1100"] == 2


def test_the_cheapest_way_buys_this(college: Upgrade) -> None:
    cheapest, _ = ways(college)
    assert {each.part: each.count for each in cheapest.bought} == {
        "cpu-16": 1,
        "dimm-16": 2,
        "S8": 1,
        "sas-1200": 7,
        "S16i": 1,
        "accel-sw": 1,
        "ps-1100": 2,
        "fan": 2,
        "blank-bay": 1,
    }
    # 640 + 2 × 70 + 180 + 7 × 260 + 480 + 1400 + 2 × 230 + 2 × 40 + 4
    assert cheapest.price == 5204
    assert cheapest.spare == {"S8i": 1, "ps-750": 2, "blank-zone": 1}


def test_the_gentlest_way_moves_nothing_and_buys_four_modules_more(college: Upgrade) -> None:
    cheapest, gentlest = ways(college)
    assert gentlest.price == cheapest.price + 4 * 70
    verbs = [act.verb for step in gentlest.order.steps for act in step.acts]
    assert "move" not in verbs
    assert "move" in [act.verb for step in cheapest.order.steps for act in step.acts]


def test_every_state_in_between_is_legal(college: Upgrade) -> None:
    space = college.plans[0].machine.space
    for way in ways(college):
        for step in way.order.steps:
            for state in (*step.passed, step.leaves):
                assert broken(space, state.values) == ()
        assert way.order.steps[-1].leaves.lines == way.target.lines


def test_supplies_stay_redundant_in_every_state(college: Upgrade) -> None:
    for way in ways(college):
        assert [step.lacking for step in way.order.steps] == [()] * len(way.order.steps)
        for step in way.order.steps:
            carried = 1100 if step.leaves.parts.get("ps-1100") else 750
            assert watts(step.leaves) <= carried


def test_the_processor_comes_with_its_memory_and_fans(college: Upgrade) -> None:
    _, gentlest = ways(college)
    (step,) = [s for s in gentlest.order.steps if any(a.part == "cpu-16" for a in s.acts)]
    assert {act.part for act in step.acts} == {"cpu-16", "dimm-16", "fan"}
    assert step.off
    assert any("Fans: 4 fans" in sentence for sentence in step.together)


def test_the_machine_is_off_once(college: Upgrade) -> None:
    for way in ways(college):
        assert way.times_off == 1
        # 12 to stop, 10 to start, 5 to let the heat sink cool; then from the book's times:
        # processor 8, fans 2, cage 10, cable 3, controllers 2 × 5, card 5, supplies 4 × 2,
        # drives 7; modules 2 out, 4 in on the cheapest way, 6 in on the gentlest.
        assert way.down == 60 * (12 + 10 + 5 + 8 + 2 + 10 + 3 + 10 + 5 + 8 + 7 + 6)


def test_cautions_belong_to_the_step(college: Upgrade) -> None:
    for way in ways(college):
        for step in way.order.steps:
            keys = set(step.effort.cautions)
            assert not step.off or {"several-cords", "forced-off"} <= keys
            parts = Counter(act.part for act in step.acts)
            assert ("rebuild" in keys) == ("sas-1200" in parts)
            assert ("moving-array" in keys) == ("S8i" in parts)
            assert ("hot-surface" in keys) == bool({"cpu-16", "accel-sw"} & set(parts))


def test_other_inlets_are_said(college: Upgrade) -> None:
    assert any("C20" in note for way in ways(college) for note in way.notes)


def test_both_paths_meet_the_need(college: Upgrade) -> None:
    (plans,) = college.plans
    for build in (*(way.target for way in plans.ways), f2(college).target):
        assert build is not None
        numbers = {figure.name: figure.value for figure in build.figures}
        assert numbers["processors"] == 2
        assert sum(n for p, n in build.parts.items() if p.startswith("sas")) >= 12
        assert build.parts["accel-sw"] == 1
        assert numbers["load"] <= numbers["supplies_carry_redundant"]


def test_the_f2_takes_the_drives_and_their_cage_and_nothing_else_of_weight(
    college: Upgrade,
) -> None:
    used = {each.part: each.used for each in f2(college).carried if each.used}
    assert used == {"S8": 1, "sas-1200": 5, "blank-bay": 3, "blank-zone": 1}
    left = {each.part: each.why_not for each in f2(college).carried if not each.as_part}
    assert left.keys() == {"cpu-16", "dimm-16", "S8i", "net-10", "ps-750", "fan"}
    assert "DDR5 instead of DDR4" in left["dimm-16"]
    assert all(left.values())


def test_the_path_to_the_f2_costs_more(college: Upgrade) -> None:
    found = f2(college)
    # 2400 + 2 × 900 + 2 × 310 + 180 + 7 × 260 + 620 + 260 + 1400 + 2 × 190 + 6 × 45 + 4
    assert found.price == 9754
    assert found.transfer is not None
    # 12 to stop the F1, 10 to start the F2; a cage of 10 and five drives of 1, out and in.
    assert found.transfer.off == 60 * (12 + 10 + 2 * (10 + 5))


def test_what_the_f2_has_less_of_is_said(college: Upgrade) -> None:
    lost = " ".join(f2(college).lost)
    assert "usb port at the front" in lost
    assert "760 mm instead of 740 mm" in lost


def test_owned_parts_and_bought_ones_are_what_the_target_has(college: Upgrade) -> None:
    (plans,) = college.plans
    assert plans.start is not None
    had = Counter(parts_list(plans.machine, plans.start))
    for way in plans.ways:
        bought = Counter({b.part: b.count for b in way.bought if not b.follows})
        left = Counter({p: n for p, n in way.spare.items() if not p.startswith("blank")})
        assert had + bought - left == Counter(way.target.parts)

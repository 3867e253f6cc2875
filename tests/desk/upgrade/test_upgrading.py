"""Upgrades at their edges: nothing to do, not possible, not legal, kept or not, parts of old."""

from __future__ import annotations

from pathlib import Path

import pytest

from baywright.answers.verdicts import No, Yes
from baywright.desk.upgrade.ways import Way
from baywright.problems import Problems
from tests.desk.upgrade.files import F1, OWNED, changed, changed_f1, need, upgrade_to


def only_way(wanted: Path, owned: Path = OWNED, book: str | Path = "f1") -> Way:
    return upgrade_to(wanted, owned, book).plans[0].ways[0]


def test_a_machine_that_meets_the_need_is_left_alone(tmp_path: Path) -> None:
    plans = upgrade_to(need(tmp_path, "count(drive) >= 5")).plans
    (way,) = plans[0].ways
    assert way.order.steps == ()
    assert way.bought == ()
    assert way.price == way.down == 0


def test_drives_are_added_one_by_one_while_it_runs(tmp_path: Path) -> None:
    (step,) = only_way(need(tmp_path, "count(drive) == 8")).order.steps
    assert not step.off
    counts = [state.parts["sas-1200"] for state in (*step.passed, step.leaves)]
    assert counts == [6, 7, 8]
    assert step.blanks == {"blank-bay": -3}
    assert "several-cords" not in step.effort.cautions


def test_without_facts_of_service_it_is_off_and_no_time_is_claimed(tmp_path: Path) -> None:
    text = (F1 / "book.yaml").read_text(encoding="utf-8")
    work = text[text.index("  # From running to open") :]
    book = changed_f1(tmp_path, "book.yaml", (work, ""))
    way = only_way(need(tmp_path, "count(drive) == 8"), book=book)
    assert way.times_off == 1
    assert way.down == 0
    assert set(way.untimed) >= {"stopping and opening", "closing and starting", "1.2 TB SAS drive"}


def test_what_no_build_has_is_refused_with_reasons_and_the_successor_is_shown(
    tmp_path: Path,
) -> None:
    found = upgrade_to(need(tmp_path, "count(drive) >= 17"))
    (plans,) = found.plans
    assert isinstance(plans.meets, No)
    assert plans.meets.reasons
    assert plans.meets.nearest
    assert plans.ways == ()
    (f2,) = found.successors
    assert f2.verdict is None
    assert f2.target is not None
    drives = ("sas-", "fast-", "sata-")
    assert sum(n for p, n in f2.target.parts.items() if p.startswith(drives)) >= 17


def test_a_machine_that_is_not_legal_is_no_start(tmp_path: Path) -> None:
    owned = changed(OWNED, tmp_path, ("F: 4 x fan", "F: 3 x fan"))
    (plans,) = upgrade_to(need(tmp_path, "count(drive) >= 8"), owned).plans
    assert isinstance(plans.stands, No)
    assert (plans.meets, plans.ways) == (None, ())


def test_what_the_record_leaves_out_counts_as_empty(tmp_path: Path) -> None:
    owned = changed(OWNED, tmp_path, ("  PS: 2 x ps-750\n", ""))
    (plans,) = upgrade_to(need(tmp_path, "count(drive) >= 8"), owned).plans
    assert isinstance(plans.stands, No)
    assert any("beside what the build names" in r.sentence for r in plans.stands.reasons)


def test_nothing_is_given_up_unless_the_need_is_against_it(tmp_path: Path) -> None:
    kept = only_way(need(tmp_path, "processors == 2"))
    assert kept.gives_up == ()
    numbers = {figure.name: figure.value for figure in kept.target.figures}
    assert numbers["memory"] >= 96
    less = only_way(need(tmp_path, "memory == 32 GB"))
    assert [sentence for sentence in less.gives_up if "memory" in sentence]
    assert len(less.gives_up) == 1
    assert less.spare == {"dimm-16": 4}


def test_a_part_that_cannot_be_ordered_any_more_may_stay(tmp_path: Path) -> None:
    end = ("    name: controller S8i\n", "    name: controller S8i\n    last_order: 2030-01-01\n")
    book = changed_f1(tmp_path, "parts.yaml", end)
    (plans,) = upgrade_to(need(tmp_path, "count(drive) == 8"), book=book).plans
    assert isinstance(plans.stands, Yes)
    (way,) = plans.ways
    assert way.target.parts["S8i"] == 1


def test_no_more_are_fitted_of_a_part_that_cannot_be_ordered_any_more(tmp_path: Path) -> None:
    name = "    name: 1.2 TB SAS drive\n"
    book = changed_f1(tmp_path, "parts.yaml", (name, f"{name}    last_order: 2030-01-01\n"))
    way = only_way(need(tmp_path, 'count("sas-1200") >= 5 and count(drive) == 8'), book=book)
    assert way.target.parts["sas-1200"] == 5
    assert way.target.parts["sas-2400"] == 3


def test_a_need_for_several_machines_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Problems) as caught:
        upgrade_to(need(tmp_path, "count(drive) >= 8", more="hosts: 2\n"))
    (found,) = caught.value.problems
    assert found.kind == "one-machine"
    assert found.mark is not None


def test_the_files_are_checked_against_the_book(tmp_path: Path) -> None:
    owned = changed(OWNED, tmp_path, ("cpu-16", "cpu-17"))
    with pytest.raises(Problems) as caught:
        upgrade_to(need(tmp_path, "count(drives) >= 8"), owned)
    assert {found.kind for found in caught.value.problems} == {"unknown-reference"}


def test_the_budget_is_for_what_is_bought(tmp_path: Path) -> None:
    found = upgrade_to(need(tmp_path, "count(drive) == 8", more="budget: 700 FLO\n"))
    (way,) = found.plans[0].ways
    assert way.price == 3 * 260
    assert found.budget == 700


def test_what_makes_no_sense_for_the_successor_is_listed(tmp_path: Path) -> None:
    found = upgrade_to(need(tmp_path, 'count("S16i") == 1', "count(drive) >= 8"))
    (f2,) = found.successors
    ((text, problem),) = f2.unread
    assert text == 'count("S16i") == 1'
    assert "S16i" in problem
    assert f2.target is not None


def test_unknown_facts_give_a_plan_for_each_way_they_could_be(tmp_path: Path) -> None:
    price = "    price: {value: 260 FLO, source: price-list}\n"
    book = changed_f1(
        tmp_path, "parts.yaml", (price, "    price: {could_be: [260 FLO, 300 FLO]}\n")
    )
    found = upgrade_to(need(tmp_path, "count(drive) == 8"), book=book)
    assert [way.price for plans in found.plans for way in plans.ways] == [780, 900]
    assert [list(plans.supposed.values()) for plans in found.plans] == [["260 FLO"], ["300 FLO"]]

"""Faults on the desk: classes against a direct count, suspects, checks, words, JSON, drawing."""

from __future__ import annotations

import html
import json
import re
from collections import Counter
from functools import cache

import pytest

from baywright.desk.opening import Opened, open_book
from baywright.desk.service.access import AccessRequest, service_plan
from baywright.desk.service.faults import Diagnosis, FaultRequest, Findings, diagnose
from baywright.desk.service.faults_drawing import draw_tree
from baywright.desk.service.faults_json import diagnosis_json
from baywright.desk.service.faults_telling import (
    MOST_OTHERS,
    FaultSheet,
    fault_sheet,
    sign_rows,
    tree_cautions,
)
from baywright.desk.service.faults_words import effort_of
from baywright.facts.build import Build, Fitted, Item
from baywright.facts.cautions import CAUTIONS, PLANNING_AID
from baywright.problems import Problems
from baywright.service.faults.classes import Classes
from baywright.service.faults.tree import minutes_to, nodes_of
from tests.service.losing.graphs import read
from tests.sizing.builds import EVERY, OTHERS, SETTLED


@cache
def opened(book: str) -> Opened:
    return open_book(OTHERS / book if book in SETTLED else book)


def with_display(build: str = "n2") -> Build:
    """A build of f2 with the fault display in zone C."""
    plain = read("f2", build)
    places = {**plain.places, "C": Fitted((Item("display", 1),))}
    return plain.model_copy(update={"places": places})


def asked(build: Build, *seen: str, book: str = "f2", **more: object) -> Diagnosis:
    return diagnose(opened(book), build, FaultRequest(seen=seen, **more))  # type: ignore[arg-type]


def first(found: Diagnosis) -> Findings:
    return found.worlds[0][1]


def ids(found: Diagnosis) -> list[tuple[str, ...]]:
    return [each.ids for each in first(found).explained.suspects]


def words(told: FaultSheet) -> str:
    parts = [told.title, told.seen, told.word]
    for part in told.parts:
        parts += [part.title, *part.sentences, *part.after]
        parts += [cell for row in (part.table.rows if part.table else ()) for cell in row]
    return "\n".join(parts)


# --- classes against a direct count -----------------------------------------------------------
# Yearly rates in per cent: module, drive, supply, fan, controller, pack and board as the demo
# scenario states them; the others are invented there. A pair of boot cards fails twice as often as
# one card.

RATES = {
    "memory": 0.2, "drive": 0.8, "supply": 1.2, "fan": 1.0, "controller": 0.5, "pack": 2.0,
    "board": 0.6, "processor": 0.1, "network": 0.4, "boot": 1.6, "display": 0.3,
    "guide-unseated": 0.5, "feeds-off": 3.0,
}  # fmt: skip
KINDS = {
    "dimm": "memory", "cpu": "processor", "sas": "drive", "fast": "drive", "ps": "supply",
    "fan": "fan", "C16": "controller", "net": "network", "boot": "boot", "display": "display",
}  # fmt: skip
CODED = {"memory", "processor", "fan", "controller", "pack", "boot", "network"}
"""Kinds without a light of their own at the outside that the display tells apart by its code."""


def counted(build: Build, *, display: bool) -> tuple[float, float, int]:
    """Return expected suspects, weighted and not, and classes, seen from outside.

    Each drive and each supply shows itself. Without the display all other parts show the summary
    light only; with it they show the code of their kind, the display itself excepted. The board and
    an air guide that is not seated leave the machine without power, and the code tells them apart.
    """
    kinds = Counter({"board": 1, "guide-unseated": 1, "feeds-off": 1})
    for fitted in build.places.values():
        for item in fitted.items:
            kind = next((k for name, k in KINDS.items() if item.part.startswith(name)), None)
            kinds[kind or "cage"] += item.count
    del kinds["cage"]
    sizes: Counter[str] = Counter()
    rates: dict[str, float] = {}
    for kind, count in kinds.items():
        if kind in ("drive", "supply"):
            for i in range(count):
                sizes[f"{kind} {i}"], rates[f"{kind} {i}"] = 1, RATES[kind]
            continue
        dead = "summary and no power"
        plain = {"board": dead, "guide-unseated": dead, "feeds-off": "no power"}
        told = display and (kind in CODED or kind in ("board", "guide-unseated"))
        shown = f"code of {kind}" if told else plain.get(kind, "summary")
        sizes[shown] += count
        rates[shown] = rates.get(shown, 0.0) + count * RATES[kind]
    weighted = sum(rates[each] * sizes[each] for each in sizes) / sum(rates.values())
    return weighted, sum(n * n for n in sizes.values()) / sum(sizes.values()), len(sizes)


@pytest.mark.parametrize("build", ["n2", "n4", "display"])
@pytest.mark.parametrize("display", [False, True])
def test_classes_are_those_counted_by_hand(build: str, *, display: bool) -> None:
    given = with_display() if build == "display" else read("f2", build)
    stage = first(asked(given)).worth[0].stages[0]
    found = stage.fitted if display else stage.bare
    weighted, unweighted, classes = counted(given, display=display)
    assert float(found.expected) == pytest.approx(weighted)
    assert float(found.expected_unweighted) == pytest.approx(unweighted)
    assert len(found.by_signature) == classes


def test_two_classes_by_hand() -> None:
    """N4: summary light alone comes from 16 modules, 2 processors, 6 fans, 2 controllers and one
    network module, 27 in all: 3.2 + 0.2 + 6 + 1 + 0.4 = 10.8 % a year of 36.5 % in all. With 26
    that show themselves at 21.6 %, two without power at 1.1 % and the feeds at 3 %, that is
    (27 × 10.8 + 1 × 21.6 + 2 × 1.1 + 1 × 3) / 36.5 = 318.4 / 36.5."""
    stage = first(asked(read("f2", "n4"))).worth[0].stages[0]
    assert float(stage.bare.expected) == pytest.approx(318.4 / 36.5)
    assert sorted(map(len, stage.bare.by_signature.values()))[-2:] == [2, 27]


def check_partition(classes: Classes) -> None:
    held = [fault for each in classes.by_signature.values() for fault in each]
    assert sorted(held) == sorted(fault.id for fault in classes.faults)


@pytest.mark.parametrize(("book", "build"), EVERY)
def test_looking_on_never_leaves_more_suspects(book: str, build: str) -> None:
    for worth in first(diagnose(opened(book), read(book, build), FaultRequest())).worth:
        assert worth.fitted is not None
        assert worth.bare is not None
        assert worth.fitted.solution.minutes <= worth.bare.solution.minutes + 1e-9
        for each in worth.stages:
            assert each.fitted.expected <= each.bare.expected
            check_partition(each.fitted)
            check_partition(each.bare)
        assert [s.bare.expected for s in worth.stages] == sorted(
            (s.bare.expected for s in worth.stages), reverse=True
        )


# --- suspects ---------------------------------------------------------------------------------


def test_no_power_with_the_summary_light() -> None:
    """N2 at 230 V has a supply to spare, so no supply. 0.6 : 0.5 : 0.1 / 2, as processor 1 can keep
    it from starting and need not: 0.6 / 1.15 = 52.2 %."""
    found = asked(read("f2", "n2"), "summary light", "no power")
    assert ids(found) == [("board",), ("guide-unseated",), ("P1",)]
    odds = [float(each.odds or 0) for each in first(found).explained.suspects]
    assert odds == pytest.approx([0.6 / 1.15, 0.5 / 1.15, 0.05 / 1.15])
    assert "the air guide is not seated" in words(fault_sheet(found))


def test_feeds_hide_the_lights() -> None:
    """No power and a dark summary light: only the feeds, for without them no light shows."""
    found = asked(read("f2", "n2"), "no power", not_seen=("summary light",))
    assert ids(found) == [("feeds-off",)]


def test_a_light_is_named_as_the_log_names_its_place() -> None:
    one = asked(read("f2", "n4"), "drive light A.3")
    other = asked(read("f2", "n4"), "Drive light  Front A Bay 3")
    assert ids(one) == ids(other) == [("A.3",)]


def test_any_of_the_lights_will_do() -> None:
    assert len(ids(asked(read("f2", "n4"), "drive light"))) == 24


def test_nothing_else_leaves_out_what_would_show_more() -> None:
    """The summary light alone: none of the drives or supplies, whose own lights would be on."""
    plain = asked(read("f2", "n4"), "summary light")
    alone = asked(read("f2", "n4"), "summary light", nothing_else=True)
    assert len(ids(plain)) == 55
    kinds = {each.faults[0].kind for each in first(alone).explained.suspects}
    assert kinds == {"memory", "processor", "fan", "controller", "network"}


def test_with_the_cover_off_fan_lights_count_as_seen() -> None:
    open_now = asked(read("f2", "n4"), "summary light", nothing_else=True, cover="off")
    kinds = {each.faults[0].kind for each in first(open_now).explained.suspects}
    assert kinds == {"memory", "processor", "controller", "network"}


def test_two_faults_where_one_is_not_enough() -> None:
    found = asked(read("f2", "n4"), "drive light A.3", "supply light PS.1")
    assert ids(found) == [("A.3", "PS.1")]
    assert first(found).tree is None
    assert "No single fault shows that. 1 pair" in words(fault_sheet(found))


def test_pairs_are_weighed_by_the_product_of_their_rates() -> None:
    """N4, drive light A.3 and no power: 0.6 and 0.5 % for board and air guide, and one half of 1.2,
    1.2 and 0.1 % for the supplies and processor 1, which can take the power away and need not. The
    feeds hide the drive light. The sum is 2.35, and the rate of the drive is in every product."""
    found = asked(read("f2", "n4"), "drive light A.3", "no power")
    odds = {
        next(fault for fault in each.ids if fault != "A.3"): float(each.odds or 0)
        for each in first(found).explained.suspects
    }
    shares = {"board": 0.6, "guide-unseated": 0.5, "PS.1": 0.6, "PS.2": 0.6, "P1": 0.05}
    assert odds == pytest.approx({fault: share / 2.35 for fault, share in shares.items()})


def test_the_code_of_another_fault_is_hidden() -> None:
    """Of two faults the display shows one code: that of the module, not that of the fan."""
    found = asked(with_display(), "memory light of the display", "fan light of the display")
    pairs = first(found).explained.suspects
    assert {tuple(f.kind for f in each.faults) for each in pairs} == {("memory", "fan")}
    assert {sign.key for each in pairs for sign in each.masked} == {"display-code=31"}
    told = words(fault_sheet(found))
    assert "code" in told
    none = asked(with_display(), "memory light of the display", "code 31")
    assert all("fan" in {f.kind for f in each.faults} for each in first(none).explained.suspects)
    assert first(none).explained.faults_at_once == 0


def test_what_nothing_shows_is_said_with_what_comes_closest() -> None:
    found = asked(
        read("f2", "n4"), "drive light A.1", "drive light A.2", "drive light A.3", "supply light"
    )
    assert first(found).explained.faults_at_once == 0
    assert "Neither one fault nor two" in fault_sheet(found).word
    assert len(first(found).explained.closest) == 5


def test_what_is_no_sign_is_a_problem() -> None:
    for text, says in (
        ("sumary light", "Did you mean 'summary light'?"),
        ("memory light of the display", "which the build does not have"),
    ):
        with pytest.raises(Problems, match=says):
            asked(read("f2", "n4"), text)
    with pytest.raises(Problems, match="seen and not to be seen"):
        asked(read("f2", "n4"), "no power", not_seen=("dead",))


# --- checks and minutes -----------------------------------------------------------------------


@pytest.mark.parametrize(("book", "build"), EVERY)
def test_the_tree_takes_the_minutes_of_the_plans(book: str, build: str) -> None:
    """Followed fault by fault, with the minutes of the access plans, it comes to what it says."""
    found = diagnose(opened(book), read(book, build), FaultRequest())
    for _, each in found.worlds:
        tree = each.tree
        if tree is None:
            assert all(fault.rate is None for fault in each.faults), "r0 states no rates"
            continue
        swaps = {i: each.efforts.minutes(f.id) or 0.0 for i, f in enumerate(tree.faults)}
        looks = {i: each.efforts.look_times[way] for i, way in enumerate(tree.ways)}
        spent = minutes_to(tree.root, swaps, looks)
        odds = {s.ids[0]: float(s.odds or 0) for s in each.explained.suspects}
        shares = Counter(fault.id for fault in tree.faults)
        total = sum(
            spent[i] * odds[fault.id] / shares[fault.id] for i, fault in enumerate(tree.faults)
        )
        assert total == pytest.approx(tree.solution.minutes)
        assert tree.solution.exact


def test_the_minutes_of_a_swap_are_those_of_its_plan() -> None:
    build = read("f2", "n4")
    plan = service_plan(opened("f2"), build, AccessRequest(("F",))).plans[0][1]
    assert first(asked(build)).efforts.swaps["F.2"].minutes == plan.time / 60


def test_a_look_under_the_cover_is_quicker_than_a_fan() -> None:
    """Slides 105 s and cover 15 s, both ways: 4 min; the module lights need the cords out: 22."""
    efforts = first(asked(read("f2", "n4"))).efforts
    looks = {way.behind: spent for way, spent in efforts.look_times.items() if not way.by}
    assert looks == {(): 0.0, ("cover",): 4.0, ("cords", "cover"): 22.0}


def test_open_covers_make_a_look_free() -> None:
    efforts = first(asked(read("f2", "n4"), cords="out")).efforts
    assert {spent for way, spent in efforts.look_times.items() if not way.by} == {0.0}


def test_the_next_check_tells_most_in_a_minute() -> None:
    """Seen from outside already: N4 with the summary light alone. Under the cover 6 of 10.8 against
    4.8 are told: the entropy of that and six fans, over 4 min."""
    found = first(asked(read("f2", "n4"), "summary light", nothing_else=True))
    best = found.checks[0]
    rates = [each.bits_a_minute for each in found.checks]
    assert rates == sorted(rates, reverse=True)
    assert best.way is not None
    assert best.bits_a_minute == max(rates)


def test_what_is_known_is_not_looked_at_again() -> None:
    """With no power seen and all else dark there is nothing left to see from outside."""
    found = first(
        asked(read("l4", "n3"), "no power", "summary light", book="l4", nothing_else=True)
    )
    assert all(each.way is None or not each.way.outside for each in found.checks)
    assert found.tree is not None
    assert all(not way.outside for way in found.tree.ways)


def test_what_may_be_seen_leads_to_both_branches() -> None:
    """Processor 1 can keep N2 from starting and need not: it is looked for either way."""
    found = first(asked(read("f2", "n2"), "summary light"))
    assert found.tree is not None
    tree = found.tree
    ends = [node for node in nodes_of(tree.root) if node.swaps]
    held = [{tree.faults[i].id for i in node.faults} for node in ends]
    assert any("P1" in each and "board" not in each for each in held)
    assert any({"P1", "board"} <= each for each in held)


# --- words, JSON, drawing ---------------------------------------------------------------------


CASES = [("f2", "n4", ("summary light",)), ("p1", "n1", ()), ("l4", "n3", ("no power",))]


@pytest.mark.parametrize(("book", "build", "seen"), CASES)
def test_cautions_stand_before_every_act(book: str, build: str, seen: tuple[str, ...]) -> None:
    """The next check, the others and the tree each name all the cautions of their acts, in full the
    first time; acts are never above them, since a part shows its cautions first."""
    found = asked(read(book, build), *seen, book=book)
    each, told = first(found), fault_sheet(found)
    names = {CAUTIONS[key]: key for key in CAUTIONS}
    best, *others = [effort_of(each, check).cautions for check in each.checks]
    assert each.tree is not None
    wanted = {
        "Next check": set(best),
        "Other checks": {key for keys in others[:MOST_OTHERS] for key in keys},
        "Decision tree": set(tree_cautions(each, each.tree)),
    }
    full: list[str] = []
    for part in told.parts:
        own = [names[caution] for caution in part.cautions]
        again = {name.replace(" ", "-") for name in part.again}
        assert again <= set(full)
        assert {*own, *again} == wanted.get(part.title, set())
        full += own
    assert len(full) == len(set(full))
    assert told.aid == PLANNING_AID


@pytest.mark.parametrize(("book", "build", "seen"), CASES)
def test_a_drawing_has_its_cautions_above_the_tree(
    book: str, build: str, seen: tuple[str, ...]
) -> None:
    found = asked(read(book, build), *seen, book=book)
    tree = first(found).tree
    assert tree is not None
    drawn = draw_tree(found)
    before = drawn[drawn.index("</style>") : drawn.index("<circle")]
    plain = " ".join(re.sub(r"<[^>]*>", " ", before).split())
    for key in tree_cautions(first(found), tree):
        said = CAUTIONS[key]
        assert html.escape(said.hazard, quote=False) in plain
        assert html.escape(said.avoidance, quote=False) in plain


def test_cautions_of_a_tree_are_those_of_its_acts() -> None:
    """The tree of N4 opens the machine, pulls drives and lifts the board: none of these is left."""
    each = first(asked(read("f2", "n4")))
    assert each.tree is not None
    assert {"several-cords", "moving-fan", "rails", "rebuild", "interlock", "hot-surface"} <= set(
        tree_cautions(each, each.tree)
    )


def test_json_has_every_caution_that_it_names() -> None:
    made = diagnosis_json(asked(read("f2", "n4"), "summary light"))
    text = json.dumps(made)
    named = {key for each in made["found"][0]["checks"] for key in each["cautions"]}
    assert named | set(made["found"][0]["tree"]["cautions"]) <= set(made["cautions"])
    assert "rails" in named
    assert text.index('"cautions"') < text.index('"found"')
    assert made["aid"] == PLANNING_AID


@pytest.mark.parametrize(("book", "build"), EVERY)
def test_every_build_has_a_sheet_a_drawing_and_json(book: str, build: str) -> None:
    found = diagnose(opened(book), read(book, build), FaultRequest())
    told = words(fault_sheet(found))
    assert "nan" not in told
    assert sign_rows(first(found), opened(book).book).rows
    json.dumps(diagnosis_json(found))
    tree = first(found).tree
    if tree is None:
        assert "No yearly rate is stated" in told
        return
    svg = draw_tree(found)
    numbers = re.findall(r'class="strong said middle">(\d+)<', svg)
    assert numbers == [str(node.number) for node in nodes_of(tree.root)]
    assert PLANNING_AID.split(",")[0] in svg


def test_a_tree_that_takes_two_faults_is_not_drawn() -> None:
    with pytest.raises(Problems, match="There is no decision tree"):
        draw_tree(asked(read("f2", "n4"), "drive light A.3", "supply light PS.1"))

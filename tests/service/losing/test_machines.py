"""What is lost in whole machines: against hand-written models, truth tables and sizing."""

from __future__ import annotations

import itertools
from collections.abc import Mapping

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.desk.service.losing import graph_in
from baywright.drawing.contents import State, contents
from baywright.facts.build import Build
from baywright.problems import Problems
from baywright.service.losing.graph import Graph, named
from baywright.service.losing.items import RUNS, STARTS
from baywright.service.losing.losing import lost_with, next_points, pairs, single_points
from baywright.service.losing.nodes import Scenarios
from tests.service.losing.graphs import graph, holds, machine_for, random_graph, read
from tests.sizing.builds import EVERY

Truths = npt.NDArray[np.bool_]

N1, N2, N3, N4 = ("p1", "n1"), ("f2", "n2"), ("l4", "n3"), ("f2", "n4")


def gone(found: Graph, *things: str) -> set[str]:
    """Return the keys of what is gone with some things, by names as typed."""
    ids = [each for text in things for each in named(found, text)]
    return {each.function.key for each in lost_with(found, ids).gone}


def amounts(found: Graph, *things: str) -> dict[str, tuple[float, float]]:
    ids = [each for text in things for each in named(found, text)]
    lost = lost_with(found, ids)
    return {each.measure.key: (each.before, each.after) for each in lost.amounts}


# --- laws on every build -------------------------------------------------------------------


@pytest.mark.parametrize(("book", "build"), EVERY)
@settings(max_examples=30)
@given(data=st.data())
def test_losing_more_restores_nothing_in_any_build(
    book: str, build: str, data: st.DataObject
) -> None:
    found = graph(book, build)
    lost, more = (data.draw(st.frozensets(st.sampled_from(found.ids))) for _ in range(2))
    scenarios = found.without(lost, lost | more)
    for function in found.functions:
        before, after = scenarios.holds(function.node)
        assert before or not after, function.key
    for measure in found.measures:
        before, after = scenarios.weight(measure.inputs)
        assert after <= before + 1e-9, measure.key


@pytest.mark.parametrize("book", ["f2", "f1", "l4", "p1"])
@pytest.mark.parametrize("seed", range(6))
def test_cut_sets_of_random_builds_are_those_found_one_by_one(book: str, seed: int) -> None:
    """The other way: a plain recursive reading of each single loss and of 300 pairs."""
    found = random_graph(book, seed)
    draw = np.random.default_rng(seed)
    every_pair = list(itertools.combinations(found.ids, 2))
    chosen = [every_pair[i] for i in draw.choice(len(every_pair), min(300, len(every_pair)), False)]
    for key in (RUNS, STARTS):
        node = found.function(key).node
        if not holds(node, frozenset()):
            assert (single_points(found, key), pairs(found, key)) == ((), ())
            continue
        singles = {thing for thing in found.ids if not holds(node, frozenset({thing}))}
        assert set(single_points(found, key)) == singles
        fatal = {
            pair for pair in chosen if not singles & set(pair) and not holds(node, frozenset(pair))
        }
        assert fatal == set(pairs(found, key)) & set(chosen)


@pytest.mark.parametrize(("book", "build"), EVERY)
def test_things_are_called_as_on_the_drawings(book: str, build: str) -> None:
    """Each position that a drawing shows filled is a thing of the same id, with the same part."""
    found = graph(book, build)
    standing = found.standing
    for content in contents(standing.book, standing.build).values():
        drawn = {
            (unit.id, unit.part)
            for unit in content.units
            if unit.state is State.FITTED and standing.book.parts[unit.part].kind != "cage"
        }
        assert drawn == set(standing.units(content.place)), content.place


@pytest.mark.parametrize(("book", "build"), EVERY)
def test_every_thing_matters_for_something(book: str, build: str) -> None:
    """What no function and no number needs would be there for nothing."""
    found = graph(book, build)
    bare = []
    for thing in found.ids:
        rest = [other for other in found.ids if other != thing]
        scenarios = found.without((), (thing,), rest, found.ids)
        nodes = [function.node for function in found.functions]
        sums = [scenarios.weight(measure.inputs) for measure in found.measures]
        touched = any(scenarios.holds(node)[0] != scenarios.holds(node)[1] for node in nodes)
        touched |= any(total[0] != total[1] for total in sums)
        if not touched:
            bare.append(thing)
    if (book, build) == ("t4", "low"):
        # Its row of cards belongs to a processor that is not fitted: of no use from the start.
        bare = [thing for thing in bare if not thing.startswith(("L", "link.l4"))]
    # Fans matter once their number is decided; of supplies there may be more than are missed.
    kinds = {found.by_id[thing].kind for thing in bare}
    assert kinds <= {"fan", "supply", "cord", "feed"}, bare


# --- N1: every state of twenty things, by a model written out ------------------------------


FIXED = ("link.module-1", "O1", "O1.chip.1", "O1.port.2", "MEDIA")
"""Left standing, so that the table has two to the power of 20 rows."""


def shop(stands: dict[str, Truths]) -> dict[str, Truths]:
    """The shop's box as one would write it down: two supplies on one feed of which one carries
    156 W of 240, three fans of which two carry it (122 W each), two modules, mirrored boot and
    data."""
    s = stands
    base = s["room"] & s["board"]
    fed = (s["PS.1"] & s["PS.1.cord"]) | (s["PS.2"] & s["PS.2.cord"])
    two_fans = (s["F.1"] & s["F.2"]) | (s["F.1"] & s["F.3"]) | (s["F.2"] & s["F.3"])
    boot = s["BOOT.card.1"] | s["BOOT.card.2"]
    core = base & s["feed"] & fed & two_fans & boot & s["P1"]
    starts = core & (s["M1.a1"] | s["M1.b1"])
    data = starts & s["D"] & s["D.connector"]
    return {
        RUNS: core & s["M1.a1"] & s["M1.b1"],
        STARTS: starts,
        "array.direct.sata-1920": data & (s["D.1"] | s["D.2"]),
        "spare.direct.sata-1920": data & s["D.1"] & s["D.2"],
        "data.direct.sata-1920": s["D.1"] | s["D.2"],
        "network.O1.port.1": starts & s["O1.port.1"],
        "media.MEDIA": starts,
        "management": base & s["feed"] & fed & s["O1.port.1"],
        "boot.mirrored": s["BOOT.card.1"] & s["BOOT.card.2"],
    }


def test_every_state_of_the_shop() -> None:
    found = graph(*N1)
    free = [thing for thing in found.ids if thing not in FIXED]
    assert len(free) == 20
    rows = np.arange(2 ** len(free))
    lost = np.zeros((len(rows), len(found.ids)), bool)
    for bit, thing in enumerate(free):
        lost[:, found.ids.index(thing)] = rows >> bit & 1
    scenarios = Scenarios(found.ids, lost)
    stands = {thing: ~lost[:, i] for i, thing in enumerate(found.ids)}
    for key, expected in shop(stands).items():
        assert np.array_equal(scenarios.holds(found.function(key).node), expected), key


def test_minimal_cut_sets_of_the_shop_from_the_whole_table() -> None:
    """Of the 2^20 states, those that stop the box and have no smaller one that does."""
    found = graph(*N1)
    free = [thing for thing in found.ids if thing not in FIXED]
    rows = np.arange(2 ** len(free))
    stands = {thing: (rows >> bit & 1) == 0 for bit, thing in enumerate(free)}
    stands |= {thing: np.ones(len(rows), bool) for thing in FIXED}
    for key in (RUNS, STARTS, "array.direct.sata-1920", "management"):
        down = ~shop(stands)[key]
        minimal = down.copy()
        for bit in range(len(free)):
            without = rows & ~(1 << bit)
            minimal &= ~(((rows >> bit & 1) == 1) & down[without])
        sets = [frozenset(t for b, t in enumerate(free) if row >> b & 1) for row in rows[minimal]]
        singles = {thing for thing in single_points(found, key) if thing not in FIXED}
        assert singles == {next(iter(each)) for each in sets if len(each) == 1}
        twos = {frozenset(pair) for pair in pairs(found, key) if not set(pair) & set(FIXED)}
        assert twos == {each for each in sets if len(each) == 2}


def test_single_points_of_the_shop_agree_with_sizing() -> None:
    """Sizing counts feed, board, two modules, a network chip and the processor as fatal to the
    service, and as pairs fans, supplies, both drives, both boot drives; here there are cords, the
    room, the link and the cage beside them."""
    found = graph(*N1)
    known = {"feed", "board", "memory", "chip", "processor", "supply", "fan", "drive", "boot"}
    fatal = set(single_points(found, RUNS)) | set(single_points(found, "network"))
    fatal |= set(single_points(found, "array.direct.sata-1920"))
    kinds = [found.by_id[thing].kind for thing in fatal]
    assert sorted(kind for kind in kinds if kind in known) == sorted(
        ["feed", "board", "memory", "memory", "chip", "processor"]
    )
    two = {frozenset(p) for key in (RUNS, "array.direct.sata-1920") for p in pairs(found, key)}
    two -= {pair for pair in two if pair & fatal}
    alike = [sorted(found.by_id[thing].kind for thing in pair) for pair in two]
    counted = {k: alike.count([k, k]) for k in ("fan", "supply", "drive", "boot")}
    assert counted == {"fan": 3, "supply": 1, "drive": 1, "boot": 1}


# --- the customers' builds -----------------------------------------------------------------


def test_the_second_processor_of_the_record_office() -> None:
    """P2 feeds riser 3 with the controller of zone C: 8 of 24 drives, half the memory. The machine
    stops and can start with one processor; it boots from the array behind riser 1."""
    found = graph(*N4)
    lost = lost_with(found, ["P2"])
    assert lost.stops
    assert lost.starts
    assert {"controller.R3b", "array.R3b.sas-2400"} <= gone(found, "P2")
    assert "array.R1b.sas-2400" not in gone(found, "P2")
    assert not any(key.startswith("data.") for key in gone(found, "P2"))
    assert amounts(found, "P2")["memory"] == (1024, 512)
    assert amounts(found, "P2")["drives"] == (24, 16)
    # 16 - 2 and 8 - 2 drives of 2.4 TB: 33.6 + 14.4 TB.
    assert amounts(found, "P2")["usable"] == pytest.approx((48.0, 33.6))


def test_the_first_processor_takes_the_machine_with_it() -> None:
    found = graph(*N4)
    assert not lost_with(found, ["P1"]).starts
    assert amounts(found, "P1")["memory"] == (1024, 0)


def test_either_supply_of_the_record_office_is_fatal_at_120_volts() -> None:
    """1,159 W on supplies of 1,000 W: both are needed. At peak there is nothing to spare before."""
    found = graph(*N4)
    assert {"PS.1", "PS.2", "PS.1.cord", "PS.2.cord", "feed"} <= set(single_points(found, STARTS))
    lost = lost_with(found, ["PS.1"])
    assert not lost.starts
    assert [each.function.key for each in lost.never if not each.covered][:1] == ["power.redundant"]


def test_two_drives_of_an_array_may_go_and_a_third_takes_the_data() -> None:
    found = graph(*N4)
    assert gone(found, "A.1") == {"whole.R1b.sas-2400"}
    assert gone(found, "A.1", "B.2") == {"whole.R1b.sas-2400", "spare.R1b.sas-2400"}
    assert "data.R1b.sas-2400" in gone(found, "A.1", "B.2", "A.3")
    # Drives behind the other controller are of another array.
    assert "spare.R1b.sas-2400" not in gone(found, "A.1", "C.1", "C.2")


def test_a_cage_hides_its_drives_and_keeps_their_data() -> None:
    found = graph(*N4)
    for thing in ("A", "A.cable"):
        assert "array.R1b.sas-2400" in gone(found, thing)
        assert "data.R1b.sas-2400" not in gone(found, thing)
        assert amounts(found, thing)["drives"] == (24, 16)


def test_a_pool_is_the_reason_why_a_lost_drive_of_the_clinics_costs_no_data() -> None:
    found = graph(*N2)
    (first, *_) = lost_with(found, ["A.1"]).gone
    assert first.function.key == "drives.direct.fast-7680"
    assert [ground.key for ground in first.grounds] == ["losing.pool"]
    assert found.opens == ()


def test_feeds_of_the_clinics() -> None:
    """One supply on each of two feeds, and one carries 1,328 W of 2,000."""
    found = graph(*N2)
    assert not lost_with(found, ["feed.A"]).stops
    assert gone(found, "feed A") == {"power.redundant", "power.feeds"}
    assert set(next_points(found, ["feed.A"])) == {"feed.B", "PS.2", "PS.2.cord"}
    assert ("feed.A", "PS.2") in pairs(found)
    assert ("PS.1", "feed.B") in pairs(found) or ("feed.B", "PS.1") in pairs(found)
    assert lost_with(found, ["feed.A", "feed.B"]).stops
    assert not lost_with(found, ["feed.A", "feed.B"]).starts


def test_network_of_the_clinics() -> None:
    """O2 has a chip of its own at processor 2: with P2 its two ports go, and O1 stays."""
    found = graph(*N2)
    assert amounts(found, "P2")["network.ports"] == (4, 2)
    assert amounts(found, "O1.chip.1")["network.rate"] == (100, 50)
    assert "network" not in gone(found, "O1")
    assert "network" in gone(found, "O1", "O2.chip.1")
    assert "management" not in gone(found, "O1")


def test_management_that_is_shared_goes_with_the_port() -> None:
    found = graph(*N1)
    for thing in ("O1.port.1", "O1.chip.1", "O1"):
        assert "management" in gone(found, thing)
    assert "management" not in gone(found, "O1.port.2")
    # It runs on standby power, so the processor takes the port of the system and leaves this.
    assert "management" not in gone(found, "P1")


def test_boot_cards_are_mirrored() -> None:
    found = graph(*N2)
    assert gone(found, "BOOT.card.1") == {"boot.mirrored"}
    assert not lost_with(found, named(found, "BOOT")).starts


def test_fans_and_boards_of_the_quarry() -> None:
    """N3: eight fans carry 5,000 W at 2,300 m and seven 4,375 W, less than 4,399 W: each is fatal,
    and there is no fan to spare before. A switch board takes four accelerators, a feed none."""
    found = graph(*N3)
    assert {f"F.{i}" for i in range(1, 9)} <= set(single_points(found, STARTS))
    assert any(each.function.key == "air.redundant" for each in lost_with(found, []).never)
    assert amounts(found, "X1")["accelerators"] == (8, 4)
    assert amounts(found, "link.switch-2")["accelerators"] == (8, 4)
    assert amounts(found, "X1.3")["accelerators"] == (8, 7)
    assert not lost_with(found, ["feed.A"]).stops
    # Exactly two processors: with either the machine is down.
    assert {"P1", "P2"} <= set(single_points(found, STARTS))
    assert amounts(found, "feed A")["power"] == (10_800, 5_400)


def test_lanes_and_cards_of_the_college() -> None:
    found = graph("f1", "n5-wanted")
    assert {"card.R1a", "controller.R1b"} <= gone(found, "link.riser-1")
    assert {"card.R1a", "controller.R1b"} <= gone(found, "riser 1")
    assert gone(found, "R1a") == {"card.R1a"}
    assert gone(found, "riser 1") == gone(found, "R1a", "R1b")


def test_everything_goes_with_the_room() -> None:
    for book, build in (N1, N2, N3, N4):
        found = graph(book, build)
        kept = {
            each.key
            for each in found.functions
            if not each.key.startswith(("data.", "power.", "air.", "boot."))
        }
        held = kept - {each.function.key for each in lost_with(found, []).never}
        assert held <= gone(found, "room")


# --- parts that no customer's build has -----------------------------------------------------


def changed(places: Mapping[str, object], **settings: str) -> Graph:
    """Return the graph of the record office's build with other parts in some places."""
    asked = read(*N4)
    other = {
        **{name: fitted for name, fitted in asked.places.items() if name not in places},
        **places,
    }
    build = Build.model_validate(
        {"book": "f2", "name": "changed", "places": other, "settings": settings}
    ).model_copy(update={"site": asked.site})
    return graph_in(machine_for("f2"), build)[1]


def test_without_its_pack_a_controller_writes_through() -> None:
    """K1 serves riser 1; the controller of riser 3 has no pack and writes through all the time."""
    found = changed({"K1": "pack"})
    assert gone(found, "K1") == {"cache.R1b"}
    assert {"cache.R1b", "controller.R1b"} <= gone(found, "R1b")
    never = {each.function.key for each in lost_with(found, []).never}
    assert "cache.R3b" in never
    assert "cache.R1b" not in never


def test_enclosures_outside_hang_on_each_other_and_on_their_controller() -> None:
    found = changed({"R1a": "X8"})
    keys = {f"external.R1a.chain.{c}.enclosure.{e}" for c in (1, 2) for e in (1, 2)}
    assert keys | {"controller.R1a"} <= gone(found, "R1a")
    first = "R1a.chain.1.enclosure.1"
    assert gone(found, first) == {f"external.R1a.chain.1.enclosure.{e}" for e in (1, 2)}
    assert gone(found, "R1a.chain.2.enclosure.2") == {"external.R1a.chain.2.enclosure.2"}
    assert len(named(found, "R1a.chain.1")) == 2


def test_a_wide_accelerator_needs_its_cable_kit() -> None:
    found = changed({"R1a": "accel-dw", "R1b": "empty", "A": "blank", "B": "blank"})
    assert gone(found, "R1a.cable-kit") == {"card.R1a"}
    assert amounts(found, "R1a.cable-kit")["accelerators"] == (1, 0)


def test_fixed_drives_hang_on_their_connector() -> None:
    """Four drives on one on-board connector, without a controller, and no lanes used."""
    fixed = {"A": {"cage": "F4", "drives": "4 x sata-960"}, "B": "blank", "R1b": "empty"}
    found = changed(fixed, variant="fixed")
    assert "array.direct.sata-960" in gone(found, "A.connector")
    assert "data.direct.sata-960" not in gone(found, "A.connector")
    assert "link.zone-a" not in found.ids
    assert {"data.direct.sata-960", "array.direct.sata-960"} <= gone(found, "A.1", "A.2", "A.3")


def test_the_fault_display_takes_its_lights_with_it() -> None:
    found = changed({"C": "display", "R3b": "empty"})
    (shown,) = lost_with(found, ["C"]).gone
    assert shown.function.key == "display.C"
    assert "display-memory" in shown.function.lost


def test_a_stick_is_not_mirrored() -> None:
    found = changed({"BOOT": "usb-stick"})
    assert "BOOT" in single_points(found, STARTS)
    assert not any(each.key == "boot.mirrored" for each in found.functions)


@pytest.mark.parametrize("book", ["f2", "f1", "l4", "p1"])
@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 10_000), data=st.data())
def test_losing_more_restores_nothing_in_random_builds(
    book: str, seed: int, data: st.DataObject
) -> None:
    likes = {"f2": "n4", "f1": "n5-owned", "l4": "n3", "p1": "n1"}
    found = random_graph(book, seed, likes[book])
    lost, more = (data.draw(st.frozensets(st.sampled_from(found.ids))) for _ in range(2))
    fewer, all_of_them = lost_with(found, lost), lost_with(found, lost | more)
    keys = {each.function.key for each in fewer.gone}
    assert keys <= {each.function.key for each in all_of_them.gone}
    for before, after in zip(fewer.amounts, all_of_them.amounts, strict=True):
        assert after.after <= before.after + 1e-9


# --- names ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "number"),
    [("M1", 8), ("R1b", 1), ("A.3", 1), ("feed", 1), ("C16", 2), ("A", 1), ("F", 6), ("PS", 4)],
)
def test_names_stand_for_things(text: str, number: int) -> None:
    assert len(named(graph(*N4), text)) == number


def test_an_unknown_name_is_answered_with_the_nearest() -> None:
    with pytest.raises(Problems, match=r"Nothing in this build is called 'R1bb'.*'R1b'"):
        named(graph(*N4), "R1bb")


def test_what_others_wrote_leaves_fans_and_failures_open() -> None:
    opens = {each.what for each in graph("t4", "big").opens}
    assert "how many fans may fail" in opens
    assert any(what.startswith("what a loss costs of the data") for what in opens)
    assert [each.what for each in graph("r0", "pump").opens] == [
        "how many supplies may fail",
        "how many fans may fail",
    ]

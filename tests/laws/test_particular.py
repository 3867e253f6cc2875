"""Corners of the laws that random books reach seldom, each with what is and is not legal there."""

from __future__ import annotations

from collections import Counter
from typing import Any

from tests.laws.features import bare
from tests.laws.plain import Built
from tests.laws.random_books import SEA_LEVEL, sample
from tests.laws.random_terms import Raw
from tests.laws.test_against_oracle import check


def legal_builds(raw: Raw) -> list[Built]:
    """Return the legal builds of a draft; the oracle has to agree."""
    book = sample(raw, SEA_LEVEL, {})
    check(book)
    return [book.subject(values).built for values in book.legal()]


def contents(builds: list[Built], *places: str) -> set[tuple[tuple[str, ...], ...]]:
    """Return the combinations of what is in some places, parts by name, each as often as fitted."""
    return {tuple(tuple(sorted(b.parts[p].elements())) for p in places) for b in builds}


def with_sockets(number: int, **part: Any) -> Raw:
    raw = bare()
    raw["parts"]["cpu-a"].update(part)
    for socket in range(2, number + 1):
        raw["places"][f"P{socket}"] = {"type": "socket", "name": f"processor {socket}"}
    raw["processors"]["counts"] = list(range(1, number + 1))
    return raw


def bank(owner: str) -> Raw:
    held = {"type": "bank", "name": f"memory of {owner}", "owner": owner}
    return {**held, "channels": 1, "per_channel": 1, "counts": [1]}


def module(name: str, size: str = "8 GB") -> Raw:
    return {"kind": "memory", "name": name, "size": size}


def test_banks_agree_though_an_empty_one_is_listed_between_them() -> None:
    raw = with_sockets(3)
    raw["places"] |= {"M1": bank("P1"), "M3": bank("P3"), "M2": bank("P2")}
    raw["parts"] |= {"dimm-a": module("a"), "dimm-b": module("b", "16 GB")}
    raw["memory"] = {"speeds": [], "one_size": "yes"}
    pairs = {row for row in contents(legal_builds(raw), "M1", "M2", "M3") if row[1] and not row[2]}
    assert pairs == {(("dimm-a",), ("dimm-a",), ()), (("dimm-b",), ("dimm-b",), ())}


def test_a_processor_may_leave_one_of_its_banks_empty_but_not_both() -> None:
    raw = with_sockets(1)
    raw["places"] |= {"M1": bank("P1"), "M1b": bank("P1")}
    raw["parts"]["dimm-a"] = module("a")
    one = ("dimm-a",)
    assert contents(legal_builds(raw), "M1", "M1b") == {(one, ()), ((), one), (one, one)}


def test_processors_with_two_banks_fill_the_same_ones() -> None:
    raw = with_sockets(2)
    raw["processors"]["counts"] = [2]
    raw["places"] |= {name: bank(f"P{name[1]}") for name in ("M1", "M1b", "M2", "M2b")}
    raw["parts"]["dimm-a"] = module("a")
    raw["memory"] = {"speeds": [], "same_everywhere": "yes"}
    rows = contents(legal_builds(raw), "M1", "M1b", "M2", "M2b")
    assert len(rows) == 3
    assert all(row[:2] == row[2:] for row in rows)


def with_link(**link: Any) -> Raw:
    raw = with_sockets(2, lanes=4)
    raw["parts"]["cpu-b"] = {"kind": "processor", "name": "b", "cores": 8, "tdp": "60 W"}
    raw["parts"]["card-a"] = {"kind": "card", "name": "card", "lanes": 8}
    raw["places"]["S1"] = {"type": "slot", "name": "slot", "takes": ["card"], "owner": "P1"}
    raw["links"] = {"link": {"owner": "P1", "lanes": 8, "feeds": ["S1"], **link}}
    return raw


def test_a_processor_that_states_no_lanes_is_not_limited_by_those_of_another() -> None:
    rows = contents(legal_builds(with_link()), "P1", "S1")
    assert rows == {(("cpu-a",), ()), (("cpu-b",), ()), (("cpu-b",), ("card-a",))}


def test_a_switch_asks_for_its_link_only_where_there_is_a_processor() -> None:
    raw = with_link(owner="P2", switched="yes")
    rows = contents(legal_builds(raw), "P1", "P2")
    assert (("cpu-a",), ()) in rows
    assert (("cpu-a",), ("cpu-a",)) not in rows
    assert (("cpu-b",), ("cpu-b",)) in rows


def test_a_cage_of_one_kind_of_drive_stays_so_where_a_mixed_one_would_fit_too() -> None:
    raw = bare()
    for name, mixed in (("cage-a", "yes"), ("cage-b", "no")):
        cage = {"kind": "cage", "name": name, "bays": 2, "holds": ["fast"], "mixed": mixed}
        raw["parts"][name] = cage
    for name in ("fast-a", "fast-b"):
        drive = {"kind": "drive", "name": name, "interface": "fast", "capacity": "2 TB"}
        raw["parts"][name] = drive
    raw["places"]["A"] = {"type": "zone", "name": "zone A", "takes": ["cage"]}
    rows = contents(legal_builds(raw), "A")
    assert (("cage-a", "fast-a", "fast-b"),) in rows
    assert (("cage-b", "fast-a", "fast-b"),) not in rows
    assert (("cage-b", "fast-b", "fast-b"),) in rows


def test_two_packs_never_share_a_controller_that_both_could_serve() -> None:
    raw = bare()
    flush = {"size": "8 GB", "rate": "0.25 GB/s", "power": "11 W"}
    raw["parts"] |= {
        "ctl-a": {"kind": "controller", "name": "controller", "flush": flush},
        "pack-a": {"kind": "pack", "name": "pack"},
    }
    for name in ("S1", "S2", "S3"):
        raw["places"][name] = {"type": "slot", "name": name, "takes": ["controller"]}
    for name, serves in (("K1", ["S1", "S2"]), ("K2", ["S2", "S3"])):
        raw["places"][name] = {"type": "mount", "name": name, "serves": serves}
    packs = (("pack-a",), ("pack-a",))
    both = {
        row[2:]
        for row in contents(legal_builds(raw), "K1", "K2", "S1", "S2", "S3")
        if row[:2] == packs
    }
    controllers = {Counter(len(slot) for slot in row)[1] for row in both}
    assert controllers == {2, 3}
    assert ((), ("ctl-a",), ()) not in both


def test_a_part_is_not_fitted_before_what_it_brings_can_be_ordered() -> None:
    raw = bare()
    raw["parts"] |= {
        "card-a": {"kind": "card", "name": "card", "brings": {"cable": 1}},
        "cable": {"kind": "kit", "name": "cable", "ships": "2031-08-15"},
    }
    raw["places"]["S1"] = {"type": "slot", "name": "slot", "takes": ["card"]}
    assert contents(legal_builds(raw), "S1") == {((),)}

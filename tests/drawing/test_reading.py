"""A picture and a table cannot disagree: what is read from a drawing is what the build says."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.desk.drawing import as_build
from baywright.desk.random_builds import Draw, random_builds
from baywright.drawing.contents import State, contents
from baywright.drawing.draw import drawn
from baywright.drawing.reading import lines_shown, parts_shown, shown
from baywright.drawing.registry import VIEWS
from baywright.drawing.sheet import Layout
from baywright.facts.build import Build, Fitted, Item
from baywright.facts.places import Bank, Supplies, Zone
from baywright.laws.builds import codes_of, parts_list

from .sheets import BOOKS, builds, opened, written_builds

DAY = "2031-07-01"


def _stated(build: Build, places: set[str]) -> Counter[str]:
    """Return the parts that a build file says are in some places."""
    said: Counter[str] = Counter()
    for name in places & set(build.places):
        for item in build.places[name].items:
            said[item.part] += item.count
    return said


def _drawn_places(book: str, view: str) -> set[str]:
    facts = opened(book).book
    return {name for name, place in facts.places.items() if any(o.view == view for o in place.at)}


@pytest.mark.parametrize("view", ["front", "rear", "inside"])
@pytest.mark.parametrize("book", BOOKS)
def test_a_view_shows_the_parts_that_the_build_has_in_its_places(book: str, view: str) -> None:
    facts, places = opened(book).book, _drawn_places(book, view)
    for build in builds(book):
        if build is not None:
            assert parts_shown(drawn(view, facts, build, DAY)) == _stated(build, places)


@pytest.mark.parametrize("book", BOOKS)
def test_all_views_together_show_every_part_of_the_parts_list(book: str) -> None:
    machine = opened(book).machine
    for build in written_builds(book):
        seen: dict[str, Counter[str]] = {}
        for view in ("front", "rear", "inside", "side"):
            for name, each in shown(drawn(view, machine.book, build, DAY)).items():
                seen[name] = Counter(each.parts)
        wanted = parts_list(machine, codes_of(machine, build))
        total = sum(_once(book, seen), Counter[str]())
        kits = {name for part in machine.book.parts.values() for name in part.brings}
        for part, number in wanted.items():
            if part not in kits:
                assert total[part] == number, (build.name.known, part)


def _once(book: str, seen: dict[str, Counter[str]]) -> list[Counter[str]]:
    """Return what is seen, a place drawn as one left out where its positions are drawn."""
    units = {name.partition(".")[0] for name in seen if "." in name}
    zones = opened(book).book.places_of(Zone)
    return [parts for name, parts in seen.items() if name not in units or name in zones]


@settings(max_examples=40)
@given(number=st.integers(0, 19), book=st.sampled_from(BOOKS), view=st.sampled_from(tuple(VIEWS)))
def test_random_builds_are_drawn_as_they_are(number: int, book: str, view: str) -> None:
    facts, build = opened(book).book, _at_random(book)[number]
    held = contents(facts, build)
    units = {unit.id: unit for each in held.values() for unit in each.units}
    for name, each in shown(drawn(view, facts, build, DAY, Layout(900.0))).items():
        if name in units and name not in held:
            assert (each.state, "".join(each.parts)) == (units[name].state.value, units[name].part)
        elif name in held and view != "feeds":
            assert set(each.parts) <= {item.part for item in build.places[name].items}


@cache
def _at_random(book: str) -> tuple[Build, ...]:
    desk = opened(book)
    found = random_builds(desk, Draw(20, seed=5)).builds
    return tuple(as_build(desk.machine, each.values, "random") for each in found)


def test_memory_fills_each_channel_before_any_second_socket() -> None:
    book, build = opened("f2").book, written_builds("f2")[1]
    found = shown(drawn("memory", book, build, DAY))
    filled = [name for name, each in found.items() if each.parts == ("dimm-64",)]
    assert filled == [f"{bank}.{channel}1" for bank in ("M1", "M2") for channel in "abcdefgh"]


def test_the_memory_view_has_a_socket_for_each_module_the_book_takes() -> None:
    for book in BOOKS:
        found = shown(drawn("memory", opened(book).book, None, DAY))
        banks = opened(book).book.places_of(Bank).values()
        sockets = sum(bank.channels.known * bank.per_channel.known for bank in banks)
        assert len(found) == sockets


def test_each_cable_of_the_build_is_drawn_and_no_other() -> None:
    for book in BOOKS:
        for build in written_builds(book):
            svg = drawn("cabling", opened(book).book, build, DAY)
            cables = {name for name in lines_shown(svg) if name.startswith("cable.")}
            led = {name for name, fitted in build.places.items() if fitted.controller}
            assert cables == {f"cable.{name}" for name in led}


def test_each_supply_hangs_on_a_feed_where_the_site_has_feeds() -> None:
    for book in BOOKS:
        for build in written_builds(book):
            svg = drawn("feeds", opened(book).book, build, DAY)
            (place,) = opened(book).book.places_of(Supplies).values()
            cords = [name for name in lines_shown(svg) if name.startswith("cord.")]
            fitted = place.positions.known if build.site.feeds or place.feeds else 0
            assert len(cords) == fitted


def test_a_wide_card_takes_the_slot_beside_it() -> None:
    (build, *_) = written_builds("f2")
    wide = {**build.places, "R1a": Fitted((Item("accel-dw", 1),))}
    assert build.places["R1b"].items == ()
    svg = drawn("rear", opened("f2").book, build.model_copy(update={"places": wide}), DAY)
    assert shown(svg)["R1b"].state == State.TAKEN.value


def test_a_place_of_which_the_build_says_nothing_is_open() -> None:
    (build, *_) = written_builds("f2")
    part = build.model_copy(update={"places": {"P1": build.places["P1"]}})
    found = shown(drawn("inside", opened("f2").book, part, DAY))
    assert found["P1"].state == "fitted"
    assert found["K1"].state == "open"
    assert found["A"].state == "open"


def test_parts_without_a_position_are_said_and_not_lost() -> None:
    (build, *_) = written_builds("f2")
    many = {**build.places, "K1": Fitted((Item("pack", 2),))}
    svg = drawn("inside", opened("f2").book, build.model_copy(update={"places": many}), DAY)
    assert "no position is left in pack mount near riser 1: energy pack" in " ".join(svg.split())


def test_interlocks_are_drawn_where_the_book_has_them() -> None:
    found = shown(drawn("inside", opened("f2").book, None, DAY))
    assert [name for name in found if name.startswith("interlock")] == ["interlock-guide-unseated"]


def test_a_zone_that_no_line_leaves_is_explained() -> None:
    said = {
        book: drawn("cabling", opened(book).book, written_builds(book)[0], DAY, Layout(3000.0))
        for book in ("p1", "f2")
    }
    assert "data bays: its cage is on the on-board connector, lanes: 2." in said["p1"]
    assert "not stated" not in said["f2"]

"""Plans for the bundled machines: the best of all, never open under power, put back in full."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations_with_replacement

import pytest

from baywright.desk.service.access import AccessRequest
from baywright.facts.access import CORDS, POWER
from baywright.facts.fact import Fact
from baywright.files.books import bundled_books
from baywright.service.access.graph import Graph
from baywright.service.access.interior import Interior
from baywright.service.access.moves import Move
from baywright.service.access.search import shortest
from tests.service.access.brute import cost_of, exhaustive
from tests.service.access.machines import build, graph, opened

BUILDS = {"f2": "n4", "p1": "n1"}


def filled(book: str) -> list[str]:
    """Return the places of a build that have something in them."""
    places = build(book, BUILDS[book]).places
    return [name for name, fitted in places.items() if fitted.items]


def several(book: str) -> list[tuple[str, ...]]:
    """Return every place, every pair, and every place twice that has two parts alike."""
    held = build(book, BUILDS[book]).places
    pairs = combinations_with_replacement(filled(book), 2)
    # Named alone, a zone means its drives and any other place its first part.
    twice = {name for name in held if any(item.count > 1 for item in held[name].items)}
    singles = [(name,) for name in filled(book)]
    return [*singles, *(pair for pair in pairs if len(set(pair)) == 2 or pair[0] in twice)]


@pytest.mark.parametrize("book", BUILDS)
@pytest.mark.parametrize("volts", ["120 V", "230 V"])
def test_every_place_and_every_pair_has_the_best_of_all_plans(book: str, volts: str) -> None:
    for places in several(book):
        if volts == "120 V" and "PS" not in places:
            # Only the supplies depend on the voltage.
            continue
        _, _, net = graph(book, BUILDS[book], places, volts=volts)
        found = shortest(net)
        assert found is not None, places
        assert cost_of(net, found) == exhaustive(net), places


@pytest.mark.parametrize("book", BUILDS)
def test_no_other_order_of_putting_back_is_better(book: str) -> None:
    for place in filled(book):
        _, _, net = graph(book, BUILDS[book], (place,), volts="230 V")
        assert exhaustive(net) == exhaustive(net, reverse=False), place


@pytest.mark.parametrize("book", BUILDS)
@pytest.mark.parametrize("volts", ["120 V", "230 V"])
def test_nothing_is_open_under_power_that_the_book_forbids(book: str, volts: str) -> None:
    for places in several(book):
        interior, _, net = graph(book, BUILDS[book], places, volts=volts)
        off = _follow(interior, net, shortest(net) or ())
        assert off == [], places


def _follow(interior: Interior, net: Graph, moves: Sequence[Move]) -> list[str]:
    """Go through a plan with the book beside it, and return what is off at its end.

    What the book says is read here once more. What goes back is what came off last.
    """
    off: list[str] = []
    open_for = 0.0
    for move in moves:
        runs = POWER not in off
        open_for += _seconds(net, move) if runs and "cover" in (move.name, *off) else 0.0
        if move.kind == "out":
            assert not runs or move.name == POWER or _may_be_off(interior, move.name), move
            off.append(move.name)
        elif move.kind == "back":
            assert off.pop() == move.name
            assert move.name != POWER or all(_may_be_off(interior, name) for name in off)
        else:
            assert not runs or _may_be_done(interior, move.name), move
        limit = interior.book.air.cover_off
        open_for = open_for if "cover" in off else 0.0
        assert limit is None or open_for <= float(limit.known.to("s"))
    return off


def _seconds(net: Graph, move: Move) -> float:
    if move.kind == "work":
        return float(net.jobs[move.name].time)
    barrier = net.barriers[move.name]
    return float(barrier.out if move.kind == "out" else barrier.back)


def _may_be_off(interior: Interior, name: str) -> bool:
    if name == CORDS:
        return False
    step = interior.book.service.access[name]
    cuts = any(interior.book.interlocks[key].while_ == "running" for key in step.interlocks)
    carried = not _says_yes(step.carried) or interior.given.carry.holds is True
    return _says_yes(step.running) and not cuts and carried


def _may_be_done(interior: Interior, job: str) -> bool:
    part = interior.book.parts[job.partition(":")[2]]
    carried = part.kind != "supply" or interior.given.carry.holds is True
    return _says_yes(interior.book.service.work[part.kind].running) and carried


def _says_yes(fact: Fact[bool] | None) -> bool:
    return fact is not None and fact.value is True


def names(book: str, *places: str, volts: str = "") -> list[str]:
    """Return what comes off for some places, in order."""
    _, _, net = graph(book, BUILDS[book], places, volts=volts)
    return [move.name for move in shortest(net) or () if move.kind == "out"]


def test_one_fan_is_changed_while_the_f2_runs_and_two_are_not() -> None:
    assert names("f2", "F") == ["slides", "cover"]
    assert names("f2", "F", "F") == ["slides", POWER, CORDS, "cover"]


def test_a_supply_is_changed_while_the_other_carries_the_load() -> None:
    # 1,159 W at peak; one of 1300 W gives 1,000 W at 120 V (demo scenario).
    assert names("f2", "PS", volts="230 V") == ["supply cord"]
    assert names("f2", "PS", volts="120 V") == [POWER, CORDS]


def test_the_p1_is_stopped_before_its_cover_switch_stops_it() -> None:
    assert names("p1", "F") == [POWER, CORDS, "wall kit", "cover"]


def test_a_riser_is_held_by_a_second_person_or_lifted_without_its_cables() -> None:
    way_in = ["slides", POWER, CORDS, "cover", "air guide"]
    assert names("f2", "R1b") == [*way_in, "riser 1 held", "riser 1"]
    alone = AccessRequest(("R1b",), people=1)
    _, _, net = graph("f2", "n4", ("R1b",), alone)
    off = [move.name for move in shortest(net) or () if move.kind == "out"]
    assert off == [*way_in, "riser 1 cables", "riser 1"]


@pytest.mark.parametrize("book", bundled_books())
def test_the_steps_in_sum_are_the_stop_and_the_start_of_the_book(book: str) -> None:
    service = opened(book).book.service
    if service.stop is None or service.start is None:
        assert book in ("l4", "p1")
        return
    outer = [service.access[name] for name in (POWER, CORDS, "slides", "cover")]
    there = sum(step.time.known.to("s") for step in outer if step.time)
    back = [step.back or step.time for step in outer]
    assert there == service.stop.known.to("s")
    assert sum(time.known.to("s") for time in back if time) == service.start.known.to("s")

"""The tour against every feasible order: it is never beaten, in any of its three costs."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator, Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.desk.walk.stations import stations
from baywright.desk.walk.tour import NEVER_TOO_OPEN, Cost, Side, Stop, best_tour, cost_of
from baywright.files.books import find_book, read_book
from baywright.problems import Problems

SIDES: tuple[Side, ...] = ("front", "rear", "inside")


@st.composite
def stops(draw: st.DrawFn, most: int = 6) -> list[Stop]:
    """Draw stops; each may wait for some of those drawn before it."""
    found: list[Stop] = []
    for number in range(draw(st.integers(1, most))):
        off = draw(st.integers(0, 3))
        open_to = draw(st.sampled_from([off, off + 1, NEVER_TOO_OPEN]))
        after = tuple(each.key for each in found if draw(st.integers(0, 5)) == 0)
        point = tuple(draw(st.integers(0, 50)) for _ in range(3))
        side = draw(st.sampled_from(SIDES))
        found.append(Stop(str(number), side, (point[0], point[1], point[2]), off, open_to, after))
    return found


def feasible(held: Sequence[Stop]) -> Iterator[tuple[Stop, ...]]:
    """Yield every order in which no stop comes too early or too late."""
    for order in itertools.permutations(held):
        seen: set[str] = set()
        off = 0
        for stop in order:
            off = max(off, stop.off)
            if off > stop.off_most or not seen.issuperset(stop.after):
                break
            seen.add(stop.key)
        else:
            yield order


@given(stops())
def test_no_order_costs_less(held: list[Stop]) -> None:
    costs = [cost for order in feasible(held) if (cost := cost_of(order)) is not None]
    if not costs:
        with pytest.raises(Problems):
            best_tour(held)
        return
    tour = best_tour(held)
    assert tour.cost == min(costs) == cost_of(tour.order)
    assert sorted(stop.key for stop in tour.order) == sorted(stop.key for stop in held)


def least(held: Sequence[Stop]) -> Cost:
    """Return the least cost by going through all orders, stop by stop."""
    best: list[Cost] = []

    def extend(order: tuple[Stop, ...], rest: frozenset[Stop]) -> None:
        if not rest:
            cost = cost_of(order)
            if cost is not None:
                best[:] = [min([cost, *best])]
            return
        waiting = {stop.key for stop in rest}
        for stop in rest:
            if not waiting.intersection(stop.after) and cost_of((*order, stop)) is not None:
                extend((*order, stop), rest - {stop})

    extend((), frozenset(held))
    return best[0]


@pytest.mark.parametrize("book", ["f2", "f1", "l4", "p1"])
def test_the_tour_over_nine_stations_of_a_book_is_the_best_of_all_orders(book: str) -> None:
    held = [each.stop for each in stations(read_book(find_book(book)))]
    rest = sorted((each for each in held if each.key != "machine"), key=lambda each: each.key)
    chosen = random.Random(9).sample(rest, 8)  # noqa: S311 - a sample, and no secret
    nine = [next(each for each in held if each.key == "machine"), *chosen]
    assert best_tour(nine).cost == least(nine)


def test_what_is_off_stays_off() -> None:
    tour = best_tour([each.stop for each in stations(read_book(find_book("f2")))])
    off = 0
    for stop in tour.order:
        off = max(off, stop.off)
        assert off <= stop.off_most
    assert tour.cost.covers == 2 * off


def test_stops_that_wait_for_each_other_have_no_tour() -> None:
    held = [
        Stop("a", "front", (0, 0, 0), after=("b",)),
        Stop("b", "front", (0, 0, 0), after=("a",)),
    ]
    with pytest.raises(Problems) as raised:
        best_tour(held)
    assert raised.value.problems[0].kind == "no-tour"


def test_too_many_stops_are_refused() -> None:
    with pytest.raises(Problems) as raised:
        best_tour([Stop(str(n), "front", (n, 0, 0)) for n in range(19)])
    assert raised.value.problems[0].kind == "too-many-stops"

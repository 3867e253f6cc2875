"""Plans on random graphs against plain enumeration, and what makes a plan a plan."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.service.access.graph import FREE, Barrier, Graph, Job, both, needed_by_all
from baywright.service.access.moves import Least, Move
from baywright.service.access.search import OutOfStatesError, shortest
from tests.service.access.brute import cost_of, exhaustive, sequences

NAMES = ["power", "a", "b", "c", "d"]
TIMES = st.sampled_from([Fraction(0), Fraction(1), Fraction(3, 2), Fraction(4)])


def ways(names: list[str]) -> st.SearchStrategy[tuple[frozenset[str], ...]]:
    """Ways through some barriers: none at all, free, one or two."""
    way = st.frozensets(st.sampled_from(names), max_size=2) if names else st.just(frozenset())
    return st.lists(way, max_size=2, unique=True).map(tuple)


@st.composite
def graphs(draw: st.DrawFn, *, limits: bool = True, jobs: int = 3) -> Graph:
    barriers = {"power": Barrier(FREE, draw(TIMES), draw(TIMES))}
    for name in NAMES[1 : draw(st.integers(1, len(NAMES)))]:
        # Any other barrier may stand before it, so that there are circles and dead ends as well.
        others = [each for each in NAMES if each != name]
        longest = draw(st.none() | st.sampled_from([Fraction(2), Fraction(6)])) if limits else None
        silent = draw(st.booleans())
        held = draw(ways(others))
        barriers[name] = Barrier(held, draw(TIMES), draw(TIMES), longest, silent)
    work = {
        f"job {at}": Job(draw(ways(NAMES)), draw(TIMES), draw(st.integers(1, 2)))
        for at in range(draw(st.integers(1, jobs)))
    }
    return Graph(barriers, work)


@given(graphs(), st.sampled_from(["time", "off"]))
def test_a_plan_costs_what_the_best_of_all_does(graph: Graph, least: Least) -> None:
    found = shortest(graph, least)
    best = exhaustive(graph, least)
    assert (found is None) == (best is None)
    assert found is None or cost_of(graph, found, least) == best


@given(graphs(jobs=1))
def test_no_sequence_of_steps_is_better(graph: Graph) -> None:
    found = shortest(graph)
    most = len(found) if found else 6
    if most <= 7:
        costs = [cost_of(graph, moves) for moves in sequences(graph, most)]
        assert costs if found else not costs
        assert found is None or cost_of(graph, found) == min(costs)


@given(graphs(limits=False))
def test_another_order_of_putting_back_is_no_better_without_limits(graph: Graph) -> None:
    assert exhaustive(graph) == exhaustive(graph, reverse=False)


@given(graphs(), st.sampled_from(["time", "off"]))
def test_what_comes_off_goes_back_in_reverse(graph: Graph, least: Least) -> None:
    stack: list[str] = []
    for move in shortest(graph, least) or ():
        if move.kind == "out":
            stack.append(move.name)
        elif move.kind == "back":
            assert stack.pop() == move.name
    assert stack == []


@given(graphs())
def test_what_is_needed_on_all_ways_is_in_every_plan(graph: Graph) -> None:
    found = shortest(graph)
    if found is not None:
        off = {move.name for move in found if move.kind == "out"}
        needs = needed_by_all(graph)
        assert set().union(*(needs[f"job: {name}"] for name in graph.jobs)) <= off


def test_of_equal_times_the_plan_with_fewer_steps_is_taken() -> None:
    cover = Barrier(FREE, Fraction(1), Fraction(1))
    graph = Graph(
        {"a": cover, "b": cover, "c": Barrier(FREE, Fraction(2), Fraction(2))},
        {"job": Job((frozenset("ab"), frozenset("c")), Fraction(1))},
    )
    assert shortest(graph) == (Move("out", "c"), Move("work", "job"), Move("back", "c"))


def test_two_parts_behind_one_cover_share_its_opening() -> None:
    graph = Graph(
        {"cover": Barrier(FREE, Fraction(5), Fraction(5))},
        {"one": Job((frozenset({"cover"}),), Fraction(1)), "two": Job(FREE, Fraction(1))},
    )
    found = shortest(graph)
    assert found is not None
    assert [move.kind for move in found].count("out") == 1


def test_a_limit_that_holds_one_job_and_not_two_opens_twice() -> None:
    cover = Barrier(FREE, Fraction(15), Fraction(15), Fraction(90))
    behind = (frozenset({"cover"}),)
    power = Barrier(FREE, Fraction(600), Fraction(600))
    graph = Graph({"power": power, "cover": cover}, {"fan": Job(behind, Fraction(50), 2)})
    found = shortest(graph)
    assert found is not None
    assert [move.name for move in found] == ["cover", "fan", "cover"] * 2
    assert cost_of(graph, found)[0] == 160


def test_more_states_than_allowed_are_not_gone_through() -> None:
    barriers = {str(i): Barrier(FREE, Fraction(i + 1), Fraction(1)) for i in range(8)}
    # Each job can be done behind any of three, so no barrier is needed by all ways.
    jobs = {
        str(i): Job(tuple(frozenset({str((i + k) % 8)}) for k in range(3)), Fraction(1))
        for i in range(8)
    }
    with pytest.raises(OutOfStatesError):
        shortest(Graph(barriers, jobs), most=20)


def test_ways_to_two_things_are_all_pairs() -> None:
    first, second = (frozenset("a"), frozenset("b")), (frozenset("b"), frozenset("c"))
    assert set(both(first, second)) == {
        frozenset("ab"),
        frozenset("ac"),
        frozenset("b"),
        frozenset("bc"),
    }

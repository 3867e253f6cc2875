"""The order of checks against every order there is, on small random tasks."""

from __future__ import annotations

import math
from collections.abc import Hashable
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.service.faults import search
from baywright.service.faults.search import Look, Search, Task, entropy, information_bound, solve
from baywright.service.faults.tree import minutes_to, nodes_of, tree_of


def every_order(task: Task) -> float:
    """Return the least expected minutes, by trying every check in every set of faults."""

    @cache
    def least(left: frozenset[int], looks: frozenset[int]) -> float:
        if all(task.minutes[i] is None for i in left):
            return 0.0
        whole = sum(task.weights[i] for i in left)
        found = []
        for i in left:
            minutes = task.minutes[i]
            if minutes is not None:
                found.append(minutes * whole + least(left - {i}, looks))
        for k in looks:
            parts: dict[Hashable, set[int]] = {}
            for i in left:
                parts.setdefault(task.looks[k].outcomes[i], set()).add(i)
            if len(parts) > 1:
                rest = sum(least(frozenset(part), looks - {k}) for part in parts.values())
                found.append(task.looks[k].minutes * whole + rest)
        return min(found)

    everything = frozenset(range(len(task.weights)))
    return least(everything, frozenset(range(len(task.looks)))) / math.fsum(task.weights)


@st.composite
def tasks(draw: st.DrawFn, most: int = 6) -> Task:
    n = draw(st.integers(1, most))
    weights = draw(st.lists(st.sampled_from([1.0, 2.0, 5.0, 12.0]), min_size=n, max_size=n))
    swap = st.sampled_from([1.0, 2.0, 10.0, 25.0, 85.0])
    minutes = draw(st.lists(swap, min_size=n, max_size=n))
    shown = st.lists(st.integers(0, 3), min_size=n, max_size=n).map(tuple)
    looks = draw(
        st.lists(st.builds(Look, st.sampled_from([0.0, 1.0, 4.0, 22.0]), shown), max_size=3)
    )
    return Task(tuple(weights), tuple(minutes), tuple(looks))


@st.composite
def with_gaps(draw: st.DrawFn) -> Task:
    """A task in which some swaps cannot be done."""
    task = draw(tasks())
    gone = draw(st.lists(st.booleans(), min_size=len(task.minutes), max_size=len(task.minutes)))
    minutes = tuple(None if no else m for m, no in zip(task.minutes, gone, strict=True))
    return Task(task.weights, minutes, task.looks)


@settings(max_examples=150, deadline=None)
@given(tasks() | with_gaps())
def test_no_order_takes_less(task: Task) -> None:
    solution = solve(task)
    assert solution.exact
    assert solution.minutes == pytest.approx(every_order(task))


@settings(max_examples=60, deadline=None)
@given(tasks() | with_gaps())
def test_the_bounds_hold(task: Task) -> None:
    least = every_order(task)
    near = Search(task, exact=False)
    whole = math.fsum(task.weights)
    assert near.bound(near.start) / whole <= least + 1e-9
    assert information_bound(task) <= least + 1e-9
    assert near.value(near.start) / whole >= least - 1e-9


@settings(max_examples=80, deadline=None)
@given(tasks(most=12))
def test_the_tree_takes_what_the_search_says(task: Task) -> None:
    """Followed fault by fault, the tree comes to each once, and to the minutes promised."""
    solution = solve(task)
    root = tree_of(solution)
    swaps = {i: minutes or 0.0 for i, minutes in enumerate(task.minutes)}
    found = minutes_to(root, swaps, {k: look.minutes for k, look in enumerate(task.looks)})
    assert sorted(found) == list(range(len(task.weights)))
    total = sum(found[i] * weight for i, weight in enumerate(task.weights))
    assert total / math.fsum(task.weights) == pytest.approx(solution.minutes)
    assert [node.number for node in nodes_of(root)] == list(range(1, len(list(nodes_of(root))) + 1))


def test_too_many_states_give_a_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where not all orders are gone through, the minutes of the best lie between the two."""
    monkeypatch.setattr(search, "MOST_STATES", 3)
    weights = (5.0, 5.0, 1.0, 1.0, 1.0, 1.0)
    looks = (Look(20.0, ("a", "b", "b", "b", "c", "c")), Look(9.0, (1, 1, 1, 2, 2, 3)))
    task = Task(weights, (1.0, 2.0, 25.0, 30.0, 35.0, 40.0), looks)
    solution = solve(task)
    assert not solution.exact
    assert solution.bound <= every_order(task) <= solution.minutes
    monkeypatch.undo()
    assert solve(task).minutes == pytest.approx(every_order(task))


def test_swaps_alone_go_by_weight_over_minutes() -> None:
    """By hand: 3/1, 2/2, 1/10; (3 × 1 + 2 × 3 + 1 × 13) / 6 = 22/6 min."""
    solution = solve(Task((1.0, 2.0, 3.0), (10.0, 2.0, 1.0), ()))
    assert solution.minutes == pytest.approx(22 / 6)
    assert tree_of(solution).swaps == ((2,), (1,), (0,))


def test_faults_alike_are_one_sort() -> None:
    """Sixteen parts alike, each with a light of its own: one sort, a look and a swap."""
    own = tuple(f"light {i}" for i in range(16))
    task = Task((0.2,) * 16, (25.0,) * 16, (Look(22.0, own),))
    root = tree_of(solve(task))
    assert solve(task).minutes == pytest.approx(47.0)
    assert root.look == 0
    assert [len(branch.faults) for branch in root.branches] == [16]


def test_entropy_of_nothing_certain() -> None:
    assert entropy([1.0]) == 0.0
    assert entropy([1.0, 1.0]) == pytest.approx(1.0)

"""Joins in blocks, estimates, and limits inside a join."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings

from baywright.engines.brute import Brute
from baywright.engines.contract import Limit, OutOfTime
from baywright.engines.diagram import Diagram
from baywright.engines.diagram.cluster import Cluster
from baywright.engines.diagram.compiling import leaves
from baywright.engines.diagram.estimating import _occupied, estimate
from baywright.engines.diagram.guards import Guards, TooHard, Watch
from baywright.engines.diagram.joining import Joiner
from baywright.engines.diagram.ordering import Estimates, joined
from baywright.engines.diagram.reading import read
from baywright.engines.preparation import Deadline
from baywright.space import Space, Table
from tests.conformance.spaces import Case, cases
from tests.engines.diagram.given import choices, origin, total

same_patch_for_all = settings(suppress_health_check=[HealthCheck.function_scoped_fixture])

WIDE = Space(
    choices(*[40] * 4),
    (),
    (
        total(90, "one", a=tuple(range(40)), b=tuple(range(40)), c=tuple(range(40)), d=(1,) * 40),
        total(50, "other", b=tuple(range(40)), c=tuple(range(40)), d=tuple(range(40))),
    ),
)


@same_patch_for_all
@given(case=cases())
def test_joins_in_small_blocks_give_the_same(case: Case, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("baywright.engines.diagram.joining._BLOCK", 1)
    expected = Brute().options(case.space, case.assumptions)
    assert Diagram().options(case.space, case.assumptions) == expected


@same_patch_for_all
@given(case=cases())
def test_sampled_estimates_change_the_tree_and_no_answer(
    case: Case, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("baywright.engines.diagram.estimating._EXACT", 0)
    expected = Brute().options(case.space, case.assumptions)
    assert Diagram().options(case.space, case.assumptions) == expected


def sides(guards: Guards, limit: float = 60) -> tuple[Joiner, Cluster, Cluster]:
    model = read(WIDE, Guards(), Deadline(Limit(60))).model
    rules = model.rules
    watch = Watch(Guards(), Deadline(Limit(60)))
    every, joiner = leaves(model, watch), Joiner(rules, watch)
    pair = joiner.join(every[0], every[1]), joiner.join(every[2], every[3])
    return Joiner(rules, Watch(guards, Deadline(Limit(limit)))), *pair


def test_a_sample_is_near_what_the_join_is(monkeypatch: pytest.MonkeyPatch) -> None:
    joiner, left, right = sides(Guards())
    whole = estimate(joiner, left, right)
    monkeypatch.setattr("baywright.engines.diagram.estimating._EXACT", 0)
    sampled = estimate(joiner, left, right)
    assert sampled.made is None
    assert sampled.arcs == pytest.approx(whole.arcs, rel=0.1)


def test_how_many_states_there_are_is_estimated_from_meetings() -> None:
    """By the formula itself: 10,000 draws from 20,000 see 20,000 (1 - exp(-1/2)) of them."""
    seen = round(20_000 * (1 - np.exp(-0.5)))
    assert _occupied(10_000, seen) == pytest.approx(20_000, rel=0.01)
    assert _occupied(10, 10) == float("inf")


def test_limits_are_looked_at_inside_a_join() -> None:
    joiner, left, right = sides(Guards(pairs=10))
    with pytest.raises(TooHard, match="pairs, more than 10"):
        joiner.join(left, right)
    joiner, left, right = sides(Guards(seconds=-1))
    with pytest.raises(TooHard, match="seconds of work"):
        joiner.join(left, right)
    joiner, left, right = sides(Guards(), 0)
    with pytest.raises(OutOfTime):
        joiner.join(left, right)


def test_at_the_deadline_it_is_told_how_far_compiling_came() -> None:
    model = read(WIDE, Guards(), Deadline(Limit(60))).model
    every = leaves(model, Watch(Guards(), Deadline(Limit(60))))
    late = Watch(Guards(), Deadline(Limit(0)))
    with pytest.raises(OutOfTime, match="compiling: joined 0 of 4 clusters, 0 arcs"):
        joined(every, Estimates(Joiner(model.rules, late)), 1.0)
    pair = Space(choices(2, 2), (Table(("a", "b"), frozenset({(0, 1)}), origin("pair")),))
    with pytest.raises(OutOfTime, match="compiling: closed values by 0 of 1 tables"):
        Diagram().count(pair, limit=Limit(0))


def test_tables_within_others_are_made_a_part_of_them() -> None:
    rows = list(itertools.product(range(3), repeat=3))
    wide = Table(("a", "b", "c"), frozenset(r for r in rows if sum(r) < 5), origin("wide"))
    pairs = frozenset((i, j) for i in range(3) for j in range(3) if i != j)
    within = [Table(pair, pairs, origin("pair")) for pair in (("a", "b"), ("c", "a"), ("c", "d"))]
    space = Space(choices(3, 3, 3, 3), (*within, wide, wide))
    (one, other) = read(space, Guards(), Deadline(Limit(60))).model.tables
    assert {one.scope, other.scope} == {(0, 1, 2), (2, 3)}
    assert Diagram().count(space) == Brute().count(space) > 0

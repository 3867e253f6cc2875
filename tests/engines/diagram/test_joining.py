"""Joins in blocks, estimates, and limits inside a join."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings

from baywright.engines.brute import Brute
from baywright.engines.contract import Limit, OutOfTime
from baywright.engines.diagram import Diagram
from baywright.engines.diagram.cluster import Cluster
from baywright.engines.diagram.estimating import _occupied, estimate
from baywright.engines.diagram.guards import Guards, TooHard, Watch
from baywright.engines.diagram.joining import Joiner, leaf
from baywright.engines.diagram.reading import read
from baywright.engines.preparation import Deadline
from baywright.space import Space
from tests.conformance.spaces import Case, cases
from tests.engines.diagram.given import choices, total

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
    model = read(WIDE, Guards()).model
    rules = model.rules
    leaves = [leaf(rules, c, left, 40) for c, left in enumerate(model.left)]
    joiner = Joiner(rules, Watch(Guards(), Deadline(Limit(60))))
    pair = joiner.join(leaves[0], leaves[1]), joiner.join(leaves[2], leaves[3])
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

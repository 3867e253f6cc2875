"""Fronts against looking at every build, and against proven optima on a large space."""

from __future__ import annotations

import random
from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.engines.brute import Brute
from baywright.engines.contract import Assumptions, Best, Limit, Objective, OutOfTime
from baywright.engines.diagram import Diagram, Guards
from baywright.space import Space, broken
from tests.conformance.judging import brute_builds
from tests.conformance.spaces import Case, cases, weights
from tests.engines.diagram.given import choices, two_socket
from tests.engines.diagram.test_engine import OPPOSED

ENGINES = (Diagram(), Diagram(Guards(totals=0)), Diagram(Guards(totals=0, far=0)))


@dataclass(frozen=True)
class Asked:
    """A case with a second total; sometimes a sum of the space is one of the totals."""

    case: Case
    first: Objective
    second: Objective


@st.composite
def asked(draw: st.DrawFn) -> Asked:
    case = draw(cases())
    every = [Objective(sum_.weights) for sum_ in case.space.sums]
    first = draw(st.sampled_from([case.objective, *every, *(o.negated() for o in every)]))
    second = Objective(draw(weights(list(case.space.choices))))
    return Asked(case, *draw(st.sampled_from([(first, second), (second, first)])))


def unbeaten(pairs: set[tuple[int, int]]) -> list[tuple[int, int]]:
    return sorted(
        pair
        for pair in pairs
        if not any(a <= pair[0] and b <= pair[1] and (a, b) != pair for a, b in pairs)
    )


@given(asked())
@pytest.mark.parametrize("engine", ENGINES, ids=["compiled", "one carried", "all carried"])
def test_a_front_has_every_pair_that_none_beats(engine: Diagram, asked: Asked) -> None:
    case = asked.case
    legal = list(brute_builds(case.space, case.assumptions))
    found = engine.front(case.space, asked.first, asked.second, case.assumptions)
    pairs = {(asked.first.value(build), asked.second.value(build)) for build in legal}
    assert [(point.first, point.second) for point in found] == unbeaten(pairs)
    for point in found:
        assert point.values in legal
        assert (asked.first.value(point.values), asked.second.value(point.values)) == (
            point.first,
            point.second,
        )


def test_two_limits_that_are_the_totals() -> None:
    price, use = (Objective(sum_.weights) for sum_ in OPPOSED.sums)
    names = tuple(choice.name for choice in OPPOSED.choices)
    rows = [dict(zip(names, row, strict=True)) for row in Brute().each(OPPOSED, names)]
    expected = unbeaten({(price.value(row), use.value(row)) for row in rows})
    for engine in ENGINES:
        found = engine.front(OPPOSED, price, use)
        assert [(point.first, point.second) for point in found] == expected
    assert len(expected) > 1


def test_a_front_stops_at_a_limit(monkeypatch: pytest.MonkeyPatch) -> None:
    price, use = (Objective(sum_.weights) for sum_ in OPPOSED.sums)
    with pytest.raises(OutOfTime):
        ENGINES[0].front(OPPOSED, price, use, limit=Limit(0))
    bent = Objective((("a", (0, 6, 10)), ("b", (0, 6, 10))))
    turned = Objective((("a", (10, 6, 0)), ("b", (10, 6, 0))))
    space = Space(choices(3, 3))
    assert len(ENGINES[0].front(space, bent, turned)) == 5
    monkeypatch.setattr("baywright.engines.diagram.labels._FIRST", 1)
    with pytest.raises(OutOfTime, match="front was not finished"):
        Diagram(Guards(labels=1)).front(space, bent, turned)


def _random_total(space: Space, seed: int) -> Objective:
    chance = random.Random(seed)  # noqa: S311
    return Objective(
        tuple(
            (choice.name, tuple(chance.randint(0, 40) for _ in choice.values))
            for choice in space.choices
            if not choice.derived
        )
    )


def test_a_front_of_a_large_space() -> None:
    """Load against a random total: its ends are proven optima, its parts make the same front."""
    space, engine = two_socket(), Diagram()
    (power,) = (total for total in space.sums if total.origin.key == "power-budget")
    load, other = Objective(power.weights), _random_total(space, 1)
    found = engine.front(space, load, other)
    for point in found:
        assert not broken(space, point.values)
        assert (load.value(point.values), other.value(point.values)) == (point.first, point.second)
    least, least_other = engine.best(space, load), engine.best(space, other)
    assert isinstance(least, Best)
    assert isinstance(least_other, Best)
    assert (found[0].first, found[-1].second) == (least.value, least_other.value)
    parts = [
        point
        for value in range(space.choice("nsock").size)
        for point in engine.front(space, load, other, Assumptions({"nsock": frozenset({value})}))
    ]
    expected = unbeaten({(point.first, point.second) for point in parts})
    assert [(point.first, point.second) for point in found] == expected

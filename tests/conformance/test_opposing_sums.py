"""Two sums that oppose each other over the same choices, asked of every engine."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.engines.contract import Assumptions, Engine, Impossible, Limit, Objective, Possible
from baywright.engines.registry import engines
from baywright.space import Choice, Space, Sum, broken
from tests.conformance.judging import brute_builds, judge
from tests.conformance.opposing import KEYS, opposing_spaces
from tests.conformance.spaces import Case, origin

PLACES = 16
QUICK = sorted(set(engines()) - {"brute"})
"""The large spaces here are beyond going through every build."""


@pytest.mark.parametrize("name", QUICK)
@given(opposing_spaces(), st.frozensets(st.sampled_from(KEYS), max_size=1))
def test_engine_agrees_with_brute(name: str, space: Space, without: frozenset[str]) -> None:
    names = tuple(choice.name for choice in space.choices)
    case = Case(space, Assumptions(without=without), Objective(space.sums[0].weights), names[:2])
    judge(engines()[name], case, list(brute_builds(space, case.assumptions)))


@pytest.fixture(params=QUICK)
def engine(request: pytest.FixtureRequest) -> Engine:
    found = engines()[request.param]
    if "prove" not in found.can:
        pytest.skip(f"{found.name} does not prove")
    return found


def watts(place: int) -> tuple[int, ...]:
    """Loads of one place by value, all different, so that totals can be reached in many ways."""
    return tuple(value * (37 + 5 * place) + (value * value) % 7 for value in range(12))


def cooled(wanted: int, fans: Sequence[int] = range(7)) -> Space:
    """Return places that draw power, fans that must carry it, and a load that is wanted.

    What is carried is stated in finer units, rounded up for each value, as tables of facts are.
    """
    load = tuple((f"place {n}", watts(n)) for n in range(PLACES))
    heat = tuple((name, tuple(-(-w * 100_003 // 3) for w in column)) for name, column in load)
    air = ("fans", tuple(-1000 * 100_003 // 3 * number for number in fans))
    choices = (
        *(Choice(name, tuple(map(str, column))) for name, column in load),
        Choice("fans", tuple(map(str, fans))),
    )
    turned = tuple((name, tuple(-w for w in column)) for name, column in load)
    return Space(
        choices,
        (),
        (
            Sum((*heat, air), 0, origin("air")),
            Sum(turned, -wanted, origin("wanted"), "W"),
        ),
    )


def test_a_load_beyond_what_is_carried_is_refused_at_once(engine: Engine) -> None:
    proof = engine.prove(cooled(6100), limit=Limit(20))
    assert isinstance(proof, Impossible)
    assert proof.core in (None, frozenset({"air", "wanted"}))


def test_either_sum_alone_is_possible(engine: Engine) -> None:
    space = cooled(6100)
    for key in ("air", "wanted"):
        proof = engine.prove(space, Assumptions(without=frozenset({key})), Limit(20))
        assert isinstance(proof, Possible)
        assert not broken(space.without({key}), proof.values)
        assert broken(space, proof.values)


def test_a_load_that_can_be_carried_is_found(engine: Engine) -> None:
    space = cooled(5900)
    proof = engine.prove(space, limit=Limit(20))
    assert isinstance(proof, Possible)
    assert not broken(space, proof.values)


def test_fewer_fans_by_assumption_carry_less(engine: Engine) -> None:
    few = Assumptions({"fans": frozenset(range(4))})
    space = cooled(4000)
    assert isinstance(engine.prove(space, limit=Limit(20)), Possible)
    assert isinstance(engine.prove(space, few, Limit(20)), Impossible)


def test_a_range_too_narrow_for_any_total_is_refused(engine: Engine) -> None:
    """Both sums of a number that must equal something have one origin."""
    load = tuple((f"place {n}", tuple(10 * w for w in watts(n))) for n in range(PLACES))
    turned = tuple((name, tuple(-w for w in column)) for name, column in load)
    between = (Sum(load, 25_007, origin("equal")), Sum(turned, -25_003, origin("equal")))
    space = Space(tuple(Choice(n, tuple(map(str, ws))) for n, ws in load), (), between)
    proof = engine.prove(space, limit=Limit(20))
    assert isinstance(proof, Impossible)
    assert proof.core in (None, frozenset({"equal"}))


def test_three_sums_name_the_two_that_clash() -> None:
    space = cooled(6100)
    weights = space.sums[1].weights[: PLACES // 2]
    idle = Sum(tuple((n, tuple(-w for w in ws)) for n, ws in weights), 9000, origin("idle"))
    for first, second in itertools.permutations(space.sums, 2):
        proof = engines()["search"].prove(Space(space.choices, (), (first, idle, second)))
        assert isinstance(proof, Impossible)
        assert proof.core is not None
        assert proof.core >= {"air", "wanted"}

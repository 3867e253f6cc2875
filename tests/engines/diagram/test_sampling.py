"""Random builds: legal, the same for a seed, and each as likely as any other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

import pytest
from hypothesis import given

from baywright.engines.brute import Brute
from baywright.engines.contract import Assumptions, Limit, OutOfTime
from baywright.engines.diagram import Diagram, Guards
from baywright.space import Choice, Space, Sum, Table, broken
from tests.conformance.judging import brute_builds
from tests.conformance.spaces import Case, cases
from tests.engines.diagram.given import choices, origin, total, two_socket
from tests.engines.diagram.test_engine import OPPOSED

ENGINES = (Diagram(), Diagram(Guards(totals=0)), Diagram(Guards(totals=0, far=0)))
NAMES = ["compiled", "one carried", "all carried"]

BOUND = Space(
    choices(3, 4, 3, 2),
    (
        Table(
            ("a", "b"), frozenset((i, j) for i in range(3) for j in range(4) if j >= i), origin("t")
        ),
    ),
    (total(9, b=(0, 1, 2, 4), c=(0, 3, 5), d=(0, 4)),),
)
"""A table and a sum that most builds keep."""

LOOSE = replace(
    BOUND, choices=(*BOUND.choices[:2], *(replace(c, derived=True) for c in BOUND.choices[2:]))
)
"""The same with two choices that are called derived, but are not determined."""


LIGHT = Space(
    choices(*[3] * 6),
    (Table(("a", "b"), frozenset({(0, 0), (1, 1), (2, 2), (0, 2)}), origin("t")),),
    (total(13, a=(0, 3, 9), b=(0, 4, 8), c=(0, 5, 7), d=(0, 6, 9), e=(1, 3, 8), f=(0, 2, 7)),),
)
"""A sum that few builds keep, so that light ones are favoured at first."""


SPACES = (BOUND, OPPOSED, LOOSE, LIGHT)


def own(space: Space, build: Mapping[str, int]) -> tuple[int, ...]:
    return tuple(build[choice.name] for choice in space.choices if not choice.derived)


def chi_square_bound(freedom: int) -> float:
    """What chi-square exceeds once in a thousand times.

    The approximation of Wilson and Hilferty (1931) with the normal quantile 3.09, from memory.
    """
    part = 2 / (9 * freedom)
    return float(freedom * (1 - part + 3.09 * part**0.5) ** 3)


@given(cases())
@pytest.mark.parametrize("engine", ENGINES, ids=NAMES)
def test_random_builds_are_legal(engine: Diagram, case: Case) -> None:
    legal = list(brute_builds(case.space, case.assumptions))
    try:
        limit = Limit(0.2 if engine is ENGINES[2] else 60)
        found = engine.sample(case.space, 3, 1, case.assumptions, limit)
    except OutOfTime:  # several sums carried: nothing is drawn when nothing keeps all of them
        assert engine is ENGINES[2]
        return
    assert len(found) == (3 if legal else 0)
    assert all(build in legal for build in found)


@pytest.mark.parametrize("engine", ENGINES, ids=NAMES)
@pytest.mark.parametrize(
    "space", [BOUND, OPPOSED, LOOSE, LIGHT], ids=["bound", "opposed", "loose", "light"]
)
def test_each_build_is_as_likely_as_any_other(engine: Diagram, space: Space) -> None:
    """Chi-square over all builds, 50 draws for each; the seed is fixed, the level 0.1 %."""
    names = tuple(choice.name for choice in space.choices)
    rows = Brute().each(space, names)
    every = {own(space, dict(zip(names, row, strict=True))) for row in rows}
    found = engine.sample(space, 50 * len(every), 7, limit=Limit(30))
    drawn = Counter(own(space, build) for build in found)
    assert drawn.keys() <= every
    square = sum((drawn[row] - 50) ** 2 / 50 for row in every)
    assert square < chi_square_bound(len(every) - 1)


def test_a_seed_draws_the_same_builds() -> None:
    first, second = (Diagram().sample(BOUND, 20, 3) for _ in range(2))
    assert first == second
    assert first != Diagram().sample(BOUND, 20, 4)


def test_drawing_stops_at_the_deadline(monkeypatch: pytest.MonkeyPatch) -> None:
    """As if no build that is drawn kept both sums."""
    monkeypatch.setattr("baywright.engines.diagram.sampling._legal", lambda *_: False)
    with pytest.raises(OutOfTime, match=r"drawn, 0 were kept; use and price had to be kept by"):
        ENGINES[2].sample(OPPOSED, 1, 1, limit=Limit(0.1))


def test_a_budget_that_few_builds_keep() -> None:
    """Fewer than one build in 10 ** 11 is so light; drawing evenly would meet none."""
    names = [f"choice {number}" for number in range(40)]
    every = tuple(Choice(name, tuple(map(str, range(10)))) for name in names)
    space = Space(every, (), (Sum(tuple((n, tuple(range(10))) for n in names), 60, origin("t")),))
    engine = ENGINES[1]
    assert engine.count(space) * 10**11 < 10**40
    found = engine.sample(space, 50, 1, limit=Limit(30))
    assert all(not broken(space, build) for build in found)
    assert len({tuple(build.values()) for build in found}) == 50


def test_random_builds_of_a_large_space() -> None:
    space = two_socket()
    given_ = Assumptions({"nsock": frozenset({1})})
    found = Diagram().sample(space, 50, 1, given_)
    assert all(build["nsock"] == 1 and not broken(space, build) for build in found)
    assert len({tuple(build.values()) for build in found}) == 50

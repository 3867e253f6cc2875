"""Counts under limits against plain whole numbers and against going through all builds."""

from __future__ import annotations

import itertools
import time
from collections.abc import Mapping

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.engines.contract import Assumptions, Limit, OutOfTime
from baywright.engines.diagram import Diagram
from baywright.engines.diagram.compiled import Carried, Compiled
from baywright.engines.diagram.counting import counted, counted_values
from baywright.engines.diagram.evaluating import lowered, raised
from baywright.engines.diagram.form import Form
from baywright.engines.diagram.guards import Guards
from baywright.engines.diagram.residues import primes_beyond
from baywright.engines.diagram.session import compile_space
from baywright.engines.preparation import Deadline
from baywright.space import Choice, Space, Table
from benchmarks.platforms import SHAPES, platform
from tests.engines.diagram.given import choices, origin, total

PRIME = primes_beyond(1)[0]


def soon() -> Deadline:
    return Deadline(Limit(60))


@given(st.integers(0, 2**63 - 1))
def test_numbers_are_lowered_without_a_division(number: int) -> None:
    assert lowered(number, PRIME, 1 / PRIME) == number % PRIME


@given(st.integers(1, PRIME - 1), st.integers(-(2**40), 2**40))
def test_powers_may_be_negative(base: int, exponent: int) -> None:
    assert raised(base, exponent, PRIME) == pow(base, exponent, PRIME)


def product_form(pairs: int) -> Form:
    """Two choices, each value a state of its own, that go together when they have one number."""
    numbers = np.arange(pairs, dtype=np.int32)
    arcs = np.column_stack([numbers, numbers + pairs, np.full(pairs, 2 * pairs, np.int32)])
    values = np.array([0, pairs, 2 * pairs], np.int64)
    state_of = np.arange(2 * pairs, dtype=np.int32)
    return Form(2 * pairs + 1, arcs, np.array([0, pairs], np.int64), values, state_of)


def test_many_products_are_reduced_before_they_overflow() -> None:
    """A thousand products of two residues are added up, each way."""
    form = product_form(1000)
    weights = np.concatenate([np.arange(1000), np.arange(1000) * 7 % 1000]).astype(np.int64)
    limits = (Carried(weights, 900, ("limit",)),)
    allowed = np.ones(2000, np.uint8)
    pairs = [number + number * 7 % 1000 <= 900 for number in range(1000)]
    assert counted(form, limits, allowed, soon()) == sum(pairs)
    assert counted_values(form, limits, allowed, soon()) == [*map(int, pairs)] * 2


def test_a_count_beyond_floating_point_is_exact() -> None:
    """400 choices of ten values, and one pair of values excluded: 99 × 10 to the power of 398."""
    names = [f"choice {number}" for number in range(400)]
    rows = frozenset(row for row in itertools.product(range(10), repeat=2) if row != (3, 4))
    tables = (Table((names[0], names[1]), rows, origin("apart")),)
    tens = tuple(Choice(name, tuple(map(str, range(10)))) for name in names)
    assert Diagram().count(Space(tens, tables)) == 99 * 10**398
    # As many builds have a sum of ten digits below 45 as above.
    digits = total(45, **dict.fromkeys(names[2:12], tuple(range(10))))
    ways = np.array([1])
    for _ in range(10):
        ways = np.convolve(ways, np.ones(10, np.int64))
    under = Diagram(Guards(totals=0)).count(Space(tens, tables, (digits,)))
    assert under == 99 * (10**10 + int(ways[45])) // 2 * 10**388


NAMES = [choice.name for choice in choices(*[3] * 9)]
ROWS = frozenset({(0, 1), (1, 0), (1, 2), (2, 2), (0, 0)})
FIRST = {name: (0, 3 + place, 11 - place) for place, name in enumerate(NAMES)}
SECOND = {name: (4 * place % 7, 2, 5 * place % 9) for place, name in enumerate(NAMES)}


def chain(bound: int = 31, other: int | None = None) -> tuple[Space, Compiled]:
    """Nine choices in a row, neighbours bound by tables, one or two sums over all of them."""
    pairs = [Table(pair, ROWS, origin("pair")) for pair in itertools.pairwise(NAMES)]
    sums = [total(bound, "first", **FIRST)]
    if other is not None:
        sums.append(total(other, "second", **SECOND))
    space = Space(choices(*[3] * 9), tuple(pairs), tuple(sums))
    return space, compile_space(space, Guards(totals=0, far=0), Deadline(Limit(60)))


BUILDS = [
    build
    for build in itertools.product(range(3), repeat=9)
    if all(pair in ROWS for pair in itertools.pairwise(build))
]


def weight(build: tuple[int, ...], weights: Mapping[str, tuple[int, ...]]) -> int:
    return sum(weights[name][value] for name, value in zip(NAMES, build, strict=True))


@given(st.integers(-1, 80), st.sets(st.integers(0, 26), max_size=9))
@settings(max_examples=30)
def test_a_count_under_any_bound(bound: int, closed: set[int]) -> None:
    _, compiled = chain(bound)
    allowed = compiled.flags({})
    if not compiled.form.states:
        return
    allowed[sorted(closed)] = 0
    legal = [b for b in BUILDS if weight(b, FIRST) <= bound]
    legal = [b for b in legal if all(allowed[3 * i + v] for i, v in enumerate(b))]
    assert counted(compiled.form, compiled.limits, allowed, soon()) == len(legal)


def test_two_bounds_are_carried() -> None:
    assert [limit.keys for limit in chain(31, 25)[1].limits] == [("first",), ("second",)]


@given(st.integers(20, 60), st.integers(10, 40))
@settings(max_examples=20)
def test_a_count_under_two_bounds(one: int, other: int) -> None:
    space, compiled = chain(one, other)
    legal = [b for b in BUILDS if weight(b, FIRST) <= one and weight(b, SECOND) <= other]
    assert counted(compiled.form, compiled.limits, compiled.flags({}), soon()) == len(legal)
    found = Diagram(Guards(totals=0, far=0)).count_values(space)
    assert found["c"] == tuple(sum(b[2] == v for b in legal) for v in range(3))


def test_totals_too_many_to_evaluate_are_counted_one_by_one() -> None:
    """Totals near 2 to the power of 40, told apart by 1."""
    wide = {n: tuple(2**36 * w + (w > 4) for w in ws) for n, ws in FIRST.items()}
    bound = 2**36 * 31 + 3
    pairs = [Table(pair, ROWS, origin("pair")) for pair in itertools.pairwise(NAMES)]
    space = Space(choices(*[3] * 9), tuple(pairs), (total(bound, "first", **wide),))
    engine = Diagram(Guards(totals=0, far=0))
    legal = [b for b in BUILDS if weight(b, wide) <= bound]
    assert engine.count(space) == len(legal) > 0
    found = engine.count_values(space)
    assert found["b"] == tuple(sum(b[1] == v for b in legal) for v in range(3))


def opposed(most: int) -> Space:
    """Six choices of four values and two sums over all of them, each with weights up to so much."""
    rising, falling = ((0, most // 3, most // 2, most), (most, most // 2 + 1, most // 3, 0))
    sums = [
        total(4 * most - 1, key, **dict.fromkeys("abcdef", weights))
        for key, weights in (("rising", rising), ("falling", falling))
    ]
    return Space(choices(*[4] * 6), (), tuple(sums))


ALL_CARRIED = Diagram(Guards(totals=0, far=0))


def test_two_sums_with_too_many_totals_are_refused() -> None:
    with pytest.raises(OutOfTime, match="have too many totals to count at the same time"):
        ALL_CARRIED.count(opposed(1_000_001))


def test_a_count_that_would_take_too_long_is_not_begun() -> None:
    """Each sum has thousands of totals, so there are millions of pairs of them."""
    space = opposed(1_401)
    assert len(ALL_CARRIED.describe(space).checked) == 1
    with pytest.raises(OutOfTime, match="which would take more than"):
        ALL_CARRIED.count(space, limit=Limit(0.005))


def test_a_count_stops_at_the_deadline() -> None:
    _, compiled = chain()
    with pytest.raises(OutOfTime):
        counted(compiled.form, compiled.limits, compiled.flags({}), Deadline(Limit(0)))


def test_a_large_count_stops_soon_after_its_limit(monkeypatch: pytest.MonkeyPatch) -> None:
    """Four sockets take some tenths of a second, and minutes with weights told apart finely."""
    engine, space = Diagram(), platform(SHAPES["four sockets"])
    compiled = engine._compiled(space, Assumptions(), soon())
    monkeypatch.setattr("baywright.engines.diagram.counting._FASTEST", float("inf"))
    budget = compiled.budget
    fine = 97 * budget.weights + np.arange(len(budget.weights)) % 3
    limits = (Carried(fine, 97 * budget.at_most, budget.keys),)
    begun = time.monotonic()
    with pytest.raises(OutOfTime, match=r"fewer than 10\^\d+ builds under power, of which \d+%"):
        counted(compiled.form, limits, compiled.flags({}), Deadline(Limit(0.3)))
    assert time.monotonic() - begun < 0.8

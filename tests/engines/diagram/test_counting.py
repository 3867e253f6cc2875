"""Counts under a budget against plain whole numbers, and where a tree is hung."""

from __future__ import annotations

import itertools
from collections import Counter

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.engines.contract import Limit, OutOfTime
from baywright.engines.diagram import Diagram
from baywright.engines.diagram.centring import centred
from baywright.engines.diagram.compiled import Compiled
from baywright.engines.diagram.counting import counted_within
from baywright.engines.diagram.guards import Guards
from baywright.engines.diagram.polynomials import Terms, multiplied, summed
from baywright.engines.diagram.residues import PRIME_BITS, from_residues, primes_beyond
from baywright.engines.diagram.session import compile_space
from baywright.engines.preparation import Deadline
from baywright.space import Choice, Space, Table
from tests.engines.diagram.given import choices, origin, total

PRIME = primes_beyond(1)[0]


def terms(*polynomials: dict[int, int]) -> tuple[Terms, int]:
    """Polynomials of states in rising order, with room for more states."""
    lengths = [len(polynomial) for polynomial in polynomials] + [0] * 4
    ends = np.cumsum(lengths).astype(np.int64)
    rows = [pair for polynomial in polynomials for pair in sorted(polynomial.items())]
    weights, counts = np.array(rows, np.int64).reshape(-1, 2).T.copy()
    return Terms(ends - np.array(lengths), ends, weights, counts), len(rows)


def polynomial(found: Terms, state: int) -> dict[int, int]:
    span = slice(found.begins[state], found.ends[state])
    pairs = zip(found.weights[span].tolist(), found.counts[span].tolist(), strict=True)
    return {int(weight): int(count) % PRIME for weight, count in pairs}


def product(one: dict[int, int], other: dict[int, int], most: int) -> Counter[int]:
    result: Counter[int] = Counter()
    for (v, a), (w, b) in itertools.product(one.items(), other.items()):
        if v + w <= most:
            result[v + w] += a * b
    return result


POLYNOMIAL = st.dictionaries(st.integers(0, 9), st.integers(1, PRIME - 1), min_size=1)


@given(POLYNOMIAL, POLYNOMIAL, POLYNOMIAL, st.integers(0, 16))
def test_products_are_added_up_modulo_the_prime(
    one: dict[int, int], two: dict[int, int], three: dict[int, int], most: int
) -> None:
    """Two arcs from states 0 and 1 with state 2 to state 3; and 0 with 1 to state 4."""
    given_, used = terms(one, two, three)
    arcs = np.array([[0, 2, 3], [1, 2, 3], [0, 1, 4]], np.int32)
    found, _ = multiplied(arcs, given_, used, np.full(7, most), PRIME)
    expected = product(one, three, most) + product(two, three, most)
    assert polynomial(found, 3) == {weight: n % PRIME for weight, n in expected.items()}
    last = product(one, two, most)
    assert polynomial(found, 4) == {weight: n % PRIME for weight, n in last.items()}


def test_a_term_stays_where_the_prime_divides_its_number() -> None:
    """What follows a count back has to find every term, so none is lost that is 0 by chance."""
    given_, used = terms({0: PRIME - 1, 1: 1}, {0: 1, 1: 1})
    found, _ = multiplied(np.array([[0, 1, 2]], np.int32), given_, used, np.full(6, 9), PRIME)
    assert polynomial(found, 2) == {0: PRIME - 1, 1: 0, 2: 1}


def test_many_products_are_reduced_before_they_overflow() -> None:
    """A thousand products of two residues just below the prime fall on one weight."""
    many = dict.fromkeys(range(1000), PRIME - 1)
    given_, used = terms(many, many)
    found, _ = multiplied(np.array([[0, 1, 2]], np.int32), given_, used, np.full(6, 999), PRIME)
    assert polynomial(found, 2)[999] == 1000 * (PRIME - 1) ** 2 % PRIME
    given_, used = terms(many, many, {0: PRIME - 1})
    ways = sum(1000 - weight for weight in range(1000)) * (PRIME - 1) ** 3
    for sides in itertools.permutations(range(3)):
        assert summed(np.array([sides], np.int32), given_, 999, PRIME) == ways % PRIME


@given(st.integers(0, 10**60))
def test_a_number_is_put_together_from_its_residues(number: int) -> None:
    primes = primes_beyond(number)
    assert all(prime < 1 << PRIME_BITS for prime in primes)
    assert from_residues(primes, [number % prime for prime in primes]) == number


def test_a_count_beyond_floating_point_is_exact() -> None:
    """400 choices of ten values, and one pair of values excluded: 99 × 10 to the power of 398."""
    names = [f"choice {number}" for number in range(400)]
    rows = frozenset(row for row in itertools.product(range(10), repeat=2) if row != (3, 4))
    space = Space(
        tuple(Choice(name, tuple(map(str, range(10)))) for name in names),
        (Table((names[0], names[1]), rows, origin("apart")),),
    )
    assert Diagram().count(space) == 99 * 10**398


def chain() -> tuple[Space, Compiled]:
    """Nine choices in a row, neighbours bound by tables, one sum over all of them."""
    names = [choice.name for choice in choices(*[3] * 9)]
    rows = frozenset({(0, 1), (1, 0), (1, 2), (2, 2), (0, 0)})
    pairs = [Table(pair, rows, origin("pair")) for pair in itertools.pairwise(names)]
    weights = {name: (0, 3 + place, 11 - place) for place, name in enumerate(names)}
    space = Space(choices(*[3] * 9), tuple(pairs), (total(31, **weights),))
    return space, compile_space(space, Guards(totals=0), Deadline(Limit(60)))


def test_a_count_is_the_same_wherever_the_tree_is_hung(monkeypatch: pytest.MonkeyPatch) -> None:
    space, compiled = chain()
    (sum_,) = space.sums
    weights = dict(sum_.weights)
    expected = sum(
        all((x, y) in space.tables[0].rows for x, y in itertools.pairwise(build))
        and sum(weights[n][v] for n, v in zip(weights, build, strict=True)) <= sum_.at_most
        for build in itertools.product(range(3), repeat=9)
    )
    flags = compiled.flags({})
    for join in range(len(compiled.form.node_arcs) - 1):
        monkeypatch.setattr("baywright.engines.diagram.centring._cheapest", lambda *_, at=join: at)
        _, fresh = chain()
        assert counted_within(fresh.weighing, flags, Deadline(Limit(60))) == expected


def test_the_middle_has_every_arc_of_one_join() -> None:
    _, compiled = chain()
    hung = centred(compiled.form, compiled.budget.weights, compiled.budget.at_most)
    assert len(hung.middle) + sum(map(len, hung.steps)) == len(compiled.form.arcs)


def test_a_count_stops_at_the_deadline() -> None:
    _, compiled = chain()
    with pytest.raises(OutOfTime):
        counted_within(compiled.weighing, compiled.flags({}), Deadline(Limit(0)))

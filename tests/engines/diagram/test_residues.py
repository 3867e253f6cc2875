"""Primes, points and numbers put together from residues."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.engines.diagram.residues import (
    MOST_POINTS,
    PRIME_BITS,
    _is_prime,
    circles_beyond,
    from_residues,
    primes_beyond,
)


@given(st.integers(0, 10**60))
def test_a_number_is_put_together_from_its_residues(number: int) -> None:
    primes = primes_beyond(number)
    assert all(prime < 1 << PRIME_BITS for prime in primes)
    assert from_residues(primes, [number % prime for prime in primes]) == number


def test_primes_are_those_without_a_divisor() -> None:
    for number in (*range(11, 4000, 2), *range((1 << PRIME_BITS) - 99, 1 << PRIME_BITS, 2)):
        assert _is_prime(number) == all(number % d for d in range(2, math.isqrt(number) + 1))


@pytest.mark.parametrize("points", [1, 2, 97, 2_662, 65_536, 1_000_003, MOST_POINTS])
def test_points_are_different_and_off_the_roots_of_unity(points: int) -> None:
    powers = (1, 7, 64)
    circles = circles_beyond(1 << 60, points, powers)
    assert math.prod(circle.prime for circle in circles) > 1 << 60
    for prime, order, root, shift in circles:
        assert order >= points
        assert prime.bit_length() == PRIME_BITS
        assert pow(root, order, prime) == 1
        assert all(pow(root, order // d, prime) != 1 for d in range(2, 100) if order % d == 0)
        assert all(pow(shift, order * power, prime) != 1 for power in powers)

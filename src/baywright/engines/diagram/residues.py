"""Whole numbers of any size from their residues modulo several primes (Chinese remainder theorem).

Residues fit into machine words, so nothing is rounded or overflows on the way.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import count, islice
from typing import NamedTuple

PRIME_BITS = 28
"""Bits of the primes used. Products of two residues have twice as many, so 127 of them can be added
in 64 bits before they have to be reduced."""

MOST_POINTS = 1 << PRIME_BITS - 2
"""Points that a circle can have; there are enough primes for that."""

_PRIMES: list[int] = []
"""The largest primes of ``PRIME_BITS`` bits, found when they are first needed."""


class Circle(NamedTuple):
    """Points to evaluate polynomials at modulo a prime: the shift times each power of the root.

    Args:
        prime: the prime, of ``PRIME_BITS`` bits.
        points: how many points there are; the root has this order.
        root: a root of unity.
        shift: a number that keeps the points off the roots of unity of the same order.
    """

    prime: int
    points: int
    root: int
    shift: int


def primes_beyond(most: int) -> list[int]:
    """Return primes of ``PRIME_BITS`` bits whose product is greater than a number."""
    number = (1 << PRIME_BITS) + 1
    while len(_PRIMES) < _enough(most):
        number = _PRIMES[-1] - 2 if _PRIMES else number - 2
        while not _is_prime(number):
            number -= 2
        _PRIMES.append(number)
    return _PRIMES[: _enough(most)]


def circles_beyond(most: int, points: int, powers: tuple[int, ...]) -> tuple[Circle, ...]:
    """Return circles modulo different primes whose product is greater than a number.

    Args:
        most: the number.
        points: how many points each needs at least, from 1 to ``MOST_POINTS``.
        powers: no point to one of these powers may be 1.
    """
    return _circles(_enough(most), points, powers)


def from_residues(primes: Iterable[int], residues: Iterable[int]) -> int:
    """Return the number below the product of some primes that has these residues."""
    number, modulus = 0, 1
    for prime, residue in zip(primes, residues, strict=True):
        number += modulus * ((residue - number) * pow(modulus, -1, prime) % prime)
        modulus *= prime
    return number


def _enough(most: int) -> int:
    return most.bit_length() // (PRIME_BITS - 1) + 1


@lru_cache(maxsize=256)
def _circles(number: int, points: int, powers: tuple[int, ...]) -> tuple[Circle, ...]:
    return tuple(islice(_found(points, powers), number))


def _found(points: int, powers: tuple[int, ...]) -> Iterator[Circle]:
    """Yield circles: of the fewest points first, and of the largest prime first."""
    known: set[int] = set()
    for order in count(points):
        divisors = _prime_divisors(order)
        for times in range((1 << PRIME_BITS) // order, (1 << PRIME_BITS - 1) // order, -1):
            prime = times * order + 1
            if prime in known or not _is_prime(prime):
                continue
            known.add(prime)
            shift = _shift(prime, [order * power for power in powers])
            if shift:
                yield Circle(prime, order, _root(prime, order, divisors), shift)


def _root(prime: int, order: int, divisors: list[int]) -> int:
    """Return a number whose powers come back to 1 after ``order`` of them, and not before."""
    roots = (pow(base, (prime - 1) // order, prime) for base in count(2))
    return next(r for r in roots if all(pow(r, order // d, prime) != 1 for d in divisors))


def _shift(prime: int, powers: list[int]) -> int:
    """Return a number that is 1 to none of these powers, or 0 when a few tries find none."""
    for shift in range(2, 12):
        if all(pow(shift, power, prime) != 1 for power in powers):
            return shift
    return 0


def _prime_divisors(number: int) -> list[int]:
    found = []
    for divisor in count(2):
        if divisor * divisor > number:
            break
        if not number % divisor:
            found.append(divisor)
            while not number % divisor:
                number //= divisor
    return [*found, number] if number > 1 else found


def _is_prime(number: int) -> bool:
    """Say whether a number from 11 to 3.2e9 is prime.

    The test of Miller and Rabin with four bases; no composite number below 3,215,031,751 passes it
    (Pomerance, Selfridge and Wagstaff 1980, cited from memory).
    """
    odd = number - 1
    twos = (odd & -odd).bit_length() - 1
    odd >>= twos
    for base in (2, 3, 5, 7):
        power = pow(base, odd, number)
        seen = power == 1
        for _ in range(twos):
            seen = seen or power == number - 1
            power = power * power % number
        if not seen:
            return False
    return True

"""Whole numbers of any size from their residues modulo several primes (Chinese remainder theorem).

Residues fit into machine words, so nothing is rounded or overflows on the way.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

PRIME_BITS = 28
"""Bits of the primes used. Products of two residues have twice as many, so 127 of them can be added
in 64 bits before they have to be reduced."""

_PRIMES: list[int] = []
"""The largest primes of ``PRIME_BITS`` bits, found when they are first needed."""


def primes_beyond(most: int) -> list[int]:
    """Return primes of ``PRIME_BITS`` bits whose product is greater than a number."""
    count = most.bit_length() // (PRIME_BITS - 1) + 1
    while len(_PRIMES) < count:
        number = _PRIMES[-1] - 2 if _PRIMES else (1 << PRIME_BITS) - 1
        while not all(number % divisor for divisor in range(3, math.isqrt(number) + 1, 2)):
            number -= 2
        _PRIMES.append(number)
    return _PRIMES[:count]


def from_residues(primes: Iterable[int], residues: Iterable[int]) -> int:
    """Return the number below the product of some primes that has these residues."""
    number, modulus = 0, 1
    for prime, residue in zip(primes, residues, strict=True):
        number += modulus * ((residue - number) * pow(modulus, -1, prime) % prime)
        modulus *= prime
    return number

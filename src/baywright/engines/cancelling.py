"""Sums that two opposing sums imply: what is left once most of their weights cancel.

Two sums that hold also hold added together, each in any positive multiple. Where one limits
what the other asks for, such as a load that the fans must carry and a load that is wanted, the
weights of most choices cancel in a suitable mixture. The few that are left say at once what
clause learning would have to find value by value.

Weights that were rounded cancel nearly. A choice is then left out at its least weight, which
only weakens the mixture, so that it stays implied.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import gcd

from baywright.engines.preparation import Weights, reduced
from baywright.space import Sum

_LEAST_CANCELLED = 3
"""A mixture in which fewer choices cancel says little that propagation does not see."""

_FEW = 4
"""So many choices may be left, or a third of all where that is more."""

_MOST_MIXTURES = 4
"""Mixtures of one pair that are tried; where sums oppose each other, the first one shows it."""

_ROUNDING = 1000
"""Weights cancel when what is left of them is at most one part in so many."""


@dataclass(frozen=True, slots=True)
class Implied:
    """A sum that holds whenever the sums of its keys do.

    Args:
        keys: origin keys of the sums it follows from, one or two.
        weights: for each choice that is left, a weight of 0 or more for each of its values.
        at_most: the bound; below 0 when the sums contradict each other.
    """

    keys: frozenset[str]
    weights: Weights
    at_most: int

    def within(self, largest: int) -> Implied:
        """Return the sum in units so coarse that no total passes ``largest``; it stays implied.

        Weights are rounded down, and so is the bound, which whole numbers below it stay below.
        """
        greatest = sum(max(column) for _, column in self.weights)
        unit = max(1, -(-greatest // largest))
        coarse = tuple((n, tuple(w // unit for w in column)) for n, column in self.weights)
        return Implied(self.keys, coarse, self.at_most // unit)


@dataclass(frozen=True, slots=True)
class _Plain:
    """A sum without the choices that weigh the same whatever their value.

    Args:
        key: origin key of the sum.
        columns: weights of the others, shifted to minimum 0 and divided by what divides them all.
        at_most: the bound.
    """

    key: str
    columns: dict[str, tuple[int, ...]]
    at_most: int


@dataclass(frozen=True, slots=True)
class _Mixture:
    """So much of one sum and so much of another.

    Args:
        first: a sum, and ``once`` the multiple of it, above 0.
        second: another sum, and ``twice`` the multiple of it, above 0.
    """

    first: _Plain
    second: _Plain
    once: int
    twice: int

    def column(self, name: str) -> tuple[int, ...]:
        """Return the mixed weights of a choice; a sum without the choice adds nothing."""
        parts = (
            (self.first.columns.get(name), self.once),
            (self.second.columns.get(name), self.twice),
        )
        scaled = [[times * w for w in column] for column, times in parts if column]
        return tuple(map(sum, zip(*scaled, strict=True)))

    def cancels(self, name: str) -> bool:
        """Say whether the mixed weights of a choice in both sums are equal but for rounding."""
        mixed = self.column(name)
        whole = self.once * max(self.first.columns[name])
        return (max(mixed) - min(mixed)) * _ROUNDING <= whole

    def without(self, cancelled: frozenset[str]) -> Implied:
        """Return the sum over the other choices that follows from the mixture."""
        names = dict.fromkeys((*self.first.columns, *self.second.columns))
        weights = tuple((name, self.column(name)) for name in names if name not in cancelled)
        bound = self.once * self.first.at_most + self.twice * self.second.at_most
        bound -= sum(min(self.column(name)) for name in cancelled)
        keys = frozenset((self.first.key, self.second.key))
        return Implied(keys, *reduced(weights, bound))


def implied_sums(sums: Iterable[Sum], added: Iterable[Sum] = ()) -> tuple[Implied, ...]:
    """Return what each two sums imply that cancel but for a few choices; at most one for a pair.

    Args:
        sums: the sums.
        added: further sums; when there are any, only what they imply with others is returned.
    """
    old, new = (_long(each) for each in (sums, added))
    pairs = itertools.product(old, new) if new else itertools.combinations(old, 2)
    found = (
        _implied(first, second)
        for first, second in itertools.chain(pairs, itertools.combinations(new, 2))
    )
    return tuple(implied for implied in found if implied is not None)


def _long(sums: Iterable[Sum]) -> list[_Plain]:
    plain = (_plain(total) for total in sums)
    return [total for total in plain if len(total.columns) >= _LEAST_CANCELLED]


@lru_cache(maxsize=256)
def _plain(total: Sum) -> _Plain:
    weights, at_most = reduced(total.weights, total.at_most)
    return _Plain(total.origin.key, {n: column for n, column in weights if any(column)}, at_most)


def _implied(first: _Plain, second: _Plain) -> Implied | None:
    shared = [name for name in first.columns if name in second.columns]
    opposed = [name for name in shared if _opposed(first.columns[name], second.columns[name])]
    if len(opposed) < _LEAST_CANCELLED:
        return None
    mixtures = itertools.islice(_mixtures(first, second, opposed), _MOST_MIXTURES)
    mixture, cancelled = max(mixtures, key=lambda found: len(found[1]), default=(None, frozenset()))
    every = len(first.columns) + len(second.columns) - len(shared)
    left = every - len(cancelled)
    if mixture is None or len(cancelled) < _LEAST_CANCELLED or left > max(_FEW, every // 3):
        return None
    return mixture.without(cancelled)


def _opposed(one: tuple[int, ...], other: tuple[int, ...]) -> bool:
    """Say whether a choice weighs next to nothing in the other sum where it weighs most in one."""
    return other[one.index(max(one))] * _ROUNDING <= max(other)


def _mixtures(
    first: _Plain, second: _Plain, opposed: list[str]
) -> Iterator[tuple[_Mixture, frozenset[str]]]:
    """Yield mixtures in which some choice cancels, each with all the choices that cancel in it.

    The heaviest choices come first, as rounding hurts them least, and a choice that an earlier
    mixture has cancelled asks for no other.
    """
    seen: set[str] = set()
    for name in sorted(opposed, key=lambda name: -max(first.columns[name])):
        once, twice = max(second.columns[name]), max(first.columns[name])
        step = gcd(once, twice)
        mixture = _Mixture(first, second, once // step, twice // step)
        if name not in seen and mixture.cancels(name):
            cancelled = frozenset(other for other in opposed if mixture.cancels(other))
            seen |= cancelled
            yield mixture, cancelled

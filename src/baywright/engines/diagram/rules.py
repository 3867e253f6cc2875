"""Rules as the diagram sees them: what a part of a rule's choices says about the rest.

A rule is a table or a sum. Each value of each of its choices has a *code*, a whole number, such
that the codes of some values add up to the code of the values together: the place of a row in
mixed radix for a table, the weight for a sum.

Let S be some of the choices of a rule and R the rest. Two assignments of S are in one *class* when
exactly the same assignments of R complete them. A class stands for all its members in anything
that is still to be decided, so a class is all that a state has to remember of a rule.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Protocol

import numpy as np

from baywright.engines.loops import Ids, Longs


@dataclass(frozen=True, slots=True)
class Part:
    """The classes of a rule for some of its choices.

    Args:
        codes: the codes that can still be completed, rising.
        classes: the class of each code, numbered from 0.
        representatives: for each class, the code of one assignment that really occurs. A made-up
            one, such as the bound less what still fits, would be rounded again on the other side
            of a join and forbid what is legal.
    """

    codes: Longs
    classes: Ids
    representatives: Longs

    @property
    def size(self) -> int:
        """Number of classes."""
        return len(self.representatives)

    def class_of(self, codes: Longs) -> Ids:
        """Return the class of each code, -1 for a code that nothing completes."""
        if not len(self.codes):
            return np.full(codes.shape, -1, np.int32)
        place = np.minimum(np.searchsorted(self.codes, codes), len(self.codes) - 1)
        found: Ids = np.where(self.codes[place] == codes, self.classes[place], -1).astype(np.int32)
        return found


class Rule(Protocol):
    """What tables and sums have in common. A set of its choices is a bit mask over ``scope``."""

    @property
    def scope(self) -> tuple[int, ...]:
        """Numbers of the choices, in rising order."""

    def codes(self, position: int) -> Longs:
        """Return the code of each value of the choice at a position of the scope."""

    def part(self, mask: int) -> Part:
        """Return the classes for some of the choices."""


@dataclass(frozen=True, slots=True)
class Residual:
    """Which assignments of the rest complete each class.

    Args:
        rest: numbers of the choices of the rest, in rising order.
        rows: the assignments of the rest that complete some class, one a row.
        completes: for each class and each of these rows, whether it completes the class.
    """

    rest: tuple[int, ...]
    rows: Ids
    completes: np.typing.NDArray[np.bool_]


@dataclass(slots=True)
class TableRule:
    """A table; rows are distinct and use only values that are left.

    Args:
        scope: numbers of the choices, in rising order.
        rows: the allowed rows of values.
        sizes: number of values of each choice of the scope.
    """

    scope: tuple[int, ...]
    rows: Ids
    sizes: tuple[int, ...]
    _parts: dict[int, Part] = field(default_factory=dict, init=False, repr=False)

    def codes(self, position: int) -> Longs:
        """Return the code of each value of the choice at a position of the scope."""
        codes: Longs = np.arange(self.sizes[position], dtype=np.int64) * self._steps()[position]
        return codes

    def part(self, mask: int) -> Part:
        """Return the classes for some of the choices: partial rows with equal completions."""
        if mask not in self._parts:
            codes, _, completes = self._split(mask)
            classes, first = _equal_rows(completes)
            self._parts[mask] = Part(codes, classes, codes[first])
        return self._parts[mask]

    def residual(self, mask: int) -> Residual:
        """Return the assignments of the rest that complete each class."""
        _, rest_codes, completes = self._split(mask)
        _, first = _equal_rows(completes)
        columns = [i for i in range(len(self.scope)) if not mask >> i & 1]
        steps = self._steps()
        rows = [rest_codes // steps[i] % self.sizes[i] for i in columns]
        return Residual(
            tuple(self.scope[i] for i in columns),
            np.stack(rows, axis=1).astype(np.int32),
            completes[first],
        )

    def _split(self, mask: int) -> tuple[Longs, Longs, np.typing.NDArray[np.bool_]]:
        """Return the codes over the mask, those over the rest, and which ones go together."""
        steps = self._steps()
        inside = np.array([s if mask >> i & 1 else 0 for i, s in enumerate(steps)], np.int64)
        own, own_place = np.unique(self.rows @ inside, return_inverse=True)
        rest, rest_place = np.unique(self.rows @ (steps - inside), return_inverse=True)
        together = np.zeros((len(own), len(rest)), np.bool_)
        together[own_place, rest_place] = True
        return own, rest, together

    def _steps(self) -> Longs:
        steps = np.ones(len(self.sizes), np.int64)
        steps[1:] = np.cumprod(np.array(self.sizes[:-1], np.int64))
        return steps


def _equal_rows(completes: np.typing.NDArray[np.bool_]) -> tuple[Ids, Longs]:
    """Number equal rows alike, in order of first appearance; return also the first of each."""
    packed = np.packbits(completes, axis=1)
    seen: dict[bytes, int] = {}
    first: list[int] = []
    classes = np.empty(len(packed), np.int32)
    for place, row in enumerate(packed):
        number = seen.setdefault(row.tobytes(), len(seen))
        classes[place] = number
        if number == len(first):
            first.append(place)
    return classes, np.array(first, np.int64)


@dataclass(slots=True)
class SumRule:
    """A sum of weights from 0 that is at most a bound from 0.

    Args:
        scope: numbers of the choices, in rising order.
        weights: for each choice of the scope, the weight of each value.
        left: for each choice of the scope, the values that are left.
        at_most: the bound.
    """

    scope: tuple[int, ...]
    weights: tuple[Longs, ...]
    left: tuple[Ids, ...]
    at_most: int
    _parts: dict[int, Part] = field(default_factory=dict, init=False, repr=False)
    _totals: dict[int, int] = field(default_factory=lambda: {0: 1}, init=False, repr=False)

    def codes(self, position: int) -> Longs:
        """Return the weight of each value of the choice at a position of the scope."""
        return self.weights[position]

    def part(self, mask: int) -> Part:
        """Return the classes for some of the choices.

        Two totals are in one class when the same totals that the rest can reach still fit.
        """
        if mask not in self._parts:
            totals = _members(self.totals(mask))
            rest = _members(self.totals(~mask & (1 << len(self.scope)) - 1))
            fitting = np.searchsorted(rest, self.at_most - totals, side="right")
            alive = fitting > 0
            totals, fitting = totals[alive], fitting[alive]
            new = np.diff(fitting, prepend=-1) != 0
            self._parts[mask] = Part(
                totals, np.cumsum(new, dtype=np.int32) - np.int32(1), totals[new]
            )
        return self._parts[mask]

    def residual(self, mask: int) -> Residual:
        """Return the values of the one choice outside the mask that complete each class."""
        (position,) = (i for i in range(len(self.scope)) if not mask >> i & 1)
        values = self.left[position]
        room = self.at_most - self.part(mask).representatives
        completes = self.weights[position][values][None, :] <= room[:, None]
        return Residual((self.scope[position],), values[:, None], completes)

    def totals(self, mask: int) -> int:
        """Return the totals up to the bound that some choices can reach, as bits of a number."""
        if mask not in self._totals:
            position = mask.bit_length() - 1
            before = self.totals(mask & ~(1 << position))
            made = 0
            for weight in np.unique(self.weights[position][self.left[position]]).tolist():
                made |= before << weight
            self._totals[mask] = made & (1 << self.at_most + 1) - 1
        return self._totals[mask]


def _members(bits: int) -> Longs:
    """Return the positions of the bits that are set, rising."""
    octets = np.frombuffer(bits.to_bytes(bits.bit_length() // 8 + 1, "little"), np.uint8)
    return np.flatnonzero(np.unpackbits(octets, bitorder="little")).astype(np.int64)


class Transitions:
    """Which class two classes of a rule give together, remembered for every pair of masks."""

    def __init__(self, rules: Sequence[Rule]) -> None:
        self._rules = rules
        self._known: dict[tuple[int, int, int], Ids] = {}

    def __call__(self, rule: int, left: int, right: int) -> Ids:
        """Return a matrix: the class of the union for each class on the left and on the right.

        Args:
            rule: number of the rule.
            left: mask of the choices on the left.
            right: mask of the choices on the right, none of them on the left.
        """
        key = rule, left, right
        if key not in self._known:
            one, other = self._rules[rule].part(left), self._rules[rule].part(right)
            codes = one.representatives[:, None] + other.representatives[None, :]
            self._known[key] = self._rules[rule].part(left | right).class_of(codes)
        return self._known[key]

"""Values under several sums at once, each decided by a bound or by a build that is checked.

The passes are exact for one sum. For several, every mixture of them bounds what is possible from
above, and the lightest build of a mixture, once it is found to keep each sum, shows what is
possible. What neither decides is left to an engine that searches.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from baywright.engines.diagram.compiled import Compiled
from baywright.engines.diagram.passes import LARGEST, NEVER
from baywright.engines.diagram.tracing import Trace, trace
from baywright.engines.loops import Flags, Longs

_SHARES = (1, 2, 4)
"""How much more one sum can count than another in the mixtures tried."""

_SCALE = 1 << 20
"""What a sum that just reaches its bound counts in a mixture, where that is a whole number."""


@dataclass(frozen=True, slots=True)
class Decided:
    """What the mixtures decide about each value.

    Args:
        possible: values that a checked build has.
        open_values: values neither shown to be possible nor ruled out.
    """

    possible: Flags
    open_values: Flags


def decided(compiled: Compiled, allowed: Flags) -> Decided:
    """Decide as many values as the mixtures can."""
    bounds = np.array([limit.at_most for limit in compiled.limits], np.int64)
    proven = np.zeros(len(allowed), np.bool_)
    bounded = allowed.view(np.bool_).copy()
    for factors, found in _traces(compiled, allowed):
        down = found.down()
        weight, totals = found.through(_others(compiled), down)
        bounded &= weight <= int(factors @ bounds)
        proven |= bounded & (totals <= bounds[:, None]).all(axis=0)
        if not np.any(bounded & ~proven):
            break
    proven &= bounded
    return Decided(proven.astype(np.uint8), (bounded & ~proven).astype(np.uint8))


@dataclass(frozen=True, slots=True)
class Checked:
    """What is known about builds that keep all sums.

    Args:
        build: the values of one, or ``None`` when none was found.
        impossible: whether it was shown that there is none.
    """

    build: Flags | None
    impossible: bool = False


def checked_build(compiled: Compiled, allowed: Flags) -> Checked:
    """Look for a build that keeps all sums among the lightest builds of the mixtures."""
    bounds = [limit.at_most for limit in compiled.limits]
    if not bounds:
        return _any_build(compiled, allowed)
    for factors, found in _traces(compiled, allowed):
        if found.least > int(factors @ np.array(bounds, np.int64)):
            return Checked(None, impossible=True)
        if all(total <= bound for total, bound in zip(found.totals(), bounds, strict=True)):
            return Checked(found.chosen())
    return Checked(None)


def _any_build(compiled: Compiled, allowed: Flags) -> Checked:
    """Look for a build when no sum is left out of the form."""
    none = np.zeros(len(allowed), np.int64)
    found = trace(compiled.form, none, none[None, :], allowed)
    return Checked(found.chosen()) if found.least < NEVER else Checked(None, impossible=True)


def _others(compiled: Compiled) -> Longs:
    return np.stack([limit.weights for limit in compiled.limits])


def _traces(compiled: Compiled, allowed: Flags) -> Iterator[tuple[Longs, Trace]]:
    """Trace each sum alone, then mixtures of all in which the bounds count alike, then others."""
    others = _others(compiled)
    most = [compiled.form.most(weights) for weights in others]
    for factors in _factors([limit.at_most for limit in compiled.limits]):
        # Each sum alone can be added in 64 bits, but not every mixture of very large ones.
        if sum(f * m for f, m in zip(factors, most, strict=True)) <= LARGEST or sum(factors) == 1:
            mixed = np.array(factors, np.int64)
            yield mixed, trace(compiled.form, mixed @ others, others, allowed)


def _factors(bounds: list[int]) -> Iterator[list[int]]:
    count = len(bounds)
    for place in range(count):
        yield [int(other == place) for other in range(count)]
    even = [max(1, _SCALE // (bound + 1)) for bound in bounds]
    for share in _SHARES:
        for place in range(count) if share > 1 else (0,):
            factors = even.copy()
            factors[place] *= share
            yield factors

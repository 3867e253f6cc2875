"""Tallies: what a bounded total comes to in a build, and which place uses how much."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from baywright.answers.verdicts import Tally
from baywright.laws.formula import AtMost
from baywright.laws.machine import Machine
from baywright.laws.wishes import Level


def tally(machine: Machine, totals: Sequence[AtMost], values: Mapping[str, int]) -> Tally | None:
    """Return the numbers of the one total that a reason bounds, or ``None`` where it is not one.

    What counts against the bound is used; what counts for it is given.
    """
    if len(totals) != 1:
        return None
    (total,) = totals
    if total.linear.highest <= 0:
        # All of it counts for the bound: so much is needed, and so much there is.
        return Tally(-total.bound, -total.linear.value(values), total.linear.dimension)
    shares: dict[str, Fraction] = {}
    given = total.bound
    for choice, weights in total.linear.weights.items():
        weight = weights[values[choice]]
        if min(weights) < 0 <= -max(weights):
            given -= weight
        elif weight:
            place = _group(machine, choice)
            shares[place] = shares.get(place, Fraction(0)) + weight
    constant = total.linear.constant
    if constant > 0:
        shares["base"] = constant
    else:
        given -= constant
    ordered = tuple(sorted(shares.items(), key=lambda share: -share[1]))
    return Tally(sum(shares.values(), Fraction(0)), given, total.linear.dimension, ordered)


def level_tally(level: Level, values: Mapping[str, int]) -> Tally:
    """Return what was asked against what a build reaches, for a wish about one number.

    What has to be the smaller of the two is used, the other given.
    """
    reached = level.linear.value(values)
    dimension = level.linear.dimension
    if reached < level.bound or level.op in (">", ">="):
        return Tally(level.bound, reached, dimension)
    return Tally(reached, level.bound, dimension)


def _group(machine: Machine, choice: str) -> str:
    fitting = machine.frame.fittings.get(choice)
    return fitting.place if fitting is not None else choice

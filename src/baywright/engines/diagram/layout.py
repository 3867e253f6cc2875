"""How a count under limits is laid out: totals as exponents of one variable.

A build stands for a power of a variable z, whose exponent is the build's total. All builds together
are a polynomial, which the form evaluates at a point in one pass over its arcs. As many points as
there are totals tell the number of builds of each total, and so of all up to a bound.

Two things keep the points few. Totals are counted from the least one that can be, in steps of what
divides all differences. And the choice that spreads totals most, often what the limit itself
depends on, is left out of them: each of its values leaves a certain room to the rest, and a build
stands for the sum of z to the power of minus k over all k that keep within this room. Multiplied
with the power of the rest and averaged over all points, that is 1 when the rest keeps within the
room, and else 0.

Several limits share the variable: exponents of the second one are multiples of the number of totals
of the first one, and so on (Kronecker substitution).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from baywright.engines.diagram.compiled import Carried
from baywright.engines.diagram.evaluating import Plan, moving_arcs
from baywright.engines.diagram.form import Form
from baywright.engines.diagram.passes import NEVER, downwards, upwards, ways_roughly
from baywright.engines.diagram.residues import MOST_POINTS
from baywright.engines.loops import Flags, Ids, Longs


class TooWide(Exception):  # noqa: N818 - reads as the outcome it is
    """Limits have more different totals than can be told apart by evaluating."""


@dataclass(frozen=True, slots=True, eq=False)
class Layout:
    """A count laid out.

    Args:
        plan: what is evaluated at each point.
        values: the values that take part, in the order of the leaves of the plan.
        points: how many points are needed.
        more: a number greater than that of the builds.
    """

    plan: Plan
    values: Longs
    points: int
    more: int

    @property
    def strides(self) -> tuple[int, ...]:
        """For each limit the exponent that one step of its totals makes."""
        return tuple(self.plan.strides.tolist())


def laid_out(form: Form, limits: Sequence[Carried], allowed: Flags) -> Layout | None:
    """Lay out a count of the builds of a form that keep some limits; ``None`` when there is none.

    Args:
        form: the form, which has states.
        limits: the limits, at least one.
        allowed: which values may be used.

    Raises:
        TooWide: when the limits have too many totals.
    """
    part = _part(form, limits, allowed)
    if part is None:
        return None
    exponents = np.zeros(len(part.values), np.int64)
    marks: list[Longs] = []
    strides: list[int] = []
    taken: list[int] = []
    stride = 1
    for limit in limits:
        scale = _scale(part, limit, taken)
        if stride * scale.totals > MOST_POINTS:
            raise TooWide
        taken.append(scale.filtering)
        strides.append(stride)
        exponents += stride * scale.steps
        marks.append(-stride * scale.room)
        stride *= scale.totals
    plan = _plan(part, exponents, marks, strides)
    return Layout(plan, part.values, stride, more_than(form, part.arcs, part.flags))


@dataclass(frozen=True, slots=True, eq=False)
class _Part:
    """What takes part in a count.

    Args:
        form: the form.
        arcs: the arcs that some build takes which keeps each limit by itself.
        values: numbers of the values that such builds have, in rising order.
        choices: the choice of each of these values.
        begins: where the values of each choice begin.
    """

    form: Form
    arcs: Ids
    values: Longs
    choices: Longs
    begins: Longs

    def least(self, weights: Longs) -> Longs:
        """Return the least weight of each choice."""
        return np.minimum.reduceat(weights, self.begins)

    def most(self, weights: Longs) -> Longs:
        """Return the greatest weight of each choice."""
        return np.maximum.reduceat(weights, self.begins)

    @property
    def flags(self) -> Flags:
        """The values as flags."""
        flags = np.zeros(len(self.form.state_of), np.uint8)
        flags[self.values] = 1
        return flags


def _part(form: Form, limits: Sequence[Carried], allowed: Flags) -> _Part | None:
    """Leave out what no build within one of the limits uses."""
    usable = (allowed != 0) & (form.state_of >= 0)
    kept = np.ones(len(form.arcs), np.bool_)
    up, down = np.empty(form.states, np.int64), np.empty(form.states, np.int64)
    left, right, made = form.arcs.T
    for limit in limits:
        upwards(form.arcs, len(allowed), form.state_of, limit.weights, allowed, up)
        downwards(form.arcs, up, down)
        usable &= limit.weights + down[form.state_of] <= limit.at_most
        kept &= up[left] + up[right] + down[made] <= limit.at_most
    values = np.flatnonzero(usable)
    begins = np.searchsorted(values, form.values)
    if not np.diff(begins).all():
        return None
    choices = np.repeat(np.arange(len(begins) - 1), np.diff(begins))
    part = _Part(form, np.ascontiguousarray(form.arcs[kept]), values, choices, begins[:-1])
    return None if _lightest(part, np.zeros(len(values), np.int64)) >= NEVER else part


def _lightest(part: _Part, weights: Longs) -> int:
    """Return the least total of some weights from 0, one for each value that takes part."""
    of_value = np.zeros(len(part.form.state_of), np.int64)
    of_value[part.values] = weights
    up = np.empty(part.form.states, np.int64)
    upwards(part.arcs, len(of_value), part.form.state_of, of_value, part.flags, up)
    return int(up[part.form.root])


@dataclass(frozen=True, slots=True, eq=False)
class _Scale:
    """One limit in steps.

    Args:
        filtering: the choice that is left out of the totals.
        steps: what each value adds to a total.
        room: for each value of that choice how many totals of the rest are allowed; else 0.
        totals: how many totals of the rest there can be, from 0 on.
    """

    filtering: int
    steps: Longs
    room: Longs
    totals: int


def _scale(part: _Part, limit: Carried, taken: Sequence[int]) -> _Scale:
    """Return a limit in steps; its filtering choice is none of those that are taken."""
    weights = limit.weights[part.values]
    least = part.least(weights)
    spread = part.most(weights) - least
    spread[taken] = -1
    filtering = int(spread.argmax())
    rest = weights - least[part.choices]
    room = limit.at_most - int(least.sum()) - rest
    here = part.choices == filtering
    rest[here] = 0
    step = math.gcd(*np.unique(rest).tolist()) or 1
    steps = rest // step
    heaviest = part.most(steps)
    greatest = int(heaviest.sum()) - _lightest(part, heaviest[part.choices] - steps)
    allowed = np.where(here, np.minimum(room // step, greatest) + 1, 0)
    return _Scale(filtering, steps, allowed, greatest + 1)


def _plan(part: _Part, exponents: Longs, marks: list[Longs], strides: list[int]) -> Plan:
    every = [exponents, *marks, -np.array(strides, np.int64)]
    powers, places = np.unique(np.concatenate(every), return_inverse=True)
    place, *ends, steps = np.split(places.ravel(), np.cumsum([len(each) for each in every[:-1]]))
    filters = [np.where(mark < 0, end, -1) for mark, end in zip(marks, ends, strict=True)]
    has = (np.column_stack(filters) >= 0).any(axis=1)
    filtered = np.column_stack([place, *filters])[has]
    place[has] = len(powers) + np.arange(len(filtered))
    states = part.form.state_of[part.values].astype(np.int64)
    moving = np.zeros(part.form.states, np.uint8)
    moving[states[has | (exponents != 0)]] = 1
    moved = moving_arcs(part.arcs, moving) != 0
    return Plan(
        part.form.states,
        part.arcs[~moved],
        part.arcs[moved],
        np.column_stack([states, place]),
        powers,
        filtered,
        steps,
        -every[-1],
    )


def more_than(form: Form, arcs: Ids, allowed: Flags) -> int:
    """Return a number that is greater than the number of builds that take some arcs."""
    rough = ways_roughly(arcs, form.state_of, allowed, form.states)
    if math.isfinite(rough):
        return 2 * int(rough) + 2
    sizes: list[int] = np.diff(form.values).tolist()
    return math.prod(sizes) + 1

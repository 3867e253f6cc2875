"""Reading a space: what is compiled, what becomes the budget, what is put off.

Tables and sums are written over numbered choices and made simpler until nothing changes: values
that some law rules out are closed, what always holds is dropped, small sums become tables, tables
within the scope of another become part of it.

Sums with many totals would make every state remember its total. One of them, the *budget*, is kept
out of the states and added up along the arcs; others parallel to it are made one with it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import compress

import numpy as np

from baywright.engines.diagram.drafts import (
    Grid,
    Level,
    Open,
    as_grid,
    close_heavy_values,
    drafted,
    grid,
    level,
    product,
)
from baywright.engines.diagram.guards import Guards, in_time
from baywright.engines.diagram.model import Budget, Model
from baywright.engines.diagram.parallel import united
from baywright.engines.diagram.passes import LARGEST
from baywright.engines.diagram.rules import SumRule, TableRule
from baywright.engines.loops import Ids
from baywright.engines.preparation import Deadline
from baywright.space import Space

_SMALL = 4_096
"""Rows up to which a sum over two choices becomes a table."""

_EXPANDED = 200_000
"""Rows up to which a sum with too many totals becomes a table."""

_BITS = 1 << 22
"""Bound up to which the totals of a sum are held as bits."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A space read.

    Args:
        model: what is compiled.
        limits: sums that are not. The first is the budget; others could not be made one with it,
            and an answer has to be checked against them.
        hardest: origins of the compiled sums to be left out first when the rest is too hard.
    """

    model: Model
    limits: tuple[Budget, ...]
    hardest: frozenset[str]


def read(
    space: Space, guards: Guards, deadline: Deadline, defer: frozenset[str] = frozenset()
) -> Reading:
    """Read a space.

    Args:
        space: the space.
        guards: how many totals a sum may have to be compiled.
        deadline: when to stop.
        defer: origins of sums that are not compiled, however few totals they have.

    Raises:
        ValueError: when a sum is too large to be added in 64 bits.
        OutOfTime: at the deadline.
    """
    numbers = {choice.name: number for number, choice in enumerate(space.choices)}
    left: Open = [np.ones(choice.size, np.bool_) for choice in space.choices]
    if not left:
        left.append(np.ones(1, np.bool_))  # a choice without an alternative, so that there is one
    grids = [grid(table, numbers) for table in space.tables]
    sums = [drafted(total, numbers) for total in space.sums]
    grids, sums = _simplified(grids, sums, left, deadline)
    sums.sort(key=lambda total: (-_totals(total, left), total.keys))
    limits, sums = _uncompiled(sums, left, grids, guards, defer)
    model = _model(left, grids, sums, deadline)
    budgets = tuple(_budget(total, left) for total in limits)
    return Reading(model, budgets, _hardest(sums))


def _simplified(
    grids: list[Grid], sums: list[Level], left: Open, deadline: Deadline
) -> tuple[list[Grid], list[Level]]:
    """Close values, drop what always holds and turn small sums into tables."""
    before = -1
    while before != (before := sum(int(values.sum()) for values in left)):
        grids = _narrowed(grids, left, deadline)
        sums = [level(total, left) for total in sums]
        for total in sums:
            close_heavy_values(total, left)
    if any(not len(g.rows) for g in grids) or any(s.at_most < 0 for s in sums):
        for values in left:
            values[:] = False
        return [], []
    sums = [total for total in sums if total.greatest > total.at_most]
    small = [_is_small(total, left) for total in sums]
    grids = grids + [as_grid(total, left) for total in compress(sums, small)]
    return grids, [total for total, is_small in zip(sums, small, strict=True) if not is_small]


def _is_small(total: Level, left: Open) -> bool:
    rows = product(left, tuple(total.weights))
    return (len(total.weights) <= 2 and rows <= _SMALL) or (
        total.at_most >= _BITS and rows <= _EXPANDED
    )


def _uncompiled(
    sums: list[Level], left: Open, grids: list[Grid], guards: Guards, defer: frozenset[str]
) -> tuple[list[Level], list[Level]]:
    """Separate the sums that are not compiled from those that are.

    The widest one becomes the budget when it is wide enough, and takes in those parallel to it.
    Of the others, those are compiled that are not far too wide or to be deferred.
    """
    limits: list[Level] = []
    compiled: list[Level] = []
    for total in sums:
        count = _totals(total, left)
        union = united(limits[0], total, left) if limits and count > guards.totals else None
        if union is not None:
            limits[0] = union.total
            grids += [union.table] if union.table else []
        elif defer.intersection(total.keys) or count > (guards.far if limits else guards.totals):
            limits.append(total)
        else:
            compiled.append(total)
    return limits, compiled


def _hardest(sums: list[Level]) -> frozenset[str]:
    """Return the origins of the largest group of sums over the same choices, or of the widest sum.

    Limits on each of many kinds in the same places are such a group. They are what makes states
    multiply most, few totals as each of them has.
    """
    groups: dict[frozenset[int], list[Level]] = {}
    for total in sums:
        groups.setdefault(frozenset(total.weights), []).append(total)
    largest = max(groups.values(), key=len, default=[])
    chosen = largest if len(largest) > 2 else sums[:1]
    return frozenset(key for total in chosen for key in total.keys)


def _totals(total: Level, left: Open) -> int:
    """Return how many totals up to the bound can be reached, or the bound if there are many."""
    if total.at_most >= _BITS:
        return total.at_most
    rule = _sum_rule(total, left)
    return rule.totals((1 << len(rule.scope)) - 1).bit_count()


def _budget(total: Level, left: Open) -> Budget:
    if total.greatest > LARGEST:
        raise ValueError(f"{total.keys[0]}: the sum is too large for the diagram engine")
    weights = (
        np.array(total.weights.get(choice, (0,) * len(values)), np.int64)
        for choice, values in enumerate(left)
    )
    return Budget(tuple(weights), total.at_most, total.keys)


def _model(left: Open, grids: Iterable[Grid], sums: Iterable[Level], deadline: Deadline) -> Model:
    sizes = tuple(len(values) for values in left)
    tables = tuple(
        TableRule(table.scope, table.rows, tuple(sizes[choice] for choice in table.scope))
        for table in _narrowed(_conjoined(list(grids), deadline), left, deadline)
        if not table.is_full(left)
    )
    values = tuple(np.flatnonzero(v).astype(np.int32) for v in left)
    return Model(sizes, values, tables, tuple(_sum_rule(total, left) for total in sums))


def _narrowed(grids: list[Grid], left: Open, deadline: Deadline) -> list[Grid]:
    """Close values that some table rules out, until no table rules out any more."""
    before = -1
    while before != (before := sum(int(values.sum()) for values in left)):
        narrower: list[Grid] = []
        for table in grids:
            in_time(deadline, f"closed values by {len(narrower):,} of {len(grids):,} tables")
            narrower.append(table.narrowed(left))
        grids = narrower
    return grids


def _sum_rule(total: Level, left: Open) -> SumRule:
    scope = tuple(sorted(total.weights))
    return SumRule(
        scope,
        tuple(np.array(total.weights[choice], np.int64) for choice in scope),
        tuple(np.flatnonzero(left[choice]).astype(np.int32) for choice in scope),
        total.at_most,
    )


def _conjoined(grids: list[Grid], deadline: Deadline) -> list[Grid]:
    """Make each table that lies within the scope of another one a part of it.

    Tables without a choice say nothing here; one without a row has closed all values before.
    """
    kept: list[Grid] = []
    about: dict[int, list[int]] = {}
    ordered = sorted((g for g in grids if g.scope), key=lambda g: (-len(g.scope), g.scope))
    for done, table in enumerate(ordered):
        in_time(deadline, f"compared {done:,} of {len(ordered):,} tables")
        likely = min((about.get(choice, []) for choice in table.scope), key=len)
        within = [place for place in likely if set(table.scope) <= set(kept[place].scope)]
        for place in within:
            kept[place] = _filtered(kept[place], table)
        if not within:
            for choice in table.scope:
                about.setdefault(choice, []).append(len(kept))
            kept.append(table)
    return kept


def _filtered(table: Grid, by: Grid) -> Grid:
    """Return the rows of a table that another one, over some of its choices, allows."""
    columns = [table.scope.index(choice) for choice in by.scope]
    allowed: set[tuple[int, ...]] = set(map(tuple, by.rows.tolist()))
    parts: Ids = table.rows[:, columns]
    keep = np.array([tuple(row) in allowed for row in parts.tolist()], np.bool_)
    return Grid(table.scope, table.rows[keep])

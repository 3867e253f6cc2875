"""Merging states that no completion can tell apart, although their classes differ.

Two states are merged when they agree in what follows; one whole row of them is kept. (A row put
together from several would be that of no assignment, and the classes on the other side of a join
are right for real ones only.)

1. Open rules with the same rest act together: an assignment of the rest has to complete each of
   them. What counts is the set of those that complete all; where it is empty, the state is dead.
2. A sum cannot be broken any more when another open sum weighs every value of its rest at least as
   much and has no more room left. Then its class does not count.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

import numpy as np

from baywright.engines.diagram.rules import Residual, Rule, SumRule, TableRule
from baywright.engines.hashing import distinct_rows
from baywright.engines.loops import Ids


def merged(rules: Sequence[Rule], masks: Mapping[int, int], states: Ids) -> tuple[Ids, Ids]:
    """Merge the states of a cluster.

    Args:
        rules: all rules.
        masks: for each open rule, which of its choices are inside.
        states: one row of classes for each state.

    Returns:
        For each state the number of the merged one, -1 for a dead one; and the rows that are kept.
    """
    marks = states.copy()
    dead = np.zeros(len(states), np.bool_)
    _blank_implied_sums(rules, masks, states, marks)
    for together in _same_rest(rules, masks):
        numbers = _completions_in_common(rules, masks, states, together)
        marks[:, together] = 0
        marks[:, together[0]] = numbers
        dead |= numbers < 0
    alive = np.flatnonzero(~dead)
    numbers, first = distinct_rows(np.ascontiguousarray(marks[alive]))
    result = np.full(len(states), -1, np.int32)
    result[alive] = numbers
    return result, states[alive[first]]


def _same_rest(rules: Sequence[Rule], masks: Mapping[int, int]) -> list[list[int]]:
    """Return the columns of open rules that have the same rest, where there are several."""
    by_rest: dict[tuple[int, ...], list[int]] = defaultdict(list)
    for column, (rule, mask) in enumerate(masks.items()):
        scope = rules[rule].scope
        rest = tuple(x for i, x in enumerate(scope) if not mask >> i & 1)
        if len(rest) == 1 or isinstance(rules[rule], TableRule):
            by_rest[rest].append(column)
    return [columns for columns in by_rest.values() if len(columns) > 1]


def _completions_in_common(
    rules: Sequence[Rule], masks: Mapping[int, int], states: Ids, together: list[int]
) -> Ids:
    """Number the states by what completes all of some rules; -1 where nothing does."""
    kinds, first = distinct_rows(np.ascontiguousarray(states[:, together]))
    open_rules = list(masks.items())
    residuals = [
        _residual(rules[rule], mask) for rule, mask in map(open_rules.__getitem__, together)
    ]
    common = _aligned(residuals)
    complete = np.ones((len(first), common[0].shape[1]), np.bool_)
    for column, completes in zip(together, common, strict=True):
        complete &= completes[states[first, column]]
    numbers, _ = distinct_rows(np.packbits(complete, axis=1).astype(np.int32))
    numbers[~complete.any(axis=1)] = -1
    return numbers[kinds]


def _residual(rule: Rule, mask: int) -> Residual:
    if isinstance(rule, TableRule | SumRule):
        return rule.residual(mask)
    raise TypeError(f"a rule of an unknown kind: {rule!r}")


def _aligned(residuals: Sequence[Residual]) -> list[np.typing.NDArray[np.bool_]]:
    """Return what completes each class of several rules, over the same rows of the rest."""
    every = np.concatenate([residual.rows for residual in residuals])
    numbers, first = distinct_rows(every)
    aligned, begin = [], 0
    for residual in residuals:
        places = numbers[begin : begin + len(residual.rows)]
        begin += len(residual.rows)
        wide = np.zeros((len(residual.completes), len(first)), np.bool_)
        wide[:, places] = residual.completes
        aligned.append(wide)
    return aligned


def _blank_implied_sums(
    rules: Sequence[Rule], masks: Mapping[int, int], states: Ids, marks: Ids
) -> None:
    """Set the mark of a sum to -1 in every state in which another open sum keeps it."""
    sums = [
        (column, rule, mask)
        for column, (number, mask) in enumerate(masks.items())
        if isinstance(rule := rules[number], SumRule)
    ]
    rooms = {
        column: (rule.at_most - rule.part(mask).representatives)[states[:, column]]
        for column, rule, mask in sums
    }
    kept = set(rooms)
    for column, rule, mask in sums:
        for other, above, other_mask in sums:
            if other != column and other in kept and _outweighs(above, other_mask, rule, mask):
                marks[rooms[other] <= rooms[column], column] = -1
                kept.discard(column)


def _outweighs(above: SumRule, above_mask: int, rule: SumRule, mask: int) -> bool:
    """Say whether a sum weighs each value of another sum's rest at least as much as that one."""
    for position, choice in enumerate(rule.scope):
        if mask >> position & 1:
            continue
        if choice not in above.scope:
            return False
        place = above.scope.index(choice)
        values = rule.left[position]
        if above_mask >> place & 1 or np.any(
            above.weights[place][values] < rule.weights[position][values]
        ):
            return False
    return True

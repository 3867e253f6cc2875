"""Tables with many rows, and sums, as the flat arrays that the loops read."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

import numpy as np

from baywright.engines.bulk.arrays import Hashed, Scope, Sums, joined, offsets
from baywright.engines.contract import Unsupported
from baywright.engines.hashing import mixed, slots_for
from baywright.engines.loops import Ids, Longs, compiled
from baywright.engines.preparation import shifted
from baywright.space import Sum, Table

_LARGEST = 1 << 62
"""Totals have to stay below this, so that no loop can overflow."""

Listed: TypeAlias = tuple[Scope, Ids]
"""The rows that are allowed, or that decide a value, over a scope."""

Weighed: TypeAlias = tuple[Scope, list[Longs], int]
"""Weights for each choice of a scope, and what they total at most."""


def row_array(table: Table) -> Ids:
    """Return the rows of a table in ascending order."""
    return np.array(sorted(table.rows), np.int32).reshape(len(table.rows), len(table.scope))


def exact(law: Sum) -> tuple[list[Longs], int]:
    """Return weights and bound in 64 bits, saying the same as the sum.

    Raises:
        Unsupported: when the numbers are too large for that.
    """
    plain = shifted(law)
    if plain.greatest >= _LARGEST:
        raise Unsupported(f"the numbers of {law.origin.key} take more than 64 bits")
    bound = max(-1, min(plain.at_most, plain.greatest))
    return [np.array(column, np.int64) for _, column in plain.weights], bound


def hashed(listed: Mapping[int, Listed]) -> Hashed:
    """Return look-ups among rows, by law number."""
    scopes = [scope for scope, _ in listed.values()]
    slots = [_slots(rows) for _, rows in listed.values()]
    return Hashed(
        offsets(map(len, scopes)),
        joined([np.array(scope, np.int32) for scope in scopes], np.int32),
        offsets(map(len, slots)),
        joined(slots, np.int32),
        offsets(rows.size for _, rows in listed.values()),
        joined([rows for _, rows in listed.values()], np.int32),
        np.array(list(listed), np.int32),
    )


def summed(weighed: Mapping[int, Weighed]) -> Sums:
    """Return totals with their bounds, by law number."""
    scopes = [scope for scope, _, _ in weighed.values()]
    columns = [column for _, columns, _ in weighed.values() for column in columns]
    return Sums(
        offsets(map(len, scopes)),
        joined([np.array(scope, np.int32) for scope in scopes], np.int32),
        offsets(map(len, columns)),
        joined(columns, np.int64),
        np.array([bound for _, _, bound in weighed.values()], np.int64),
        np.array(list(weighed), np.int32),
    )


@compiled
def _slots(rows: Ids) -> Ids:
    """Return a hash table of rows that are all different: the number of a row in each slot."""
    count, width = rows.shape
    slots = np.full(slots_for(count), -1, np.int32)
    last = len(slots) - 1
    for row in range(count):
        key = 0
        for column in range(width):
            key = mixed(key ^ rows[row, column])
        slot = key & last
        while slots[slot] >= 0:
            slot = (slot + 1) & last
        slots[slot] = row
    return slots

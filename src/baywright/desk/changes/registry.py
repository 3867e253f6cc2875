"""Everything that is watched while a book changes. A new sort of thing is a function and a line."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeAlias

from baywright.desk.changes.answers import questions, recorded
from baywright.desk.changes.builds import builds, models, needs, orders
from baywright.desk.changes.dates import dates, last_orders, shipping_parts, standing
from baywright.desk.changes.drafts import drafts
from baywright.desk.changes.nearest import nearest
from baywright.desk.changes.said import Pair
from baywright.desk.changes.watched import Versions, Watched

Watcher: TypeAlias = Callable[[Versions, Watched], Iterator[Pair]]
"""Yields each thing of a sort with what is said of it under both versions."""

WATCHERS: tuple[Watcher, ...] = (
    standing,
    dates,
    last_orders,
    shipping_parts,
    questions,
    models,
    builds,
    nearest,
    orders,
    recorded,
    drafts,
    needs,
)

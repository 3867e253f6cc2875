"""Which lines are said: the most valuable set that fits the time, exactly."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

STEP = 100
"""Milliseconds in which time is counted; what takes time takes the next whole number of steps."""

NEVER = -1
"""Value of a time that nothing fills."""


@dataclass(frozen=True, slots=True)
class Item:
    """Something that is said whole or not at all.

    Args:
        key: its id, unlike that of any other item or group.
        seconds: how long it takes [s].
        value: how much it is wanted, more than 0.
    """

    key: str
    seconds: float
    value: int


@dataclass(frozen=True, slots=True)
class Group:
    """Items that can be said once something else has been said before them.

    Args:
        key: its id.
        seconds: how long that takes, whatever is said after it [s].
        items: the items.
        needed: whether it is said in any case.
        value: how much it is wanted that something of it is said, 0 or more.
    """

    key: str
    seconds: float
    items: tuple[Item, ...]
    needed: bool = False
    value: int = 0


@dataclass(frozen=True, slots=True)
class Chosen:
    """What is said.

    Args:
        keys: ids of groups and items.
        value: what they are worth together.
    """

    keys: frozenset[str]
    value: int


def chosen(groups: Sequence[Group], seconds: float) -> Chosen | None:
    """Return the groups and items with the greatest value that fit a time.

    Dynamic programming over time (0/1 knapsack; R. Bellman, "Dynamic Programming", 1957, from
    memory), each group gone through once with what it needs said and once left out.

    Args:
        groups: the groups; no two ids are the same.
        seconds: the time [s].

    Returns:
        the choice, or ``None`` when what is needed takes longer.
    """
    room = _milliseconds(seconds) // STEP
    if room < 0:
        return None
    best = [0] * (room + 1)
    tables = []
    for group in groups:
        table = _Table(group, best)
        tables.append(table)
        best = table.best
    if best[room] == NEVER:
        return None
    return Chosen(frozenset(_back(tables, room)), best[room])


def _back(tables: Sequence[_Table], at: int) -> Iterator[str]:
    for table in reversed(tables):
        if not table.opened[at]:
            continue
        yield table.group.key
        for key, length, took in reversed(table.taken):
            if took[at]:
                yield key
                at -= length
        at -= _steps(table.group)


class _Table:
    """The best values by time after one more group, and how they came about.

    Args:
        group: the group.
        before: the best values without it.
    """

    def __init__(self, group: Group, before: Sequence[int]) -> None:
        self.group = group
        self.taken: list[tuple[str, int, bytearray]] = []
        self.best = _later(before, _steps(group), group.value)
        for item in group.items:
            self._offer(item)
        self.opened = bytearray(len(before))
        for at, without in enumerate(before):
            if group.needed or self.best[at] > without:
                self.opened[at] = 1
            else:
                self.best[at] = without

    def _offer(self, item: Item) -> None:
        """Offer an item to every time, the longest first, so that it is not taken twice."""
        best, length, took = self.best, _steps(item), bytearray(len(self.best))
        for at in range(len(best) - 1, length - 1, -1):
            before = best[at - length]
            if before != NEVER and before + item.value > best[at]:
                best[at], took[at] = before + item.value, 1
        self.taken.append((item.key, length, took))


def _later(best: Sequence[int], steps: int, value: int) -> list[int]:
    """Return the best values by time when some of it is gone before, and worth something."""
    room = len(best)
    later = (NEVER if each == NEVER else each + value for each in best[: max(0, room - steps)])
    return [*([NEVER] * min(steps, room)), *later]


def _steps(of: Item | Group) -> int:
    return -(-_milliseconds(of.seconds) // STEP)


def _milliseconds(seconds: float) -> int:
    return round(1000 * seconds)

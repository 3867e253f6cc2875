"""What is chosen against every choice there is."""

from __future__ import annotations

import itertools
import math

from hypothesis import given
from hypothesis import strategies as st

from baywright.desk.walk.choosing import Group, Item, chosen

TENTHS = st.integers(0, 30).map(lambda tenths: tenths / 10)


@st.composite
def groups(draw: st.DrawFn) -> list[Group]:
    """Draw up to three groups of up to three items."""
    found = []
    for number in range(draw(st.integers(0, 3))):
        items = tuple(
            Item(f"{number}.{each}", draw(TENTHS), draw(st.integers(1, 9)))
            for each in range(draw(st.integers(0, 3)))
        )
        found.append(
            Group(f"{number}", draw(TENTHS), items, draw(st.booleans()), draw(st.integers(0, 9)))
        )
    return found


def steps(seconds: float) -> int:
    return math.ceil(round(10 * seconds, 6))


def room_of(seconds: float) -> int:
    return math.floor(round(10 * seconds, 6))


def best(held: list[Group], room: int) -> int | None:
    """Return the best value of all choices that fit, or ``None`` where none does."""
    ways = []
    for group in held:
        own = [] if group.needed else [(0, 0)]
        for number in range(len(group.items) + 1):
            for items in itertools.combinations(group.items, number):
                length = steps(group.seconds) + sum(steps(item.seconds) for item in items)
                own.append((length, group.value + sum(item.value for item in items)))
        ways.append(own)
    fitting = [
        sum(value for _, value in way)
        for way in itertools.product(*ways)
        if sum(length for length, _ in way) <= room
    ]
    return max(fitting, default=None)


@given(groups(), st.integers(0, 120).map(lambda tenths: tenths / 10))
def test_no_choice_that_fits_is_worth_more(held: list[Group], seconds: float) -> None:
    found = chosen(held, seconds)
    assert (found.value if found else None) == best(held, room_of(seconds))
    if found is None:
        return
    taken = [group for group in held if group.key in found.keys]
    items = [item for group in held for item in group.items if item.key in found.keys]
    assert all(group.key in found.keys for group in held if group.needed)
    assert all(any(item in group.items for group in taken) for item in items)
    values = [*(group.value for group in taken), *(item.value for item in items)]
    assert sum(values) == found.value
    lengths = [*(group.seconds for group in taken), *(item.seconds for item in items)]
    used = sum(map(steps, lengths))
    assert used <= room_of(seconds)


def test_no_time_takes_nothing() -> None:
    assert chosen([Group("a", 1.0, (), needed=True)], -1.0) is None

"""Small random spaces and questions about them."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from hypothesis import strategies as st

from baywright.engines.contract import Assumptions, Objective
from baywright.space import Choice, Origin, Space, Sum, Table

_KEYS = ("slots", "lanes", "power", "air", "orders")
"""Few keys, so that tables and sums share some."""


@dataclass(frozen=True)
class Case:
    """A space with something to ask about it."""

    space: Space
    assumptions: Assumptions
    objective: Objective
    over: tuple[str, ...]


def origin(key: str) -> Origin:
    return Origin(key, "law", f"The law of {key} holds.")


def subset_of(rows: list[tuple[int, ...]]) -> st.SearchStrategy[frozenset[tuple[int, ...]]]:
    """Any set of the rows, drawn as one number with a bit for each."""
    bits = st.integers(0, 2 ** len(rows) - 1)
    return bits.map(lambda drawn: frozenset(r for i, r in enumerate(rows) if drawn >> i & 1))


@st.composite
def tables(draw: st.DrawFn, choices: list[Choice]) -> Table:
    scope = draw(st.lists(st.sampled_from(choices), unique=True, max_size=4))
    rows = list(itertools.product(*(range(choice.size) for choice in scope)))
    allowed = draw(subset_of(rows))
    if draw(st.booleans()):  # nearly full tables are as common as nearly empty ones
        allowed = allowed | draw(subset_of(rows))
    key = draw(st.sampled_from(_KEYS))
    return Table(tuple(choice.name for choice in scope), allowed, origin(key))


@st.composite
def weights(draw: st.DrawFn, choices: list[Choice]) -> tuple[tuple[str, tuple[int, ...]], ...]:
    scope = draw(st.lists(st.sampled_from(choices), unique=True)) if choices else []
    number = st.integers(-6, 12)
    step = draw(st.sampled_from((1, 1, 5)))
    return tuple(
        (choice.name, tuple(step * draw(number) for _ in choice.values)) for choice in scope
    )


@st.composite
def sums(draw: st.DrawFn, choices: list[Choice]) -> Sum:
    key = draw(st.sampled_from(_KEYS))
    return Sum(draw(weights(choices)), draw(st.integers(-10, 30)), origin(key), "W")


@st.composite
def derived(draw: st.DrawFn, choices: list[Choice]) -> tuple[Choice, Table]:
    """A choice that two others determine, and the table that says how."""
    first, second = draw(st.sampled_from(choices)), draw(st.sampled_from(choices))
    pairs = itertools.product(range(first.size), range(second.size))
    result = Choice("derived", ("0", "1", "2"), derived=True)
    rows = frozenset((a, b, draw(st.integers(0, 2))) for a, b in pairs)
    return result, Table((first.name, second.name, "derived"), rows, origin("derived"))


@st.composite
def spaces(draw: st.DrawFn, most: int = 6) -> Space:
    sizes = draw(st.lists(st.integers(1, 4), max_size=most))
    choices = [
        Choice(f"choice {number}", tuple(f"value {value}" for value in range(size)))
        for number, size in enumerate(sizes)
    ]
    if not choices:
        return Space((), (), tuple(draw(st.lists(sums([]), max_size=1))))
    found = draw(st.lists(tables(choices), max_size=4))
    if draw(st.booleans()):
        result, function = draw(derived(choices))
        choices, found = [*choices, result], [*found, function]
    return Space(tuple(choices), tuple(found), tuple(draw(st.lists(sums(choices), max_size=3))))


@st.composite
def assumptions(draw: st.DrawFn, space: Space) -> Assumptions:
    some = draw(st.lists(st.sampled_from(space.choices), unique=True)) if space.choices else []
    allowed = {c.name: draw(st.frozensets(st.integers(0, c.size - 1))) for c in some}
    return Assumptions(allowed, draw(st.frozensets(st.sampled_from(_KEYS), max_size=3)))


@st.composite
def cases(draw: st.DrawFn, most: int = 6) -> Case:
    space = draw(spaces(most))
    names = [choice.name for choice in space.choices]
    return Case(
        space,
        draw(assumptions(space)),
        Objective(draw(weights(list(space.choices)))),
        tuple(draw(st.lists(st.sampled_from(names), unique=True))) if names else (),
    )

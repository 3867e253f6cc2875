"""Whether derived choices are determined, against going through the builds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from baywright.engines.brute import Brute
from baywright.engines.contract import Limit
from baywright.engines.diagram.determining import determined, determined_in
from baywright.engines.diagram.guards import Guards
from baywright.engines.diagram.session import compile_space
from baywright.engines.preparation import Deadline
from baywright.space import Choice, Space, Sum
from tests.conformance.spaces import spaces
from tests.engines.diagram.given import origin


@st.composite
def loosely_derived(draw: st.DrawFn) -> Space:
    """A space in which any choice may be marked as derived, determined or not."""
    space = draw(spaces(4))
    choices = [replace(choice, derived=draw(st.booleans())) for choice in space.choices]
    return Space(tuple(choices), space.tables, space.sums)


def shown(space: Space) -> bool:
    derived = (number for number, choice in enumerate(space.choices) if choice.derived)
    compiled = compile_space(space, Guards(), Deadline(Limit(60)))
    return determined_in(compiled.form, frozenset(derived))


def alone(space: Space) -> bool:
    """Whether no two builds differ in derived choices alone."""
    names = [choice.name for choice in space.choices]
    builds: list[Mapping[str, int]] = [
        dict(zip(names, row, strict=True)) for row in Brute().each(space, tuple(names))
    ]
    own = [choice.name for choice in space.choices if not choice.derived]
    return len({tuple(build[name] for name in own) for build in builds}) == len(builds)


@given(loosely_derived())
def test_determined_means_no_two_builds_differ_in_derived_choices_alone(space: Space) -> None:
    """With every sum compiled the form knows all; what tables show by themselves is less."""
    assert shown(space) == alone(space)
    assert alone(space) or not determined(space)


def test_a_sum_that_determines_a_choice() -> None:
    total = Choice("total", ("0", "1", "2"), derived=True)
    parts = (Choice("a", ("0", "1")), Choice("b", ("0", "1")))
    up = (("a", (0, 1)), ("b", (0, 1)))
    at_most = Sum((*up, ("total", (0, -1, -2))), 0, origin("at most"))
    down = (("a", (0, -1)), ("b", (0, -1)))
    at_least = Sum((*down, ("total", (0, 1, 2))), 0, origin("at least"))
    both = Space((*parts, total), (), (at_most, at_least))
    assert shown(both)
    assert not determined(both)
    assert not shown(Space(both.choices, (), (at_most,)))

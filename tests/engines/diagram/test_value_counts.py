"""How many builds have each value, against going through them and against one count for each."""

from __future__ import annotations

import pytest
from hypothesis import given

from baywright.engines.contract import Assumptions, Limit, OutOfTime
from baywright.engines.diagram import Diagram, Guards
from baywright.engines.diagram.counting import counted_values
from baywright.engines.preparation import Deadline
from baywright.space import Space
from tests.conformance.judging import brute_builds
from tests.conformance.spaces import Case, cases
from tests.engines.diagram.given import two_socket
from tests.engines.diagram.test_counting import chain

ENGINES = (Diagram(), Diagram(Guards(totals=0)))


def compared(engine: Diagram, case: Case) -> None:
    """Derived choices not determined: builds are told apart by the others, one count for each."""
    own = [choice.name for choice in case.space.choices if not choice.derived]
    rows = [dict(build) for build in brute_builds(case.space, case.assumptions)]
    try:
        found = engine.count_values(case.space, case.assumptions)
    except OutOfTime as late:
        assert "at the same time" in str(late)  # noqa: PT017 - several sums carried, derived choices free
        return
    for choice in case.space.choices:
        have = [
            {tuple(r[n] for n in own) for r in rows if r[choice.name] == v}
            for v in range(choice.size)
        ]
        assert found[choice.name] == tuple(map(len, have))


@given(cases())
def test_values_are_counted_without_a_budget(case: Case) -> None:
    compared(ENGINES[0], case)


@given(cases())
def test_values_are_counted_under_a_budget(case: Case) -> None:
    compared(ENGINES[1], case)


def test_all_at_once_are_what_one_count_for_each_gives() -> None:
    space, compiled = chain()
    engine = ENGINES[1]
    found = engine.count_values(space)
    for name, numbers in found.items():
        for value, number in enumerate(numbers):
            assert number == engine.count(space, Assumptions({name: frozenset({value})}))
    with pytest.raises(OutOfTime):
        counted_values(compiled.form, compiled.limits, compiled.flags({}), Deadline(Limit(0)))


@pytest.fixture(scope="module")
def space() -> Space:
    return two_socket()


def test_values_of_a_large_space_are_what_one_count_for_each_gives(space: Space) -> None:
    engine = Diagram()
    found, total = engine.count_values(space), engine.count(space)
    assert all(sum(numbers) == total for numbers in found.values())
    for name in ("psu", "s1", "s8"):
        for value in range(0, space.choice(name).size, 5):
            given_ = Assumptions({name: frozenset({value})})
            assert found[name][value] == engine.count(space, given_)

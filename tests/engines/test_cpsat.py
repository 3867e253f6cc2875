"""Several objectives at once, against looking at every build."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.engines.contract import Best, Cut, Impossible, Limit, Objective
from baywright.engines.cpsat import CpSat
from baywright.space import Choice, Space
from tests.conformance.judging import brute_builds
from tests.conformance.spaces import Case, cases, weights


@dataclass(frozen=True)
class Asked:
    """A case with objectives in order."""

    case: Case
    objectives: list[Objective]


@st.composite
def asked(draw: st.DrawFn) -> Asked:
    case = draw(cases())
    drawn = st.builds(Objective, weights(list(case.space.choices)))
    return Asked(case, draw(st.lists(drawn, min_size=1, max_size=3)))


@given(asked())
def test_each_objective_is_least_among_the_builds_best_before(asked: Asked) -> None:
    case, objectives = asked.case, asked.objectives
    legal = list(brute_builds(case.space, case.assumptions))
    found = CpSat().best_of(case.space, objectives, case.assumptions)
    if not legal:
        assert found == (Impossible(),)
        return
    least = min(tuple(each.value(build) for each in objectives) for build in legal)
    assert [optimum.value for optimum in found if isinstance(optimum, Best)] == list(least)
    last = found[-1]
    assert isinstance(last, Best)
    assert last.values in legal
    assert tuple(each.value(last.values) for each in objectives) == least


def test_no_time_is_no_answer() -> None:
    space = Space(tuple(Choice(f"c{i}", ("0", "1")) for i in range(3)))
    objective = Objective((("c0", (0, 1)),))
    assert CpSat().best_of(space, [objective, objective], limit=Limit(0)) == (Cut(),)


def test_an_objective_without_sense_is_refused_before_any_work() -> None:
    space = Space((Choice("c", ("0", "1")),))
    with pytest.raises(ValueError, match="needs a weight for each value"):
        CpSat().best_of(space, [Objective(()), Objective((("d", (0, 1)),))])

"""Engines that keep a space say of each question what the brute engine says of it alone."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from hypothesis import given

from baywright.engines.brute import Brute
from baywright.engines.contract import NOTHING, Assumptions, Engine, Impossible, Possible
from baywright.engines.grown import GrownCpSat, GrownSearch
from baywright.space import Choice, Law, Origin, Space, Sum, Table, broken
from tests.conformance.spaces import Case, cases

MOST_QUESTIONS = 8


def _asked(law: Law, number: int) -> Law:
    return replace(law, origin=Origin(f"asked:{number}", "wish", "Asked."))


def _with(base: Space, laws: tuple[Law, ...]) -> Space:
    return base.extended(
        tables=(law for law in laws if isinstance(law, Table)),
        sums=(law for law in laws if isinstance(law, Sum)),
    )


def _judge(engine: Engine, space: Space, assumptions: Assumptions = NOTHING) -> None:
    found, wanted = engine.prove(space, assumptions), Brute().prove(space, assumptions)
    assert type(found) is type(wanted)
    if isinstance(found, Possible):
        assert not broken(space.without(assumptions.without), found.values)
        assert found.values.keys() == {choice.name for choice in space.choices}
    if isinstance(found, Impossible) and found.core is not None:
        assert found.core <= space.origins.keys() - assumptions.without
        assert isinstance(Brute().prove(space.only(found.core), assumptions), Impossible)


@pytest.mark.parametrize("grown", [GrownSearch, GrownCpSat])
@given(case=cases(most=4))
def test_each_question_is_answered_as_if_it_were_the_only_one(
    grown: type[GrownSearch | GrownCpSat], case: Case
) -> None:
    laws = case.space.laws
    kept, asked = laws[::2], tuple(_asked(law, n) for n, law in enumerate(laws[1::2]))
    base = _with(Space(case.space.choices), kept)
    engine = grown(base)
    questions = (
        each for size in range(len(asked) + 1) for each in itertools.combinations(asked, size)
    )
    for question in itertools.islice(questions, MOST_QUESTIONS):
        _judge(engine, _with(base, question))
        _judge(engine, _with(base, question), Assumptions(case.assumptions.allowed))
    _judge(engine, base)
    _judge(engine, case.space, case.assumptions)


BASE = Space((Choice("a", ("0", "1", "2")), Choice("b", ("0", "1"))))


def _not_zero(key: str, name: str, size: int) -> Table:
    rows = frozenset((value,) for value in range(1, size))
    return Table((name,), rows, Origin(key, "wish", "It is not 0."))


def test_a_key_that_stands_for_something_else_is_refused() -> None:
    engine = GrownSearch(BASE)
    engine.prove(BASE.extended(tables=[_not_zero("asked", "a", 3)]))
    with pytest.raises(ValueError, match="other laws"):
        engine.prove(BASE.extended(tables=[_not_zero("asked", "b", 2)]))


@pytest.mark.parametrize("grown", [GrownSearch, GrownCpSat])
def test_helper_choices_come_with_the_question(grown: type[GrownSearch | GrownCpSat]) -> None:
    engine = grown(BASE)
    helper = Choice("h", ("0", "1"))
    rows = frozenset({(0, 1), (1, 2)})
    table = Table(("h", "a"), rows, Origin("asked", "wish", "a is not 0."))
    for _ in range(2):
        _judge(engine, BASE.extended([helper], [table]))
        _judge(engine, BASE.extended([helper], [table, _not_zero("other", "b", 2)]))
        _judge(engine, BASE)


def test_a_program_that_has_grown_long_is_begun_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("baywright.engines.grown.MOST_KEPT", 2)
    engine = GrownSearch(BASE)
    for key in ("one", "two", "three", "one", "four"):
        _judge(engine, BASE.extended(tables=[_not_zero(key, "a", 3)]))

"""Judges the answers of an engine by the list of all legal builds."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping

import pytest

from baywright.engines.brute import Brute
from baywright.engines.contract import (
    Assumptions,
    Best,
    Engine,
    Impossible,
    Possible,
    Unsupported,
)
from baywright.space import Space, broken
from tests.conformance.spaces import Case

Build = Mapping[str, int]


def naive_builds(space: Space, assumptions: Assumptions) -> Iterator[Build]:
    """Every combination of values that the evaluator finds legal."""
    in_force = space.without(assumptions.without)
    names = [choice.name for choice in space.choices]
    for row in itertools.product(*(range(choice.size) for choice in space.choices)):
        build = dict(zip(names, row, strict=True))
        kept = all(build[name] in left for name, left in assumptions.allowed.items())
        if kept and not broken(in_force, build):
            yield build


def brute_builds(space: Space, assumptions: Assumptions) -> Iterator[Build]:
    """Every legal build by the brute engine, itself judged by the naive list."""
    names = tuple(choice.name for choice in space.choices)
    for row in Brute().each(space, names, assumptions):
        yield dict(zip(names, row, strict=True))


def judge(engine: Engine, case: Case, legal: list[Build]) -> None:
    """Ask the engine all it declares about a case, and check every answer."""
    _judge_proof(engine, case, legal)
    _judge_best(engine, case, legal)
    _judge_options(engine, case, legal)
    _judge_count(engine, case, legal)
    _judge_each(engine, case, legal)


def _judge_proof(engine: Engine, case: Case, legal: list[Build]) -> None:
    if "prove" not in engine.can:
        with pytest.raises(Unsupported):
            engine.prove(case.space, case.assumptions)
        return
    proof = engine.prove(case.space, case.assumptions)
    if legal:
        assert isinstance(proof, Possible)
        assert proof.values in legal
    else:
        assert isinstance(proof, Impossible)
        _judge_core(proof, case)


def _judge_core(refusal: Impossible, case: Case) -> None:
    """The named origins that are in force suffice for the refusal."""
    if refusal.core is not None:
        assert not refusal.core & case.assumptions.without
        assert refusal.core <= set(case.space.origins)
        alone = case.space.only(refusal.core)
        assert next(brute_builds(alone, case.assumptions), None) is None


def _judge_best(engine: Engine, case: Case, legal: list[Build]) -> None:
    if "best" not in engine.can:
        with pytest.raises(Unsupported):
            engine.best(case.space, case.objective, case.assumptions)
        return
    optimum = engine.best(case.space, case.objective, case.assumptions)
    if legal:
        assert isinstance(optimum, Best)
        assert optimum.value == min(map(case.objective.value, legal))
        assert optimum.value == case.objective.value(optimum.values)
        assert optimum.values in legal
    else:
        assert isinstance(optimum, Impossible)
        _judge_core(optimum, case)


def _judge_options(engine: Engine, case: Case, legal: list[Build]) -> None:
    if "options" not in engine.can:
        with pytest.raises(Unsupported):
            engine.options(case.space, case.assumptions)
        return
    names = [choice.name for choice in case.space.choices]
    expected = {name: frozenset(build[name] for build in legal) for name in names}
    assert engine.options(case.space, case.assumptions) == expected


def _judge_count(engine: Engine, case: Case, legal: list[Build]) -> None:
    if "count" not in engine.can:
        with pytest.raises(Unsupported):
            engine.count(case.space, case.assumptions)
        return
    own = [choice.name for choice in case.space.choices if not choice.derived]
    expected = len({tuple(build[name] for name in own) for build in legal})
    assert engine.count(case.space, case.assumptions) == expected


def _judge_each(engine: Engine, case: Case, legal: list[Build]) -> None:
    if "each" not in engine.can:
        with pytest.raises(Unsupported):
            list(engine.each(case.space, case.over, case.assumptions))
        return
    rows = list(engine.each(case.space, case.over, case.assumptions))
    assert len(rows) == len(set(rows))
    assert set(rows) == {tuple(build[name] for name in case.over) for build in legal}

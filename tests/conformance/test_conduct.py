"""How engines behave: limits, misuse, interrupts, repeated and interleaved questions."""

from __future__ import annotations

import gc
import itertools
import subprocess
import sys
import threading
import time

import pytest

from baywright.engines.contract import (
    Assumptions,
    Best,
    Cut,
    Engine,
    Impossible,
    Limit,
    Objective,
    OutOfTime,
    Possible,
)
from baywright.engines.preparation import PerSpace
from baywright.engines.registry import engines
from baywright.space import Choice, Space, Sum, Table
from tests.conformance.spaces import origin

NAMES = sorted(engines())


def pigeons(birds: int, holes: int) -> Space:
    """Birds in holes, at most one in each: hard to refuse by clauses alone."""
    choices = tuple(Choice(f"bird {n}", tuple(map(str, range(holes)))) for n in range(birds))
    apart = frozenset(row for row in itertools.product(range(holes), repeat=2) if row[0] != row[1])
    pairs = itertools.combinations((choice.name for choice in choices), 2)
    return Space(choices, tuple(Table(pair, apart, origin("one in each")) for pair in pairs))


def knapsack(items: int) -> tuple[Space, Objective]:
    """Many items of nearly equal use and weight: a legal build is easy, the best one is not."""
    names = [f"item {n}" for n in range(items)]
    weights = tuple((name, (0, 1009 + 7 * n * n % 997)) for n, name in enumerate(names))
    use = tuple((name, (0, -1013 - 11 * n * n % 991)) for n, name in enumerate(names))
    bound = sum(w[1] for _, w in weights) // 2
    choices = tuple(Choice(name, ("out", "in")) for name in names)
    return Space(choices, (), (Sum(weights, bound, origin("weight")),)), Objective(use)


@pytest.fixture(params=NAMES)
def engine(request: pytest.FixtureRequest) -> Engine:
    return engines()[request.param]


def test_the_name_is_the_one_in_the_registry(engine: Engine) -> None:
    assert engines()[engine.name].can == engine.can


def test_a_limit_never_reads_as_yes_and_is_kept(engine: Engine) -> None:
    if "prove" in engine.can:
        began = time.monotonic()
        proof = engine.prove(pigeons(13, 12), limit=Limit(0.3))
        assert isinstance(proof, Cut | Impossible)
        assert time.monotonic() - began < 5


def test_a_limit_never_reads_as_no(engine: Engine) -> None:
    space, objective = knapsack(40)
    if "prove" in engine.can:
        assert isinstance(engine.prove(space, limit=Limit(0.0)), Cut | Possible)
    if "best" in engine.can:
        optimum = engine.best(space, objective, limit=Limit(0.3))
        assert isinstance(optimum, Cut | Best)
        if optimum.values is not None:
            assert optimum.value == objective.value(optimum.values)
        if isinstance(optimum, Cut) and None not in (optimum.bound, optimum.value):
            assert optimum.bound <= optimum.value  # type: ignore[operator]


def test_an_unfinished_enumeration_says_so(engine: Engine) -> None:
    space, _ = knapsack(40)
    if "each" in engine.can:
        names = tuple(choice.name for choice in space.choices)
        with pytest.raises(OutOfTime):
            for _ in engine.each(space, names, limit=Limit(0.3)):
                pass


def test_an_unknown_choice_in_the_assumptions_is_an_error(engine: Engine) -> None:
    with pytest.raises(ValueError, match="no such choice"):
        engine.prove(pigeons(2, 2), Assumptions({"no such choice": frozenset({0})}))


def test_an_objective_that_does_not_fit_is_an_error(engine: Engine) -> None:
    if "best" in engine.can:
        with pytest.raises(ValueError, match="bird 0"):
            engine.best(pigeons(2, 2), Objective((("bird 0", (1, 2, 3)),)))


def test_the_same_question_twice_has_the_same_answer(engine: Engine) -> None:
    space, again = pigeons(6, 7), pigeons(6, 7)
    given = Assumptions({"bird 3": frozenset({1, 4})})
    assert engine.prove(space, given) == engines()[engine.name].prove(again, given)


def test_a_question_between_two_rows_disturbs_nothing(engine: Engine) -> None:
    space = pigeons(3, 3)
    names = tuple(choice.name for choice in space.choices)
    if "each" in engine.can:
        rows = []
        for row in engine.each(space, names):
            rows.append(row)
            assert isinstance(engine.prove(space), Possible)
        assert sorted(rows) == sorted(itertools.permutations(range(3)))


def test_abandoning_rows_half_way_disturbs_nothing(engine: Engine) -> None:
    space = pigeons(4, 4)
    if "each" in engine.can:
        assert next(iter(engine.each(space, ("bird 0",)))) in {(0,), (1,), (2,), (3,)}
        assert len(list(engine.each(space, ("bird 0", "bird 1")))) == 12


def test_questions_from_several_threads(engine: Engine) -> None:
    space, wrong = pigeons(5, 5), []

    def ask(hole: int) -> None:
        for _ in range(10):
            proof = engine.prove(space, Assumptions({"bird 0": frozenset({hole})}))
            if not isinstance(proof, Possible) or proof.values["bird 0"] != hole:
                wrong.append(proof)

    threads = [threading.Thread(target=ask, args=(hole,)) for hole in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not wrong


INTERRUPT = """
import os, signal, threading
from baywright.engines.contract import Limit
from baywright.engines.registry import engines
from tests.conformance.test_conduct import knapsack
space, objective = knapsack(70)
engine = engines()[{name!r}]
threading.Timer(0.4, os.kill, (os.getpid(), signal.SIGINT)).start()
try:
    for row in engine.each(space, tuple(c.name for c in space.choices), limit=Limit(30)):
        engine.best(space, objective, limit=Limit(30))
except KeyboardInterrupt:
    print("interrupted")
"""


def test_an_interrupt_from_the_keyboard_is_heard(engine: Engine) -> None:
    if not {"each", "best"} <= engine.can:
        pytest.skip(f"{engine.name} declares no long question")
    began = time.monotonic()
    done = subprocess.run(
        [sys.executable, "-c", INTERRUPT.format(name=engine.name)],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (done.stdout, done.returncode) == ("interrupted\n", 0), done.stderr
    assert time.monotonic() - began < 20


def test_a_sum_too_large_for_an_engine_is_refused_with_a_sentence() -> None:
    heavy = Sum((("a", (0, 2**40 + 1)), ("b", (0, 2**40))), 2**41, origin("mass"), "mg")
    space = Space((Choice("a", ("0", "1")), Choice("b", ("0", "1"))), (), (heavy,))
    with pytest.raises(ValueError, match="mass: the sum can pass 2,147,483,647 mg"):
        engines()["search"].prove(space)
    for name in ("brute", "cpsat"):
        proof = engines()[name].prove(space, Assumptions({"a": frozenset({1})}))
        assert isinstance(proof, Possible)
        assert proof.values == {"a": 1, "b": 0}


def test_what_is_kept_for_a_space_goes_with_it() -> None:
    kept = PerSpace(lambda space: len(space.choices))
    space = pigeons(2, 2)
    assert (kept(space), kept(space), len(kept)) == (2, 2, 1)
    assert (kept(pigeons(3, 3)), len(kept)) == (3, 1)
    del space
    gc.collect()
    assert len(kept) == 0

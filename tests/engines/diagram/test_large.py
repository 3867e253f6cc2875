"""Large spaces about which something is known."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest

from baywright.engines.contract import Assumptions, Best, Impossible, Objective, Possible
from baywright.engines.diagram import Diagram
from baywright.engines.search import Search
from baywright.space import Space, Sum, broken
from tests.engines.diagram.given import clauses, kept_outside, origin, two_socket


@pytest.fixture(scope="module")
def space() -> Space:
    return two_socket()


@pytest.fixture(scope="module")
def engine() -> Diagram:
    return Diagram()


def session(engine: Diagram, space: Space, seed: int, most: int) -> Iterator[Assumptions]:
    """What a person has chosen so far, choice by choice, among what is left."""
    chance = random.Random(seed)  # noqa: S311
    allowed: dict[str, frozenset[int]] = {}
    while True:
        yield Assumptions(dict(allowed))
        options = engine.options(space, Assumptions(allowed))
        free = [n for n, values in options.items() if len(values) > 1 and n not in allowed]
        if not free or len(allowed) == most:
            return
        name = chance.choice(free)
        allowed[name] = frozenset({chance.choice(sorted(options[name]))})


def agree(engine: Diagram, space: Space, assumptions: Assumptions) -> None:
    """The options are those of the search engine, and the proof is a legal build."""
    assert engine.options(space, assumptions) == Search().options(space, assumptions)
    proof = engine.prove(space, assumptions)
    assert isinstance(proof, Possible)
    assert not broken(space, proof.values)
    assert all(proof.values[name] in values for name, values in assumptions.allowed.items())


def test_the_values_that_remain_are_as_many_as_is_known(engine: Diagram, space: Space) -> None:
    """1,161 of the 1,237 values of choices not derived, as stated beside the space."""
    own = [choice for choice in space.choices if not choice.derived]
    options = engine.options(space)
    assert sum(choice.size for choice in own) == 1237
    assert sum(len(options[choice.name]) for choice in own) == 1161


def test_the_counts_are_those_that_are_known(engine: Diagram, space: Space) -> None:
    """Counts with and without the power sum, as stated beside the space."""
    without = Assumptions(without=frozenset({"power-budget"}))
    free = space.without({"power-budget"})
    assert engine.count(space) == 232659900397918257259391350359573342834
    assert engine.count(free) == 291722052167726649731880933411319069440
    assert engine.options(free) == engine.options(space, without)


def test_counts_of_the_values_of_a_choice_add_up(engine: Diagram, space: Space) -> None:
    parts = [
        engine.count(space, Assumptions({"psu": frozenset({value})}))
        for value in range(space.choice("psu").size)
    ]
    assert sum(parts) == engine.count(space)


@pytest.mark.parametrize("seed", range(2))
def test_options_in_a_session_are_those_of_search(engine: Diagram, space: Space, seed: int) -> None:
    for step, assumptions in enumerate(session(engine, space, seed, 24)):
        if step % 6 == 0:
            agree(engine, space, assumptions)


@pytest.mark.slow
@pytest.mark.timeout(900)
@pytest.mark.parametrize("seed", range(100, 108))
def test_options_in_many_sessions_are_those_of_search(
    engine: Diagram, space: Space, seed: int
) -> None:
    for assumptions in session(engine, space, seed, 26):
        agree(engine, space, assumptions)


def test_a_value_that_is_not_an_option_is_impossible(engine: Diagram, space: Space) -> None:
    options = engine.options(space)
    gone = [(c.name, v) for c in space.choices for v in range(c.size) if v not in options[c.name]]
    for name, value in gone[::8]:
        given = Assumptions({name: frozenset({value})})
        assert isinstance(engine.prove(space, given), Impossible)
        assert isinstance(Search().prove(space, given), Impossible)


def test_the_largest_load_is_the_bound_itself(engine: Diagram, space: Space) -> None:
    """Objective and limit pull against each other: the hardest case of an extreme."""
    (power,) = (total for total in space.sums if total.origin.key == "power-budget")
    most = engine.best(space, Objective(power.weights).negated())
    assert isinstance(most, Best)
    assert -most.value == power.at_most
    assert not broken(space, most.values)


def limited(space: Space, most: int, kinds: int) -> Space:
    """At most so many of each of some kinds of card over the eight slots."""
    slots = [choice for choice in space.choices if choice.name in {f"s{n}" for n in range(1, 9)}]
    return space.extended(
        sums=(
            Sum(
                tuple((c.name, tuple(int(v == kind) for v in range(c.size))) for c in slots),
                most,
                origin(f"at most {most} of {kind}"),
            )
            for kind in range(1, kinds + 1)
        )
    )


@pytest.mark.slow
@pytest.mark.timeout(900)
@pytest.mark.parametrize(("most", "kinds"), [(4, 14), (2, 8)])
def test_limits_for_each_kind_of_card_stay_exact(space: Space, most: int, kinds: int) -> None:
    """At the root no limit binds, so the slots are filled up to them first."""
    engine, hard = Diagram(), limited(space, most, kinds)
    for seed in range(3):
        chance = random.Random(seed)  # noqa: S311
        allowed: dict[str, frozenset[int]] = {}
        slots = [f"s{n}" for n in range(1, 9)]
        for name in chance.sample(slots, 6):
            options = engine.options(hard, Assumptions(allowed))[name]
            wanted = sorted(v for v in options if 1 <= v <= kinds)
            if wanted:
                allowed[name] = frozenset({chance.choice(wanted[:2])})
        agree(engine, hard, Assumptions(allowed))


def test_a_public_feature_model_has_as_many_solutions_as_published() -> None:
    """berkeleydb: 4,080,389,785 solutions, a number in the test suites of public model counters.

    Seen in the description that comes with the file.
    """
    file = kept_outside("counting", "berkeleydb.dimacs")
    model = clauses(file.read_text(encoding="utf-8"))
    assert len(model.choices) == 76
    assert Diagram().count(model) == 4_080_389_785

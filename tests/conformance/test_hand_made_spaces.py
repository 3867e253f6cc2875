"""Spaces at the edge of what a space can be, asked of every engine."""

from __future__ import annotations

import itertools

import pytest

from baywright.engines.contract import Assumptions, Impossible, Objective
from baywright.engines.registry import engines
from baywright.space import Choice, Space, Sum, Table
from tests.conformance.judging import judge, naive_builds
from tests.conformance.spaces import Case, origin

COLOUR = Choice("colour", ("red", "green", "blue"))
SIZE = Choice("size", ("small", "large"))
COUNT = Choice("count", tuple(str(number) for number in range(5)))
ALL = (COLOUR, SIZE, COUNT)

NEVER = Table((), frozenset(), origin("never"))
ALWAYS = Table((), frozenset({()}), origin("always"))
NO_COLOUR = Table(("colour",), frozenset(), origin("no colour"))
NOT_RED = Table(("colour",), frozenset({(1,), (2,)}), origin("not red"))
RED_IS_SMALL = Table(
    ("colour", "size"), frozenset({(0, 0), (1, 0), (1, 1), (2, 0), (2, 1)}), origin("red is small")
)
FEW_ROWS = Table(("colour", "size", "count"), frozenset({(0, 1, 4)}), origin("few"))
SAME_TWICE = Table(("colour", "colour"), frozenset({(0, 0), (1, 2), (2, 2)}), origin("twice"))
NEGATIVE = Sum((("count", (0, -1, -2, -3, -4)), ("size", (3, -3))), -5, origin("negative"))
NO_WEIGHT = Sum((("count", (0, 0, 0, 0, 0)), ("size", (0, 0))), 0, origin("no weight"))
NO_WEIGHT_TOO_LITTLE = Sum((("size", (0, 0)),), -1, origin("too little"))
NO_SCOPE = Sum((), 0, origin("no scope"))
NO_SCOPE_TOO_LITTLE = Sum((), -1, origin("no scope too little"))
COARSE = Sum((("count", (0, 10, 20, 30, 40)), ("size", (0, 10))), 29, origin("coarse"))
HUGE_STEPS = Sum((("count", tuple(2**40 * n for n in range(5))),), 2**41 + 7, origin("huge"))
TIGHT = Sum((("count", (5, 6, 7, 8, 9)), ("size", (1, 2))), 6, origin("tight"))

SPACES = {
    "no choices": Space(()),
    "no choices, and nothing holds": Space((), (NEVER,)),
    "no choices, and a sum of nothing": Space((), (), (NO_SCOPE,)),
    "no choices, and a sum of nothing that is too much": Space((), (), (NO_SCOPE_TOO_LITTLE,)),
    "no laws": Space(ALL),
    "one value": Space((Choice("only", ("one",)),)),
    "no value": Space((COLOUR, Choice("none", ()))),
    "a table of nothing that holds": Space(ALL, (ALWAYS,)),
    "a table of nothing that fails": Space(ALL, (NEVER,)),
    "an empty table": Space(ALL, (NO_COLOUR, RED_IS_SMALL)),
    "a table over one choice": Space(ALL, (NOT_RED,)),
    "two tables that clash": Space(
        (COLOUR,), (NOT_RED, Table(("colour",), frozenset({(0,)}), origin("red")))
    ),
    "the same table twice": Space(ALL, (RED_IS_SMALL, RED_IS_SMALL)),
    "one allowed row": Space(ALL, (FEW_ROWS, RED_IS_SMALL)),
    "one allowed row alone": Space(ALL, (FEW_ROWS,)),
    "a choice twice in a scope": Space((COLOUR, SIZE), (SAME_TWICE,)),
    "negative weights": Space(ALL, (), (NEGATIVE,)),
    "weights of nothing": Space(ALL, (), (NO_WEIGHT,)),
    "weights of nothing that are too much": Space(ALL, (RED_IS_SMALL,), (NO_WEIGHT_TOO_LITTLE,)),
    "a sum of nothing": Space(ALL, (), (NO_SCOPE,)),
    "a bound between two steps": Space(ALL, (), (COARSE,)),
    "weights with a huge common step": Space(ALL, (), (HUGE_STEPS,)),
    "a bound at the least total": Space(ALL, (RED_IS_SMALL,), (TIGHT,)),
    "two sums under one key": Space(
        ALL, (), (COARSE, Sum((("count", (4, 3, 2, 1, 0)),), 2, origin("coarse")))
    ),
}

ASSUMPTIONS = {
    "nothing assumed": Assumptions(),
    "one value": Assumptions({"colour": frozenset({2})}),
    "two values": Assumptions({"colour": frozenset({0, 2}), "count": frozenset({1, 3})}),
    "no value left": Assumptions({"colour": frozenset()}),
    "a value that does not exist": Assumptions({"colour": frozenset({1, 17})}),
    "without": Assumptions(
        {}, frozenset({"never", "no colour", "not red", "tight", "coarse", "too little"})
    ),
    "without what is not there": Assumptions({}, frozenset({"no such law"})),
}

OBJECTIVE = Objective((("count", (4, -2, 3, 0, -1)), ("size", (0, 3)), ("colour", (-7, 0, 2))))


def _asked(space: Space, assumptions: Assumptions) -> Case:
    names = tuple(choice.name for choice in space.choices)
    return Case(
        space,
        Assumptions(
            {n: left for n, left in assumptions.allowed.items() if n in space},
            assumptions.without,
        ),
        Objective(tuple((name, w) for name, w in OBJECTIVE.weights if name in space)),
        names[:2],
    )


@pytest.mark.parametrize("name", sorted(engines()))
@pytest.mark.parametrize("kind", SPACES)
def test_every_answer_is_right(name: str, kind: str) -> None:
    engine = engines()[name]
    for assumptions in ASSUMPTIONS.values():
        case = _asked(SPACES[kind], assumptions)
        judge(engine, case, list(naive_builds(case.space, case.assumptions)))


@pytest.mark.parametrize("name", sorted(engines()))
def test_a_core_leaves_out_what_has_no_part_in_the_refusal(name: str) -> None:
    space = Space(ALL, (NO_COLOUR,), (Sum((("size", (1, 1)),), 1, origin("unrelated")),))
    proof = engines()[name].prove(space)
    assert isinstance(proof, Impossible)
    assert proof.core in (None, frozenset({"no colour"}))


@pytest.mark.parametrize("name", sorted(engines()))
def test_a_case_of_every_row_count_between_none_and_all(name: str) -> None:
    """The form of a table changes with the number of rows; every form means the same."""
    rows = list(itertools.product(range(3), range(2), range(2)))
    choices = (COLOUR, SIZE, Choice("lid", ("off", "on")))
    for allowed in range(len(rows) + 1):
        table = Table(("colour", "size", "lid"), frozenset(rows[:allowed]), origin("some rows"))
        case = _asked(Space(choices, (table,)), Assumptions())
        judge(engines()[name], case, list(naive_builds(case.space, case.assumptions)))

"""Rearranged conditions say the same."""

from itertools import product

import pytest
from hypothesis import given

from baywright.terms.evaluate import Fields, holds
from baywright.terms.parse import parse
from baywright.terms.printing import text
from baywright.terms.simplify import conjunction, conjuncts, negation_normal, opposite
from baywright.terms.syntax import Call, Expression, Member, Name, Not, walk

from . import trees

CASES = [
    Fields({"p": p, "q": q, "x": x, "y": y})
    for p, q, x, y in product((True, False), (True, False), range(3), range(3))
]


@given(trees.conditions)
def test_the_normal_form_says_the_same(condition: Expression) -> None:
    normal, denied = negation_normal(condition), opposite(condition)
    for case in CASES:
        assert holds(normal, case) == holds(condition, case)
        assert holds(denied, case) != holds(condition, case)


@given(trees.conditions)
def test_only_names_calls_and_memberships_are_denied(condition: Expression) -> None:
    denied = [node.term for node in walk(negation_normal(condition)) if isinstance(node, Not)]
    assert all(isinstance(term, Name | Call | Member) for term in denied)


@given(trees.conditions)
def test_a_conjunction_of_its_terms_says_the_same(condition: Expression) -> None:
    again = conjunction(conjuncts(condition))
    assert all(holds(again, case) == holds(condition, case) for case in CASES)


@pytest.mark.parametrize(
    ("written", "normal"),
    [
        ("not (a and b < 3)", "not a or b >= 3"),
        ("implies(a, b)", "not a or b"),
        ("not implies(a, b)", "a and not b"),
        ("not (f(not x) or true)", "not f(not x) and false"),
        ("not x in (1, 2)", "not x in (1, 2)"),
    ],
)
def test_negation_normal(written: str, normal: str) -> None:
    assert text(negation_normal(parse(written))) == normal


def test_conjuncts() -> None:
    assert [text(term) for term in conjuncts(parse("a and (b and c) and (d or e)"))] == [
        "a", "b", "c", "d or e",
    ]  # fmt: skip
    assert text(conjunction([])) == "true"

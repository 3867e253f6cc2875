"""The canonical text of an expression reads back to the same expression."""

from fractions import Fraction

import pytest
from hypothesis import given, settings

from baywright.terms.parse import parse
from baywright.terms.printing import text
from baywright.terms.syntax import Arithmetic, Expression, Name, Number, Text

from . import trees


@given(trees.expressions)
@settings(max_examples=400, deadline=None)
def test_round_trip(expression: Expression) -> None:
    assert parse(text(expression)) == expression


@pytest.mark.parametrize(
    ("written", "canonical"),
    [
        ("(a) and(b)", "a and b"),
        ("a and (b and c)", "a and (b and c)"),
        ("not (a or b)", "not (a or b)"),
        ("1 < x <= 1,300 W", "1 < x and x <= 1300 W"),
        ("x not in ('a',)", 'not x in ("a")'),
        ("f(b=1,a)", "f(a, b=1)"),
        ("a-(b-c)", "a - (b - c)"),
        ("x ≤ 14 days", "x <= 14 d"),
    ],
)
def test_canonical_spelling(written: str, canonical: str) -> None:
    assert text(parse(written)) == canonical


def test_negative_numbers_stay_literals() -> None:
    tree = Arithmetic("-", Name("a"), Number(Fraction(-3)))
    assert text(tree) == "a - -3"
    assert parse("a - -3") == tree


def test_a_text_with_both_quotes_cannot_be_written() -> None:
    assert text(Text('19"')) == "'19\"'"
    with pytest.raises(ValueError, match="both kinds of quotes"):
        text(Text("'\""))

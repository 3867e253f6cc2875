"""Reading expressions: what they become, and how hostile texts are refused."""

import time
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.problems import Mark, Problem, Problems
from baywright.terms.parse import parse
from baywright.terms.scan import MOST_CHARACTERS
from baywright.terms.syntax import (
    Amount,
    And,
    Arithmetic,
    Call,
    Compare,
    Keyword,
    Member,
    Name,
    Not,
    Number,
    Or,
    Text,
    Truth,
    walk,
)
from baywright.units import parse as amount


def problems_of(text: str, mark: Mark | None = None) -> tuple[Problem, ...]:
    with pytest.raises(Problems) as caught:
        parse(text, mark)
    return caught.value.problems


def number(value: int | str) -> Number:
    return Number(Fraction(value))


def test_a_call_with_filters_in_any_order() -> None:
    read = parse('count(drive, interface="sas", capacity > 1 TB, at=A) == 12')
    call = Call(
        "count",
        (Name("drive"), Compare(Name("capacity"), ">", Amount(amount("1 TB")))),
        (Keyword("interface", Text("sas")), Keyword("at", Name("A"))),
    )
    assert read == Compare(call, "==", number(12))


def test_logic() -> None:
    read = parse("p and not q or true")
    assert read == Or((And((Name("p"), Not(Name("q")))), Truth(value=True)))


def test_a_chain_of_comparisons_is_a_conjunction() -> None:
    first = Compare(number(1), "<", Name("x"))
    second = Compare(Name("x"), "<=", number(3))
    assert parse("1 < x <= 3") == And((first, second))


def test_membership() -> None:
    options = (Text("a"), Text("b"))
    assert parse('x in ("a", "b")') == Member(Name("x"), options)
    assert parse('x not in ("a", "b")') == Not(Member(Name("x"), options))
    assert parse('x in ("a")') == Member(Name("x"), (Text("a"),))


def test_numbers_are_exact() -> None:
    assert parse("0.1 + 0.2") == Arithmetic("+", number("0.1"), number("0.2"))
    assert parse("-3") == number(-3)
    assert parse("- -3") == number(3)


@pytest.mark.parametrize(
    "written",
    ["1300 W", "1300W", "64 GB", "120 V", "35 °C", "9,000 FLO", "48 dB(A)", "2.5 in", "90 %",
     "6 Gb/s", "32 m³/h", "1,300.5 W"],
)  # fmt: skip
def test_amounts_need_no_quotes(written: str) -> None:
    assert parse(f"x <= {written}") == Compare(Name("x"), "<=", Amount(amount(written)))


def test_an_inch_is_told_from_the_operator() -> None:
    inches = Member(Amount(amount("2.5 in")), (Amount(amount("2.5 in")), Amount(amount("1 in"))))
    assert parse("2.5 in in (2.5 in, 1 in)") == inches
    assert parse("3 in (1, 2)") == Member(number(3), (number(1), number(2)))


def test_an_amount_in_quotes_stays_a_text() -> None:
    assert parse('size == "2.5 in"') == Compare(Name("size"), "==", Text("2.5 in"))


def test_columns_point_into_the_original_text() -> None:
    text = "load <= 1,300 W and\n  count(drive) == 12"
    found = {text[node.span.start : node.span.end]: node.span for node in walk(parse(text))}
    assert set(found) >= {"load", "1,300 W", "load <= 1,300 W", "count(drive)", "drive", "12"}
    assert found["12"].mark(Mark("rules.yaml", 7, 11)) == Mark("rules.yaml", 8, 29)


HOSTILE = {
    "deep parentheses": "(" * 1000 + "x" + ")" * 1000,
    "deep not": "not " * 900 + "x",
    "deep minus": "-" * 3000 + "x",
    "long sum": "+".join(["1"] * 1500),
    "sum over the levels": "+".join(["1"] * 120),
    "deep calls": "f(" * 60 + "x" + ")" * 60,
    "attribute": "drive.__class__",
    "attribute of a text": '"".__class__',
    "subscript": "drive[0]",
    "lambda": "lambda: 1",
    "comprehension": "count(x for x in y)",
    "list": "[1]",
    "dictionary": "{1: 2}",
    "formatted text": 'f"{x}"',
    "bytes": 'b"x"',
    "assignment": "x := 3",
    "one equals sign": "count(drive) = 12",
    "equals sign in parentheses": "(x = 3)",
    "starred": "f(*x)",
    "two stars": "f(**x)",
    "power": "9**9**9",
    "conditional": "a if b else c",
    "await": "await x",
    "digits": "9" * 31 + " == x",
    "a million characters": "x" * 1_000_000,
    "a million quotes": '"' * 1_000_000,
    "confusable letter": "lo\N{CYRILLIC SMALL LETTER A}d <= 3",
    "confusable digits": "x == \N{FULLWIDTH DIGIT ONE}",
    "direction override": 'x == "a\N{RIGHT-TO-LEFT OVERRIDE}b"',
    "zero width": "lo\N{ZERO WIDTH SPACE}ad <= 3",
    "null": "x\x00 == 3",
    "escape": r'x == "\x41"',
    "open text": 'x == "a',
    "two texts": 'x == "a" "b"',
    "open parenthesis": "count(drive",
    "closing parenthesis": "x) == 3",
    "nothing": "",
    "spaces": " \n ",
    "ends early": "x ==",
    "starts late": "== x",
    "no value between": "f(,)",
    "statement": "import os",
    "two lines": "x\ny",
    "comment": "x # y",
    "call of a call": "f(x)(y)",
    "call of a number": "3 (x)",
    "empty options": "x in ()",
    "list of values": "x == 1, 2",
    "separated thousands": "x == 1,159",
    "unary plus": "+x",
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE.keys())
def test_hostile_texts_are_refused_quickly_with_a_place(text: str) -> None:
    begun = time.perf_counter()
    found = problems_of(text, Mark("rules.yaml", 3, 5))
    assert time.perf_counter() - begun < 0.2
    for problem in found:
        assert problem.mark is not None
        assert (problem.mark.file, problem.mark.line >= 3, problem.mark.column >= 1) == (
            "rules.yaml", True, True,
        )  # fmt: skip
        assert problem.hint


def test_python_is_not_reached_by_a_name() -> None:
    """A dangerous built-in is an ordinary name, which no vocabulary has."""
    assert parse("__import__('os')") == Call("__import__", (Text("os"),))


@pytest.mark.parametrize(
    ("text", "column", "says"),
    [
        ("count(drive) = 12", 14, "Use '=='"),
        ("x == 1,159", 6, "Leave the comma out of a number"),
        ("f(8,100 GB)", 3, "could be one number or several values"),
        ("load <= 6 gb/s", 11, "differ by eight"),
        ("load <= 3 wats", 11, "is not a known unit"),
        ("3 drives", 3, "'drives' is not a known unit"),
        ("drive.size == 3", 6, "nothing has attributes"),
        ("x is empty", 3, "Write '=='"),
        ("x == None", 6, "empty"),
        ("a && b", 3, "Write 'and'"),
        ("x ==", 5, "ends too early"),
        ("a b", 3, "An operator is missing before 'b'"),
        ("(a", 1, "never closed"),
        ("a == “x”", 6, "straight quotes"),
        ("a == and b", 6, "'and' is not expected here"),
    ],
)
def test_what_is_said_and_where(text: str, column: int, says: str) -> None:
    found = problems_of(text)[0]
    assert found.mark == Mark("expression", 1, column)
    assert says in f"{found.message} {found.hint}"


def test_every_bad_character_is_reported() -> None:
    columns = [problem.mark.column for problem in problems_of("a.b & c[1]") if problem.mark]
    assert columns == [2, 5, 8, 10]


def read_or_refused(text: str) -> tuple[Problem, ...]:
    try:
        parse(text)
    except Problems as found:
        return found.problems
    return ()


@given(st.text(max_size=200))
def test_any_text_gives_a_tree_or_problems(text: str) -> None:
    assert all(problem.mark for problem in read_or_refused(text))


@given(st.text("()=<>!+-*,. andortin1W\"'", max_size=60))
def test_any_mixture_of_signs_gives_a_tree_or_problems(text: str) -> None:
    assert all(problem.mark and problem.hint for problem in read_or_refused(text))


def test_the_longest_text_is_read_quickly() -> None:
    term = "count(drive, capacity > 1,000 GB) <= 12"
    text = " and ".join([term] * (MOST_CHARACTERS // (len(term) + 5)))
    begun = time.perf_counter()
    parse(text)
    assert time.perf_counter() - begun < 0.2

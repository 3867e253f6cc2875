"""Random expressions for the tests."""

from fractions import Fraction
from keyword import iskeyword

from hypothesis import strategies as st

from baywright.terms.syntax import (
    IMPLIES,
    Amount,
    And,
    Arithmetic,
    Call,
    Compare,
    Expression,
    Keyword,
    Member,
    Name,
    Not,
    Number,
    Or,
    Text,
    Truth,
    negative,
)
from baywright.units import Quantity
from baywright.units.lookup import spellings

identifiers = st.from_regex(r"[A-Za-z_][A-Za-z0-9_]{0,6}", fullmatch=True).filter(
    lambda word: not iskeyword(word) and word not in ("true", "false")
)
decimals = st.decimals(-(10**9), 10**9, places=3).map(Fraction)
names = identifiers.map(Name)
numbers = decimals.map(Number)
amounts = st.builds(
    Amount, st.builds(Quantity, decimals, st.sampled_from((*spellings(), "FLO", "EUR")))
)
contents = st.text(
    st.characters(codec="utf-8", exclude_categories=["C", "Z"], exclude_characters="\\\"'"),
    max_size=8,
)
texts = contents.map(Text)
literals = st.one_of(names, numbers, amounts, texts, st.booleans().map(Truth))


def _larger(inner: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    several = st.lists(inner, min_size=2, max_size=3).map(tuple)
    some = st.lists(inner, max_size=3).map(tuple)
    keywords = st.lists(st.builds(Keyword, identifiers, inner), max_size=2).map(tuple)
    return st.one_of(
        st.builds(Call, identifiers, some, keywords),
        st.builds(Compare, inner, st.sampled_from(["==", "!=", "<", "<=", ">", ">="]), inner),
        st.builds(Member, inner, several),
        st.builds(And, several),
        st.builds(Or, several),
        st.builds(Not, inner),
        st.builds(Arithmetic, st.sampled_from(["+", "-", "*"]), inner, inner),
        inner.map(negative),
    )


expressions: st.SearchStrategy[Expression] = st.recursive(literals, _larger, max_leaves=12)
"""Any tree the parser could give."""


def _joined(inner: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    several = st.lists(inner, min_size=2, max_size=3).map(tuple)
    implied = st.tuples(inner, inner).map(lambda pair: Call(IMPLIES, pair))
    return st.one_of(
        st.builds(And, several), st.builds(Or, several), st.builds(Not, inner), implied
    )


_plain_numbers = st.one_of(
    st.sampled_from(["x", "y"]).map(Name), st.integers(0, 3).map(lambda n: Number(Fraction(n)))
)
_conditions = st.one_of(
    st.sampled_from(["p", "q"]).map(Name),
    st.builds(
        Compare,
        _plain_numbers,
        st.sampled_from(["==", "!=", "<", "<=", ">", ">="]),
        _plain_numbers,
    ),
    st.builds(Member, _plain_numbers, st.lists(_plain_numbers, min_size=1, max_size=2).map(tuple)),
)
conditions: st.SearchStrategy[Expression] = st.recursive(_conditions, _joined, max_leaves=8)
"""Conditions over the truths p and q and the numbers x and y."""

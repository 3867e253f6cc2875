"""Questions that make no sense are problems with their place, never an answer."""

from __future__ import annotations

import pytest

from baywright.desk.asking import ask
from baywright.desk.opening import Opened, open_book
from baywright.problems import Problems


@pytest.fixture(scope="module")
def f2() -> Opened:
    return open_book("f2")


@pytest.mark.parametrize(
    ("question", "kind"),
    [
        ("P1", "not-a-number"),
        ("most(P1)", "not-a-number"),
        ("voltage", "not-a-number"),
        ('most(A == "S8")', "not-a-number"),
        ('"x"', "not-a-number"),
        ("list(load)", "too-wide"),
        ("list(P1, supplies_redundant)", "not-listable"),
        ("together(load)", "wrong-type"),
        ("always(load)", "wrong-type"),
        ("can(most(load))", "unknown-function"),
        ("most(load, given=load)", "wrong-type"),
        ("can()", "empty-question"),
        ("can(load < 1300 W, where=load)", "unknown-word"),
        ("always(load < 1 W, load < 2 W)", "one-claim"),
        ("least(price, then=P1)", "not-a-number"),
        ("least(price, then=least())", "empty-question"),
        ("least(price, then=most(load, fans == 4))", "one-number"),
        ("least(price, then=most(load, given=fans == 4))", "unknown-word"),
        ("least(price, then=can(load))", "unknown-function"),
        ("list(A, B, then=load)", "unknown-word"),
        ("not arrays(4)", "not-encodable"),
        ("arrays(1.5)", "not-encodable"),
        ("load * price < 3 W", "wrong-type"),
    ],
)
def test_it_is_a_problem(f2: Opened, question: str, kind: str) -> None:
    with pytest.raises(Problems) as raised:
        ask(f2, question)
    assert [problem.kind for problem in raised.value.problems] == [kind]
    assert all(problem.message for problem in raised.value.problems)

"""A session on the demo book: what is left after each choice, and why the rest is not."""

from __future__ import annotations

import random

import pytest

from baywright.desk.opening import Opened, open_book
from baywright.desk.session import Session
from baywright.engines.contract import Assumptions
from baywright.engines.diagram import Diagram
from baywright.engines.search import Search
from baywright.problems import Problems


@pytest.fixture(scope="module")
def f2() -> Opened:
    return open_book("f2")


@pytest.fixture(scope="module")
def diagram() -> Diagram:
    return Diagram()


def test_what_is_left_is_what_search_finds(f2: Opened, diagram: Diagram) -> None:
    judge = Search()
    for seed in range(5):
        session = Session(f2, diagram)
        draw = random.Random(seed)  # noqa: S311 - a repeatable draw, no secret
        names = [n for n, f in session.machine.frame.fittings.items() if not f.derived]
        for name in draw.sample(names, 6):
            left = session.left()
            given = {each: frozenset({value}) for each, value in session.chosen.items()}
            assert left.options == judge.options(session.machine.space, Assumptions(given))
            value = draw.choice(sorted(left.options[name]))
            assert session.choose(name, session.machine.frame.options(name)[value].label) is None


def test_a_closed_option_leaves_the_session_as_it_was(f2: Opened, diagram: Diagram) -> None:
    session = Session(f2, diagram)
    assert session.choose("C", "N8h") is None
    refusal = session.choose("O2", "net-25")
    assert refusal is not None
    assert refusal.choices == ("C",)
    assert [origin.key for origin in refusal.origins] == ["lanes.shared/module-2-or-zone-c"]
    assert session.chosen.keys() == {"C"}
    session.undo("C")
    assert session.choose("O2", "net-25") is None


def test_limits_come_with_every_step(f2: Opened, diagram: Diagram) -> None:
    left = Session(f2, diagram).left()
    assert left.margins
    assert all(margin.holds for margin in left.margins if margin.needed)


def test_what_does_not_exist_is_said(f2: Opened, diagram: Diagram) -> None:
    session = Session(f2, diagram)
    with pytest.raises(Problems, match="There is no choice 'R9'"):
        session.choose("R9", "C16")
    with pytest.raises(Problems, match="C cannot be 'S9'"):
        session.choose("C", "S9")
    with pytest.raises(ValueError, match="can have that value"):
        session.refused("C", "S8")

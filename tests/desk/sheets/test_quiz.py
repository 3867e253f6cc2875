"""The quiz: the right option is proven, each wrong one is proven false and is a slip by name."""

from __future__ import annotations

import itertools

import pytest

from baywright.desk.guide.verifying import verified
from baywright.desk.guide.writer import Writer, shown
from baywright.desk.sheets.quiz.puzzle import LEAST_WRONG, SLIPS, Puzzle
from baywright.desk.sheets.quiz.quiz import puzzles
from baywright.desk.statements.shared import Shared
from tests.desk.sheets.sheets import book

COUNT = 24


def drawn(name: str, seed: int, count: int = COUNT) -> tuple[Writer, list[Puzzle]]:
    writer = Writer(Shared(book(name)))
    return writer, list(itertools.islice(puzzles(writer, seed), count))


def test_the_same_seed_gives_the_same_quiz_and_another_one_another() -> None:
    first, again, other = (drawn("p1", seed, 4)[1] for seed in (5, 5, 6))
    assert first == again
    assert first != other


@pytest.mark.parametrize("name", ["p1", "f1"])
def test_one_option_is_right_and_no_two_read_the_same(name: str) -> None:
    _, found = drawn(name, 1)
    assert found
    for each in found:
        assert [option.slip for option in each.options].count("") == 1
        assert len({option.says for option in each.options}) == len(each.options) > LEAST_WRONG
        assert all(option.slip in SLIPS for option in each.options if option.slip)
    assert len({(each.says, each.right.says) for each in found}) == len(found)


def test_every_proof_holds_by_another_engine_and_refutes_its_option() -> None:
    writer, found = drawn("f1", 2)
    assert not verified(book("f1"), writer.statements).failed
    for each in found:
        right = writer.statements[each.right.proof - 1]
        if right.verdict in ("most", "fact", "figure"):
            assert shown(right) == each.right.says
        else:
            assert right.verdict == "yes"
        for option in (wrong for wrong in each.options if wrong.slip):
            proof = writer.statements[option.proof - 1]
            if option.slip == "alone":
                assert proof.verdict == "no"
            elif proof.verdict in ("fact", "figure"):
                assert shown(proof) != option.says
            else:
                assert proof.query.text.startswith("can(")


def test_slips_of_many_kinds_come_up() -> None:
    """The F1 has no predecessor and no day of announcement; the P1 has the latter."""
    puzzles_of = (*drawn("f1", 3, 40)[1], *drawn("p1", 1, 8)[1])
    kinds = {option.slip for each in puzzles_of for option in each.options}
    assert {"condition", "scope", "share", "unit", "product", "zone", "one"} <= kinds

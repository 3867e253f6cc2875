"""The evaluator, case by case: it judges every engine, so nothing else may judge it."""

from __future__ import annotations

import pytest

from baywright.space import Choice, Origin, Space, Sum, Table, broken, holds

LAW = Origin("law", "law", "The law holds.")
COLOUR = Choice("colour", ("red", "green", "blue"))
SIZE = Choice("size", ("small", "large"))
TABLE = Table(("size", "colour"), frozenset({(0, 0), (1, 2)}), LAW)
TOTAL = Sum((("colour", (10, 20, 30)), ("size", (-5, 0))), 25, LAW)


@pytest.mark.parametrize(
    ("colour", "size", "expected"), [(0, 0, True), (2, 1, True), (0, 1, False), (1, 0, False)]
)
def test_a_table_holds_when_the_row_is_allowed(colour: int, size: int, expected: bool) -> None:
    assert holds(TABLE, {"colour": colour, "size": size}) is expected


@pytest.mark.parametrize(
    ("colour", "size", "expected"),
    [(0, 1, True), (1, 1, True), (2, 0, True), (2, 1, False)],
)
def test_a_sum_holds_up_to_its_bound(colour: int, size: int, expected: bool) -> None:
    assert holds(TOTAL, {"colour": colour, "size": size}) is expected


def test_laws_over_nothing() -> None:
    assert not holds(Table((), frozenset(), LAW), {})
    assert holds(Table((), frozenset({()}), LAW), {})
    assert holds(Sum((), 0, LAW), {})
    assert not holds(Sum((), -1, LAW), {})


def test_the_order_of_a_scope_is_its_own() -> None:
    turned = Table(("colour", "size"), frozenset({(0, 0), (2, 1)}), LAW)
    for colour in range(3):
        for size in range(2):
            build = {"colour": colour, "size": size}
            assert holds(turned, build) is holds(TABLE, build)


def test_every_broken_law_is_named() -> None:
    space = Space((COLOUR, SIZE), (TABLE,), (TOTAL,))
    assert broken(space, {"colour": 0, "size": 0}) == ()
    assert broken(space, {"colour": 1, "size": 1}) == (TABLE,)
    assert broken(space, {"colour": 2, "size": 1}) == (TOTAL,)
    assert broken(space.extended(sums=[TOTAL]), {"colour": 2, "size": 1}) == (TOTAL, TOTAL)


@pytest.mark.parametrize("build", [{"colour": 0}, {"colour": 0, "size": 2}, {"size": -1}, {}])
def test_an_incomplete_build_is_an_error(build: dict[str, int]) -> None:
    with pytest.raises(ValueError, match="the assignment gives no value of"):
        broken(Space((COLOUR, SIZE)), build)

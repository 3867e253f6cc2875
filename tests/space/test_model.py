"""What a space accepts, and what it can leave out."""

from __future__ import annotations

import pytest

from baywright.space import Choice, Origin, Space, Sum, Table

COLOUR = Choice("colour", ("red", "green", "blue"))
SIZE = Choice("size", ("small", "large"), derived=True)
SLOTS = Origin("slots", "law", "A card sits in one slot.")
POWER = Origin("power", "rule", "The load stays within one supply.")
TABLE = Table(("colour", "size"), frozenset({(0, 0), (2, 1)}), SLOTS)
TOTAL = Sum((("colour", (10, 20, 30)), ("size", (-5, 0))), 25, POWER, "W")
SPACE = Space((COLOUR, SIZE), (TABLE,), (TOTAL,))


def test_a_choice_is_found_by_name() -> None:
    assert SPACE.choice("size") is SIZE
    assert "size" in SPACE
    assert "weight" not in SPACE
    with pytest.raises(KeyError):
        SPACE.choice("weight")


def test_size_is_the_number_of_values() -> None:
    assert (COLOUR.size, Choice("none", ()).size) == (3, 0)


def test_the_scope_of_a_sum_is_what_carries_weights() -> None:
    assert TOTAL.scope == ("colour", "size")


def test_tables_come_before_sums() -> None:
    assert SPACE.laws == (TABLE, TOTAL)


def test_origins_stand_once_each_in_order_of_first_appearance() -> None:
    again = Table(("size",), frozenset({(0,)}), SLOTS)
    assert list(SPACE.extended(tables=[again]).origins) == ["slots", "power"]


def test_laws_of_one_key_are_taken_away_together() -> None:
    again = Sum((("size", (0, 1)),), 0, SLOTS)
    space = SPACE.extended(sums=[again])
    assert space.without(["slots"]).laws == (TOTAL,)
    assert space.only(["slots"]).laws == (TABLE, again)
    assert space.without(["no such key"]) == space
    assert space.laws == (TABLE, TOTAL, again)


def test_a_space_is_extended_without_being_changed() -> None:
    lid = Choice("lid", ("off", "on"))
    wider = SPACE.extended([lid], [Table(("lid", "size"), frozenset({(1, 1)}), POWER)])
    assert "lid" in wider
    assert "lid" not in SPACE
    assert len(wider.tables) == 2


def test_two_choices_of_one_name_are_an_error() -> None:
    with pytest.raises(ValueError, match="two choices share a name"):
        Space((COLOUR, COLOUR))


@pytest.mark.parametrize(
    ("table", "message"),
    [
        (Table(("weight",), frozenset(), SLOTS), "slots: there is no choice 'weight'"),
        (Table(("size",), frozenset({(2,)}), SLOTS), r"slots: row \(2,\) does not fit"),
        (Table(("size",), frozenset({(-1,)}), SLOTS), "does not fit"),
        (Table(("size",), frozenset({(0, 0)}), SLOTS), "does not fit"),
        (Table((), frozenset({(0,)}), SLOTS), "does not fit"),
    ],
)
def test_a_table_that_does_not_fit_is_an_error(table: Table, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        Space((COLOUR, SIZE), (table,))


@pytest.mark.parametrize(
    ("total", "message"),
    [
        (Sum((("weight", (1,)),), 0, POWER), "power: there is no choice 'weight'"),
        (Sum((("size", (1,)),), 0, POWER), "power: size needs a weight for each value"),
        (Sum((("size", (1, 2)), ("size", (1, 2))), 0, POWER), "a choice carries weights twice"),
    ],
)
def test_a_sum_that_does_not_fit_is_an_error(total: Sum, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        Space((COLOUR, SIZE), (), (total,))

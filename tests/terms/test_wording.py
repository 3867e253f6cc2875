"""Conditions in words."""

import pytest

from baywright.terms.checking import check
from baywright.terms.parse import parse
from baywright.terms.vocabulary import NUMBER, FunctionEntry, Type, Vocabulary, quantity
from baywright.terms.wording import wording

from .ferryman import VOCABULARY


def worded(written: str, vocabulary: Vocabulary = VOCABULARY, wanted: Type | None = None) -> str:
    return wording(check(parse(written), vocabulary, wanted=wanted).expression, vocabulary)


@pytest.mark.parametrize(
    ("written", "clause"),
    [
        (
            'count(drive, interface="sas", at="A") >= 12 and supplies_redundant',
            "at least 12 drives with interface sas in zone A, and the supplies are redundant",
        ),
        ("count(C16) <= 2", "at most 2 C16"),
        ("count(drive) == 0", "no drives"),
        ("count(drive) > 0", "at least 1 drive"),
        ("1 == count(drive)", "exactly 1 drive"),
        ("12 <= count(drive)", "at least 12 drives"),
        ("not count(drive) > 8", "at most 8 drives"),
        ("count(drive) < 9", "fewer than 9 drives"),
        ("count(drive) != 9", "other than 9 drives"),
        (
            "count(drive, capacity > 1 TB, mirrored, interface != 'sas') == 2",
            "exactly 2 mirrored drives with capacity more than 1 TB and interface other than sas",
        ),
        (
            "count(drive, not mirrored, interface in ('sas', 'pcie')) == 2",
            "exactly 2 not mirrored drives with interface sas or pcie",
        ),
        (
            "count(drive, lanes == 2 or lanes == 4) == 2",
            "exactly 2 drives with either lanes 2 or lanes 4",
        ),
        ("count(module, capacity=64 GB) == 16", "exactly 16 memory modules with size 64 GB"),
        (
            "count(drive) <= 8 * count(controller)",
            "the number of drives is at most 8 times the number of controllers",
        ),
        (
            "total(capacity, drive, at=B) >= 20 TB",
            "the total capacity of the drives in zone B is at least 20 TB",
        ),
        ('ports("usb", at=front) == 2', "exactly 2 usb ports in front"),
        (
            "arrays(8, 8, capacity >= 1 TB)",
            "there is room for arrays of 8 and 8 drives with capacity at least 1 TB",
        ),
        ("load <= 1300 W", "the load is at most 1,300 W"),
        ("1300 W >= load", "the load is at most 1,300 W"),
        ("load == 1300 W", "the load is exactly 1,300 W"),
        ("not load <= 1300 W", "the load is more than 1,300 W"),
        ("not supplies_redundant", "the supplies are not redundant"),
        ("supplies_redundant == false", "the supplies are not redundant"),
        ("supplies_redundant != false", "the supplies are redundant"),
        ("R1a == empty", "R1a is empty"),
        ("R1a != empty", "R1a is not empty"),
        ("R1a == 'C16'", "R1a holds C16"),
        ("R1a in ('C16', empty)", "R1a is empty or holds C16"),
        ("R1a not in ('C16', 'X8')", "R1a holds neither C16 nor X8"),
        ("empty == R1a", "R1a is empty"),
        ("R1a in ('C16')", "R1a holds C16"),
        ("R1a not in ('C16')", "R1a holds something other than C16"),
        ("R1a not in ('C16', empty)", "R1a is not empty and holds something other than C16"),
        ("not R1a in (empty)", "R1a is not empty"),
        (
            "implies(supplies_redundant, count(drive) == 1)",
            "if the supplies are redundant, then there is exactly 1 drive",
        ),
        (
            "fans == 6 and (O2 == empty or not implies(R1a == empty, fans > 4))",
            (
                "the number of fans is exactly 6, "
                "and either O2 is empty or both R1a is empty and the number of fans is at most 4"
            ),
        ),
        (
            "implies(O2 == empty, fans == 6) and supplies_redundant",
            (
                "either O2 is not empty or the number of fans is exactly 6, "
                "and the supplies are redundant"
            ),
        ),
        ("R1a != O2", "R1a holds something other than O2"),
        ("variant == 'fixed'", "the variant is fixed"),
        ("variant not in ('fixed', 'hot-swap')", "the variant is neither fixed nor hot-swap"),
        (
            "implies(R1a == 'C16', count(drive) <= 16)",
            "if R1a holds C16, then there are at most 16 drives",
        ),
        (
            "R1a == empty or (O2 == empty and supplies_redundant)",
            "R1a is empty, or both O2 is empty and the supplies are redundant",
        ),
        ("not (R1a == empty or O2 == empty)", "R1a is not empty, and O2 is not empty"),
        (
            "not arrays(8)",
            "it is not so that there is room for arrays of 8 drives",
        ),
    ],
)
def test_clauses(written: str, clause: str) -> None:

    assert worded(written) == clause


def test_values() -> None:
    assert worded("load + 2 * (load - 1 kW)", wanted=quantity("power")) == (
        "the load plus (2 times (the load minus 1 kW))"
    )
    assert worded("-fans", wanted=NUMBER) == "minus the number of fans"


def test_a_function_without_words_is_shown_as_written() -> None:
    vocabulary = Vocabulary(functions={"lanes_left": FunctionEntry((), NUMBER)})
    assert worded("lanes_left() >= 4", vocabulary) == "lanes_left() is at least 4"

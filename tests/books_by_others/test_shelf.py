"""A machine without processors, a drive shelf, begun with a question list and filled from a table.

Its answers were worked out by hand; the book is invented.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from baywright.answers.verdicts import Yes
from baywright.desk.judging import judge_build
from baywright.desk.opening import Opened, open_book
from baywright.files.books import book_from, read_build
from baywright.laws.wishes import read_wishes, with_wishes
from baywright.problems import Problems

SHELF = Path(__file__).parent / "c24"


@cache
def shelf() -> Opened:
    return open_book(SHELF)


@pytest.mark.parametrize(
    ("condition", "expected"),
    [
        ("processors == 0", True),
        ("processors == 1", False),
        ("count(drive) == 24 and MB == empty", True),  # one module drives them all
        ("count(drive) == 25", False),
        ('count("Cob-SSD-4") == 10 and count("Cob-HDD-8") == 14', True),  # mixed
        ("MA == empty", False),  # always there
        ("load > 442 W", False),  # 35 + 8 + 2 x 24 + 24 x 13 + 4 x 9 = 439 W
        ("load == 439 W", True),
        ("load == 103 W and count(drive) == 0", True),  # 35 + 8 + 24 + 4 x 9
        ("supplies_redundant and load == 439 W", True),  # one carries 580 W
    ],
)
def test_the_shelf_as_worked_out_by_hand(condition: str, expected: bool) -> None:
    inquiry = shelf().inquiry()
    wishes = read_wishes(inquiry.machine, condition)
    found = inquiry.possible(with_wishes(inquiry.machine.space, wishes))
    assert (found is not None) is expected


def test_a_full_shelf() -> None:
    verdict = judge_build(shelf(), read_build(SHELF / "builds" / "full.yaml"), 0).verdict
    assert isinstance(verdict, Yes)
    figures = {figure.name: figure.value for figure in verdict.witness.figures}
    assert figures["load"] == Fraction("417.4")  # 35 + 8 + 48 + 12 x 11.2 + 12 x 13 + 36
    assert figures["price"] == 3200 + 2 * 700 + 12 * 480 + 12 * 1120


def test_a_machine_with_sockets_has_a_processor() -> None:
    files = {path.name: path.read_bytes() for path in SHELF.glob("*.yaml")}
    files["more.yaml"] = b"links: {}\n"
    book_from(files)
    places = files["places.yaml"] + b"  P1: {type: socket, name: processor}\n"
    with pytest.raises(Problems, match="at least 1"):
        book_from({**files, "places.yaml": places})

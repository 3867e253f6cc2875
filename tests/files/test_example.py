"""The example of the documentation is a working book."""

from __future__ import annotations

import datetime
from fractions import Fraction

from baywright.engines.contract import Possible
from baywright.engines.search import Search
from baywright.files.books import book_from, build_from
from baywright.files.reference import embed
from baywright.laws.builds import build_wishes
from baywright.laws.conditions import Conditions
from baywright.laws.machine import compile_book
from baywright.laws.wishes import read_wishes, with_wishes
from baywright.units import parse
from tests.files.example import PAGE, example, example_book

# Invented for the example: about what air of a room at sea level carries, in W per CFM and K.
HEAT_PER_FLOW = Fraction(57, 100)


def test_the_page_has_the_reference_of_today() -> None:
    page = PAGE.read_text(encoding="utf-8")
    if page != embed(page):
        PAGE.write_text(embed(page), encoding="utf-8")
        raise AssertionError("the reference on the page was old; it has been written again")


def test_the_build_of_the_example_can_be_built() -> None:
    book = book_from(example_book())
    build = build_from(example()["t1/builds/first.yaml"].encode(), "first.yaml")
    machine = compile_book(
        book, Conditions(datetime.date(2031, 7, 1), HEAT_PER_FLOW, parse("200 m"))
    )
    wishes = build_wishes(machine, build)
    for number, text in enumerate(build.must):
        wishes += read_wishes(machine, text, start=100 + number)
    assert isinstance(Search().prove(with_wishes(machine.space, wishes)), Possible)

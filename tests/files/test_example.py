"""The example of the documentation is a working book."""

from __future__ import annotations

import ast
import datetime
from collections.abc import Iterator
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
from tests.style.sources import Source, sources

# Invented for the example: about what air of a room at sea level carries, in W per CFM and K.
HEAT_PER_FLOW = Fraction(57, 100)


def test_the_page_has_the_reference_of_today() -> None:
    page = PAGE.read_text(encoding="utf-8")
    if page != embed(page):
        PAGE.write_text(embed(page), encoding="utf-8")
        raise AssertionError("the reference on the page was old; it has been written again")


def test_every_kind_of_problem_is_on_a_page() -> None:
    pages = sorted(PAGE.parent.glob("*.md"))
    page = "".join(each.read_text(encoding="utf-8") for each in pages)
    raised = {kind for source in sources() if _reads_books(source) for kind in _kinds(source)}
    assert {"yaml", "missing", "cycle", "unknown-unit"} <= raised
    assert [kind for kind in sorted(raised) if f"`{kind}`" not in page] == []


def _reads_books(source: Source) -> bool:
    folders = ("src/baywright/files/", "src/baywright/facts/", "src/baywright/units/")
    return source.path.startswith(folders)


def _kinds(source: Source) -> Iterator[str]:
    """Yield the first argument of each call that makes a problem, where it is a plain text."""
    makers = {"Problem", "problem", "refusal", "UnitError", "_complain"}
    for node in ast.walk(source.tree):
        if isinstance(node, ast.Call) and node.args and isinstance(node.args[0], ast.Constant):
            name = getattr(node.func, "id", getattr(node.func, "attr", ""))
            if name in makers:
                yield str(node.args[0].value)


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

"""Parts lists of the demo's builds, and back: the list read as an order gives the same build."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from baywright.answers.verdicts import No, Witness, Yes
from baywright.desk.opening import Opened, open_book
from baywright.desk.order.checking import Checked, check_file
from baywright.desk.parts_list import PartsList, list_of, parts_list, rows_of, table_of
from baywright.desk.random_builds import Draw, random_builds
from baywright.desk.request import Request
from baywright.exchange.lists.sheets import write_table
from baywright.files.books import build_from, bundled_books
from baywright.laws.power import LINE

BUILDS = [("f1", "n5-owned"), ("f2", "n2"), ("p1", "n1")]


def _built(book: str, name: str) -> PartsList:
    return parts_list(book, bundled_books()[book] / "builds" / f"{name}.yaml", Request())


def _again(found: PartsList, path: Path) -> Checked:
    write_table(table_of(found), path)
    return check_file(found.opened, path)


def _values(opened: Opened, shown: Witness | None) -> dict[str, int]:
    """Return what a build has, its input power aside, which is the site's."""
    assert shown is not None
    fittings = opened.machine.frame.fittings.items()
    own = [name for name, fitting in fittings if not fitting.derived and name != LINE]
    return {name: shown.values[name] for name in own}


@pytest.mark.parametrize("suffix", [".csv", ".xlsx"])
@pytest.mark.parametrize(("book", "build"), BUILDS)
def test_a_list_read_as_an_order_gives_the_same_build(
    book: str, build: str, suffix: str, tmp_path: Path
) -> None:
    found = _built(book, build)
    assert isinstance(found.verdict, Yes)
    checked = _again(found, tmp_path / f"list{suffix}")
    assert isinstance(checked.verdict, Yes)
    assert checked.arrangements is not None
    assert checked.arrangements.number == 1
    assert not checked.follow
    assert _values(found.opened, checked.shown) == _values(found.opened, found.verdict.witness)
    assert not [each for each in checked.order.not_read if each.counts]


@pytest.mark.parametrize(("book", "build"), BUILDS)
def test_a_list_without_places_gives_builds_of_the_same_parts(
    book: str, build: str, tmp_path: Path
) -> None:
    found = _built(book, build)
    rows = tuple(replace(row, place="", value="") for row in found.rows if row.count is not None)
    checked = _again(replace(found, rows=rows), tmp_path / "list.csv")
    assert checked.shown is not None
    assert isinstance(found.verdict, Yes)
    assert checked.shown.parts == found.verdict.witness.parts
    assert checked.arrangements is not None
    assert checked.arrangements.number is not None


@pytest.mark.parametrize("book", ["f1", "f2", "l4", "p1"])
def test_lists_of_random_builds_come_back(book: str, tmp_path: Path) -> None:
    opened = open_book(book)
    drawn = random_builds(opened, Draw(number=4, seed=7)).builds
    for number, shown in enumerate(drawn):
        rows = tuple(rows_of(opened.machine, shown))
        verdict = Yes(shown, random_builds(opened, Draw(number=1, seed=7)).proof)
        checked = _again(PartsList("drawn", opened, verdict, rows), tmp_path / f"{number}.csv")
        assert isinstance(checked.verdict, Yes)
        assert checked.arrangements is not None
        assert checked.arrangements.number == 1
        assert _values(opened, checked.shown) == _values(opened, shown)


def test_the_totals_are_those_of_the_build() -> None:
    found = _built("f2", "n2")
    assert isinstance(found.verdict, Yes)
    figures = {figure.name: figure.value for figure in found.verdict.witness.figures}
    blanks = [row for row in found.rows if row.part.startswith("blank")]
    # From the demo scenario: 2 x 300 W over 0.9, 32 modules of 9 W, 8 drives of 20 W, two network
    # modules of 18 W, 6 fans of 22 W and 45 W of the base; two unused zones need a blank each.
    by_hand = Fraction(600 * 10, 9) + 32 * 9 + 8 * 20 + 2 * 18 + 6 * 22 + 45
    assert found.total("watts") == figures["load"] == by_hand
    assert [(row.part, row.count) for row in blanks] == [("blank-zone", 2)]
    in_blanks = sum((row.price or 0) * (row.count or 0) for row in blanks)
    assert found.total("price") - in_blanks == figures["price"]


def test_what_is_left_open_is_said() -> None:
    build = build_from(b"book: f2\nname: half\nplaces: {P1: cpu-16}\n", "half.yaml")
    found = list_of(open_book("f2"), build)
    assert any(each.startswith("M1: ") for each in found.decided)
    assert not any(each.startswith("P1: ") for each in found.decided)


def test_a_build_that_cannot_be_built_has_no_list() -> None:
    found = _built("f2", "n4")
    assert isinstance(found.verdict, No)
    assert not found.rows

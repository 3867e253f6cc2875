"""The page of formulas is that of today's code, and says of each where it comes from."""

from __future__ import annotations

from pathlib import Path

from baywright.desk.size.equations import equations_page
from baywright.sizing.equation import equations

PAGE = Path(__file__).parents[2] / "docs" / "equations.md"


def test_the_page_has_the_formulas_of_today() -> None:
    written = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
    if written != equations_page():
        PAGE.write_text(equations_page(), encoding="utf-8")
        raise AssertionError("the page of formulas was old; it has been written again")


def test_every_formula_says_where_it_comes_from_and_for_what_it_holds() -> None:
    bare = [each.number for each in equations().values() if not (each.source and each.valid)]
    assert bare == []


def test_a_formula_with_a_range_says_what_happens_outside() -> None:
    silent = [
        each.number
        for each in equations().values()
        if each.valid != "all values" and not each.outside
    ]
    assert silent == []

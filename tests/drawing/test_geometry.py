"""Nothing on a drawing covers anything else: every book, build, view, width and orientation."""

from __future__ import annotations

from functools import cache
from itertools import combinations, pairwise
from typing import get_args

import pytest

from baywright.drawing.draw import drawn
from baywright.drawing.framing import LEAST_WIDTH
from baywright.drawing.geometry import Point
from baywright.drawing.lettered import Numbering
from baywright.drawing.lettering import LEAST
from baywright.drawing.marks import Highlight, Said
from baywright.drawing.orientation import Stance
from baywright.drawing.registry import VIEWS
from baywright.drawing.sheet import Layout

from .sheets import BOOKS, books_of_others, builds, leaders, opened, overlaps, size, texts

DAY = "2031-07-01"
WIDTHS = (390.0, 760.0, 1440.0)
TURNING = ("front", "rear", "inside", "airflow")


@cache
def _drawings(book: str, view: str) -> tuple[str, ...]:
    facts = opened(book).book
    made = [
        drawn(view, facts, build, DAY, Layout(width)) for build in builds(book) for width in WIDTHS
    ]
    made += [
        drawn(view, facts, builds(book)[1], DAY, Layout(width), Stance("turned", quarters))
        for quarters in (1, 2, 3)
        for width in WIDTHS
        if view in TURNING
    ]
    return tuple(made)


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("book", BOOKS)
def test_no_label_or_number_covers_another(book: str, view: str) -> None:
    for svg in _drawings(book, view):
        assert overlaps(svg) == []
        sheet = size(svg)
        assert [text for text in texts(svg) if not sheet.holds(text.box)] == []
        assert [text for text in texts(svg) if text.size < LEAST] == []
        assert [text for text in texts(svg) if "…" in text.words or "..." in text.words] == []


@pytest.mark.parametrize("view", VIEWS)
def test_books_with_few_outlines_or_none_are_drawn_as_well(view: str) -> None:
    for book, built in books_of_others().values():
        for build in built:
            for width in (LEAST_WIDTH, *WIDTHS):
                svg = drawn(view, book, build, DAY, Layout(width))
                assert overlaps(svg) == []
                assert [t for t in texts(svg) if not size(svg).holds(t.box)] == []


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("book", BOOKS)
def test_leaders_never_cross(book: str, view: str) -> None:
    for svg in _drawings(book, view):
        found = list(leaders(svg))
        for one, other in combinations(found, 2):
            assert not any(_cross(*a, *b) for a in pairwise(one) for b in pairwise(other))


@pytest.mark.parametrize("numbering", get_args(Numbering))
@pytest.mark.parametrize("view", ["front", "rear", "inside"])
def test_highlights_do_not_cover_letters(view: str, numbering: Numbering) -> None:
    marks = dict(zip(("A", "B", "C", "R1a", "O2", "P1"), map(Highlight, Said), strict=True))
    for build in builds("f2"):
        for width in WIDTHS:
            layout = Layout(width, numbering, marks)
            assert overlaps(drawn(view, opened("f2").book, build, DAY, layout)) == []


def test_only_places_without_letters_get_a_number_where_that_is_asked() -> None:
    book, build = opened("f2").book, builds("f2")[1]

    def numbers(numbering: Numbering) -> int:
        svg = drawn("rear", book, build, DAY, Layout(1440.0, numbering))
        return len(list(leaders(svg)))

    assert numbers("all") > numbers("needed") > numbers("none") == 0


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Say whether two lines cross; touching ends do not count."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < -1e-6 and side(c, d, a) * side(c, d, b) < -1e-6

"""Close-ups show what a whole drawing shows of the same place, all of a place at one scale."""

from __future__ import annotations

import pytest

from baywright.drawing.closeup import alone, closeup
from baywright.drawing.draw import drawn
from baywright.drawing.reading import shown

from .sheets import BOOKS, SVG, builds, opened, root, size

DAY = "2031-07-01"
ROOM = (132.0, 64.0)


@pytest.mark.parametrize("book", BOOKS)
def test_a_closeup_shows_what_the_drawing_shows_of_its_place(book: str) -> None:
    held = opened(book).book
    for build in builds(book)[:3]:
        whole = shown(drawn("front", held, build, DAY))
        for place in {name.partition(".")[0] for name in whole}:
            svg = closeup("front", held, build, place, ROOM)
            assert svg is not None
            near = shown(svg)
            assert near == {name: whole[name] for name in near}
            assert size(svg).width <= ROOM[0] + 0.01
            assert size(svg).height <= ROOM[1] + 0.01


def test_a_view_that_does_not_show_a_place_has_no_closeup_of_it() -> None:
    assert closeup("front", opened("f2").book, None, "M1", ROOM) is None


@pytest.mark.parametrize("book", BOOKS)
def test_machines_alone_are_at_one_scale_and_without_letters(book: str) -> None:
    held = opened(book).book
    svg = alone("front", held, None, 1.0)
    assert list(root(svg).iter(f"{SVG}text")) == []
    assert shown(svg) == shown(drawn("front", held, None, DAY))

"""A sheet says the same to those who see it, to those who hear it, and in grey."""

from __future__ import annotations

import pytest

from baywright.drawing.draw import drawn, scene_of
from baywright.drawing.lettering import width_of, wrapped
from baywright.drawing.marks import Highlight, Said
from baywright.drawing.orientation import Stance, stance_of, stances
from baywright.drawing.registry import VIEWS
from baywright.drawing.sheet import Layout

from .sheets import BOOKS, SVG, builds, opened, root, size, texts, written_builds

DAY = "2031-07-01"


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("book", BOOKS)
def test_every_sheet_has_its_text_alternatives_and_its_title_block(book: str, view: str) -> None:
    svg = drawn(view, opened(book).book, builds(book)[1], DAY)
    top = root(svg)
    assert top.get("role") == "img"
    assert str(opened(book).book.book.name) in (top.findtext(f"{SVG}title") or "")
    assert len(top.findtext(f"{SVG}desc") or "") > 20 or view == "side"
    for group in top.iter(f"{SVG}g"):
        if group.get("data-at"):
            assert group.findtext(f"{SVG}title")
    words = [text.words for text in texts(svg)]
    assert {"book", "as of", "build", "view", "scale", DAY} <= set(words)


def test_ids_are_unique_and_name_their_view() -> None:
    for view in VIEWS:
        ids = [e.get("id") for e in root(drawn(view, opened("f2").book, None, DAY)).iter()]
        given = [each for each in ids if each is not None]
        assert len(given) == len(set(given))
        assert all(each.startswith(f"{view}-") for each in given)


def test_the_key_names_each_number_once() -> None:
    svg = drawn("rear", opened("f2").book, written_builds("f2")[0], DAY)
    circles = [e for e in root(svg).iter(f"{SVG}g") if e.get("data-callout")]
    numbers = [text.words for text in texts(svg) if text.words.isdigit()]
    for i in range(1, len(circles) + 1):
        assert numbers.count(str(i)) >= 2  # in its circle and in the key


def test_every_highlight_has_a_word_and_a_sign_of_its_own() -> None:
    seen = set()
    for said in Said:
        layout = Layout(900.0, highlights={"B": Highlight(said)})
        svg = drawn("front", opened("f2").book, written_builds("f2")[0], DAY, layout)
        assert Highlight(said).text in " ".join(text.words for text in texts(svg))
        seen.add(svg)
    assert len(seen) == len(Said)


def test_a_highlight_without_room_is_said_below() -> None:
    layout = Layout(390.0, "none", {"A.3": Highlight(Said.PICKED)})
    svg = drawn("front", opened("f2").book, written_builds("f2")[0], DAY, layout)
    assert "A.3: picked." in [text.words for text in texts(svg)]


def test_colour_is_never_on_a_part() -> None:
    for element in root(drawn("front", opened("f2").book, written_builds("f2")[0], DAY)).iter():
        for name in ("fill", "stroke"):
            value = element.get(name) or ""
            assert value in ("", "none") or value.startswith("url(#")


def test_a_drawing_is_as_wide_as_it_is_asked_for() -> None:
    for width in (390.0, 1100.0, 1440.0):
        assert size(drawn("inside", opened("l4").book, None, DAY, Layout(width))).width == width


def test_the_machine_stands_as_its_setting_says() -> None:
    book, (build,) = opened("p1").book, written_builds("p1")
    assert stance_of(book, build).quarters == 1
    assert stance_of(book, None).quarters == 0
    flat, upright = (scene_of("front", book, each).size for each in (None, build))
    assert flat == upright[::-1]


def test_rear_and_front_turn_against_each_other() -> None:
    book = opened("f2").book
    turned = Stance("on its side", 1)
    flat_rear, rear = (scene_of("rear", book, None, stance=s) for s in (Stance(), turned))
    flat_front, front = (scene_of("front", book, None, stance=s) for s in (Stance(), turned))
    # Clockwise from the front, what was left is above; from behind it is the other way round.
    supplies = next(g for g in rear.groups if g.id == "PS").rects[0]
    zone = next(g for g in front.groups if g.id == "A").rects[0]
    assert supplies.y < rear.size[1] / 2
    assert zone.y > front.size[1] / 2
    assert flat_front.size == front.size[::-1]
    assert flat_rear.size == rear.size[::-1]


def test_the_kit_that_an_orientation_takes_is_named() -> None:
    wall = stances(opened("p1").book)["wall"]
    assert any(
        "wall" in each for each in scene_of("front", opened("p1").book, None, stance=wall).remarks
    )
    (build,) = written_builds("p1")
    assert not any(
        "takes the" in each for each in scene_of("front", opened("p1").book, build).remarks
    )


def test_text_is_broken_between_words_and_never_lost() -> None:
    words = "zone A: cage for eight SAS drives; 8 × 2.4 TB SAS drive"
    lines = wrapped(words, 120.0)
    assert " ".join(lines) == words
    assert all(width_of(line) <= 120.0 for line in lines)
    assert "".join(wrapped("unbreakableunbreakable", 40.0)) == "unbreakableunbreakable"

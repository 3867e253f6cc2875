"""Drawing on request: what is refused, and builds that an engine found."""

from __future__ import annotations

import pytest

from baywright.desk.drawing import Wanted, as_build, draw
from baywright.files.books import bundled_books, read_build
from baywright.laws.builds import codes_of
from baywright.problems import Problems

from .demo import opened


@pytest.mark.parametrize(
    ("view", "wanted", "kind"),
    [
        ("frnt", Wanted(), "no-view"),
        ("front", Wanted(width=10.0), "width"),
        ("front", Wanted(numbering="some"), "numbering"),
        ("front", Wanted(orientation="wall"), "no-orientation"),
        ("front", Wanted(marks=("Z=picked",)), "no-place"),
        ("front", Wanted(marks=("A=green",)), "no-mark"),
    ],
)
def test_what_makes_no_sense_is_a_problem(view: str, wanted: Wanted, kind: str) -> None:
    with pytest.raises(Problems) as caught:
        draw(opened("f2"), None, view, wanted)
    assert [problem.kind for problem in caught.value.problems] == [kind]


def test_a_build_of_another_book_is_refused_before_anything_is_drawn() -> None:
    with pytest.raises(Problems):
        draw(opened("f2"), read_build(bundled_books()["l4"] / "builds" / "n3.yaml"), "front")


def test_a_build_of_an_engine_is_written_as_people_write_it() -> None:
    build, machine = read_build(bundled_books()["f2"] / "builds" / "n4.yaml"), opened("f2").machine
    again = as_build(machine, codes_of(machine, build), "again")
    assert codes_of(machine, again) == codes_of(machine, build)
    assert again.places["B"].controller == "R1b"

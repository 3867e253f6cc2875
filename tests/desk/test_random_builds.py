"""Random builds of a book."""

from __future__ import annotations

import pytest

from baywright.desk.opening import open_book
from baywright.desk.random_builds import (
    Draw,
    random_builds,
    random_builds_json,
    random_builds_sheet,
)
from baywright.problems import Problems


def test_random_builds_meet_the_condition_and_come_again() -> None:
    opened = open_book("p1")
    draw = Draw(20, 4, "load > 140 W")
    found = random_builds(opened, draw)
    loads = [
        figure.value for build in found.builds for figure in build.figures if figure.name == "load"
    ]
    assert len(loads) == 20
    assert all(load > 140 for load in loads)
    assert [b.values for b in random_builds(opened, draw).builds] == [
        b.values for b in found.builds
    ]
    assert found.proof.answered_by == "diagram"
    assert len(random_builds_json(found)["builds"]) == 20
    sheet = random_builds_sheet(opened, found)
    assert sheet.word == "20 builds"
    assert "Drawn by seed 4 from all legal builds, given" in sheet.sentence


def test_a_condition_that_nothing_meets() -> None:
    opened = open_book("p1")
    found = random_builds(opened, Draw(2, 1, "load > 100 kW"))
    assert not found.builds
    assert random_builds_sheet(opened, found).sentence.startswith("No legal build exists, given")


@pytest.mark.parametrize("number", [0, 1001])
def test_a_number_of_builds_without_sense(number: int) -> None:
    with pytest.raises(Problems, match="cannot be drawn at a time"):
        random_builds(open_book("p1"), Draw(number, 1))

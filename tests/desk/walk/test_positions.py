"""Words for places agree with where a drawing has them, however the machine stands."""

from __future__ import annotations

import pytest

from baywright.desk.walk.positions import position_sentence, positions
from baywright.desk.walk.stations import stations
from baywright.drawing.draw import scene_of
from baywright.drawing.orientation import Stance, stances
from baywright.files.books import find_book, read_book

F2, P1 = (read_book(find_book(name)) for name in ("f2", "p1"))


def sentence(book: str, key: str, stance: str = "") -> str:
    held = {"f2": F2, "p1": P1}[book]
    station = next(each for each in stations(held) if each.key == key)
    return position_sentence(held, station, stances(held).get(stance, Stance()))


def test_zones_are_told_from_left_to_right() -> None:
    said = (
        "Seen from the front, zone A is at the left, zone B in the middle and zone C at the right."
    )
    assert sentence("f2", "zones") == said


def test_the_rear_is_seen_from_the_rear() -> None:
    assert sentence("f2", "supplies") == "Seen from the rear, the supplies are at the left."


@pytest.mark.parametrize("stance", ["shelf", "tray"])
def test_a_machine_that_lies_has_its_bays_beside_each_other(stance: str) -> None:
    said = "Seen from the front, the data bays are at the left and the media bay at the right."
    assert sentence("p1", "zones", stance) == said


def test_on_a_wall_they_are_one_above_the_other_and_the_sentence_says_so() -> None:
    said = sentence("p1", "zones", "wall")
    assert said.startswith("On a wall, seen from the front, the data bays are along the upper edge")


@pytest.mark.parametrize("name", ["", "shelf", "wall", "tray"])
@pytest.mark.parametrize("book", ["f2", "p1"])
def test_left_is_left_on_the_drawing_and_upper_is_upper(book: str, name: str) -> None:
    held = {"f2": F2, "p1": P1}[book]
    stance = stances(held).get(name, Stance())
    for station in stations(held):
        scene = scene_of(station.side, held, None, stance=stance, narrow=True)
        rects = {group.id: group.rects for group in scene.groups}
        across, up = scene.size
        for each in positions(held, station, stance):
            middle = [rect.x + rect.width / 2 for rect in rects[each.place]]
            height = [rect.y + rect.height / 2 for rect in rects[each.place]]
            if "left" in each.words.split():
                assert min(middle) < across / 2
            if "right" in each.words.split():
                assert max(middle) > across / 2
            if "upper" in each.words or "back" in each.words.split("half-way back")[0]:
                assert max(height) > up / 2
            if "lower" in each.words or "near you" in each.words:
                assert min(height) < up / 2

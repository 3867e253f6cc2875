"""Every place of a demo book is drawn, inside the body and apart from its neighbours."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import pytest

from .demo import BOOKS, book


@dataclass(frozen=True)
class Box:
    """An outline in millimetres."""

    place: str
    left: Fraction
    low: Fraction
    right: Fraction
    high: Fraction

    def overlaps(self, other: Box) -> bool:
        beside = self.right <= other.left or other.right <= self.left
        above = self.high <= other.low or other.high <= self.low
        return not (beside or above)

    def is_within(self, across: Fraction, up: Fraction) -> bool:
        return min(self.left, self.low) >= 0 and self.right <= across and self.high <= up


def boxes(name: str, view: str) -> list[Box]:
    found = []
    for key, place in book(name).places.items():
        for outline in (entry for entry in place.at if entry.view == view):
            x, y = outline.x.known.to("mm"), outline.y.known.to("mm")
            width, height = outline.width.known.to("mm"), outline.height.known.to("mm")
            found.append(Box(key, x, y, x + width, y + height))
    return found


def extent(name: str, view: str) -> tuple[Fraction, Fraction]:
    chassis = book(name).chassis
    width, height = chassis.width.known.to("mm"), chassis.height.known.to("mm")
    depth = chassis.depth.known.to("mm")
    return {"inside": (width, depth), "side": (depth, height)}.get(view, (width, height))


@pytest.mark.parametrize("view", ["front", "rear", "inside", "side"])
@pytest.mark.parametrize("name", BOOKS)
def test_places_are_inside_the_body(name: str, view: str) -> None:
    across, up = extent(name, view)
    assert [box for box in boxes(name, view) if not box.is_within(across, up)] == []


@pytest.mark.parametrize("view", ["front", "rear", "inside", "side"])
@pytest.mark.parametrize("name", BOOKS)
def test_places_are_apart(name: str, view: str) -> None:
    drawn = boxes(name, view)
    pairs = [(one, other) for i, one in enumerate(drawn) for other in drawn[:i]]
    assert [pair for pair in pairs if pair[0].overlaps(pair[1])] == []


@pytest.mark.parametrize("name", BOOKS)
def test_every_place_is_drawn(name: str) -> None:
    views = {"front", "rear", "inside", "side"}
    places = book(name).places
    assert [key for key, place in places.items() if not place.at] == []
    assert {outline.view for place in places.values() for outline in place.at} <= views

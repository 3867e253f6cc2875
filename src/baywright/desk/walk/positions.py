"""Where places are, in words for who stands before the machine as it stands now."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from baywright.desk.walk.stations import Station
from baywright.drawing.draw import scene_of
from baywright.drawing.geometry import Rect
from baywright.drawing.orientation import Stance
from baywright.drawing.scene import Scene
from baywright.facts.book import Book
from baywright.facts.citation import Citation
from baywright.language.told.telling import with_article
from baywright.laws.wording import capitalised, listed

WHOLE = 0.7
"""Share of a side from which something lies along the whole of it."""

_BANDS = (1 / 3, 2 / 3)
"""Where the first and the second third of a side end."""


@dataclass(frozen=True, slots=True)
class Where:
    """Where a place is.

    Args:
        place: id of the place.
        name: its name.
        words: where it is, such as ``at the upper left``.
    """

    place: str
    name: str
    words: str


def positions(book: Book, station: Station, stance: Stance) -> tuple[Where, ...]:
    """Return where the places of a station are, as a drawing of that side has them.

    Args:
        book: the book.
        station: the station.
        stance: how the machine stands.
    """
    scene = scene_of(station.side, book, None, stance=stance, narrow=True)
    around = _around(scene)
    held = {group.id: group.rects for group in scene.groups if group.id in station.places}
    level = station.side == "inside" and not stance.quarters % 2
    return tuple(
        Where(name, str(book.places[name].name), _words(_bounds(held[name]), around, level=level))
        for name in station.places
        if name in held
    )


def position_sentence(book: Book, station: Station, stance: Stance, *, again: bool = False) -> str:
    """Return where the places of a station are, in one sentence; empty where none is drawn.

    Args:
        book: the book.
        station: the station.
        stance: how the machine stands.
        again: whether from where one looks was said just before, and need not be said again.
    """
    found = positions(book, station, stance)
    if not found:
        return ""
    ordered = sorted(found, key=lambda each: found.index(_first(found, each.words)))
    parts: list[str] = []
    for words, group in groupby(ordered, key=lambda each: each.words):
        names = [_named(each.name) for each in group]
        many = len(names) > 1 or names[0].endswith("s")
        verb = "" if parts else (" are" if many else " is")
        parts.append(f"{listed(names)}{verb} {words}")
    if again and not stance.quarters % 4:
        return f"{capitalised(listed(parts))}."
    return f"{_seen(station, stance)}, {listed(parts)}."


def outlines_of(book: Book, station: Station) -> tuple[Citation, ...]:
    """Return the facts that say where the places of a station are."""
    outlines = [
        at for name in station.places for at in book.places[name].at if at.view == station.side
    ]
    return book.cite(*(fact for at in outlines for fact in (at.x, at.y)))


def _named(name: str) -> str:
    """Return a name with its article; here, unlike in lists, plurals have one too."""
    plural = name.islower() and name.endswith("s") and name.replace(" ", "").isalpha()
    return f"the {name}" if plural or " near " in name else with_article(name)


def _first(found: Sequence[Where], words: str) -> Where:
    return next(each for each in found if each.words == words)


def _seen(station: Station, stance: Stance) -> str:
    """Return from where one looks, and how the machine stands where that is not the usual way."""
    turned = stance.quarters % 4
    if station.side != "inside":
        seen = f"seen from the {station.side}"
    elif turned:
        seen = f"with the front at the {_FRONT_AT[turned]}"
    else:
        seen = "seen from above with the front nearest you"
    return capitalised(f"{stance.name}, {seen}" if turned and stance.name else seen)


_FRONT_AT: Mapping[int, str] = {1: "left", 2: "lower edge", 3: "right"}


def _words(rect: Rect, around: Rect, *, level: bool) -> str:
    """Return where a rectangle is on a side.

    Args:
        rect: the rectangle, from the lower left corner [mm].
        around: the side [mm].
        level: whether the lower edge is the front of a machine that lies before one.
    """
    across = _third(rect.x + rect.width / 2 - around.x, around.width)
    up = _third(rect.y + rect.height / 2 - around.y, around.height)
    if rect.width > WHOLE * around.width:
        across = 9
    if rect.height > WHOLE * around.height:
        up = 9
    return _LEVEL[up][across] if level else _UPRIGHT[up][across]


_UPRIGHT: Mapping[int, Mapping[int, str]] = {
    0: {0: "at the lower left", 1: "in the lower middle", 2: "at the lower right",
        9: "along the lower edge"},
    1: {0: "half-way up at the left", 1: "in the middle", 2: "half-way up at the right",
        9: "across the middle"},
    2: {0: "at the upper left", 1: "in the upper middle", 2: "at the upper right",
        9: "along the upper edge"},
    9: {0: "at the left", 1: "in the middle", 2: "at the right", 9: "all over it"},
}  # fmt: skip
_LEVEL: Mapping[int, Mapping[int, str]] = {
    0: {0: "near you at the left", 1: "near you in the middle", 2: "near you at the right",
        9: "near you across the whole width"},
    1: {0: "half-way back at the left", 1: "in the middle", 2: "half-way back at the right",
        9: "half-way back across the whole width"},
    2: {0: "at the back on the left", 1: "at the back in the middle",
        2: "at the back on the right", 9: "at the back across the whole width"},
    9: {0: "along the left side", 1: "along the middle", 2: "along the right side",
        9: "all over it"},
}  # fmt: skip


POSITIONS = frozenset(
    words for table in (_UPRIGHT, _LEVEL) for row in table.values() for words in row.values()
)
"""Every way to say where a place is."""


def _third(at: float, length: float) -> int:
    return sum(at > band * length for band in _BANDS)


def _around(scene: Scene) -> Rect:
    return _bounds(scene.body) if scene.body else Rect(0, 0, *scene.size)


def _bounds(rects: Iterable[Rect]) -> Rect:
    """Return the rectangle around some rectangles, at least one."""
    each = list(rects)
    x, y = min(rect.x for rect in each), min(rect.y for rect in each)
    right, top = max(rect.right for rect in each), max(rect.y + rect.height for rect in each)
    return Rect(x, y, right - x, top - y)

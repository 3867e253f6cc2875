"""Feeds: which supply hangs on which feed.

Supplies are on the feeds that the machine fixes, or else are dealt out over those of the site in
turn, as in the sums of power.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from baywright.drawing import naming
from baywright.drawing.contents import State
from baywright.drawing.geometry import Rect
from baywright.drawing.scene import Group, Scene, Shape
from baywright.drawing.schematic import column, fanned, height_for, other_box
from baywright.drawing.subject import Subject
from baywright.facts.places import Supplies

WIDTH, GAP = 120.0, 110.0


@dataclass(frozen=True, slots=True)
class Cord:
    """A supply on a feed."""

    feed: str
    unit: str
    place: str


def scene(subject: Subject) -> Scene:
    """Return feeds at the left and supplies at the right."""
    cords = [cord for name in subject.book.places_of(Supplies) for cord in _cords(subject, name)]
    feeds = list(dict.fromkeys(cord.feed for cord in cords if cord.feed)) or [""]
    units = [cord.unit for cord in sorted(cords, key=lambda cord: _rank(feeds, cord.feed))]
    height = height_for(feeds, units)
    left = column([_box(feed) for feed in feeds], 0.0, WIDTH, height)
    right = column(units, WIDTH + GAP, WIDTH, height)
    lines = [
        (f"cord.{c.unit}", _box(c.feed), c.unit, "cord", f"feed {c.feed} to {c.unit}")
        for c in cords
        if c.feed and _fitted(subject, c)
    ]
    return Scene(
        "feeds",
        "Feeds",
        (2 * WIDTH + GAP, height),
        groups=(
            *(_feed(subject, feed, left[_box(feed)]) for feed in feeds),
            *(_supply(subject, cord, right[cord.unit]) for cord in cords),
        ),
        strokes=tuple(fanned(lines, {**left, **right})),
        remarks=tuple(_remarks(subject, cords)),
        to_scale=False,
    )


def _box(feed: str) -> str:
    """Return the id of the box of a feed; a feed may be called like a place."""
    return f"feed.{feed}" if feed else "feed"


def _rank(feeds: list[str], feed: str) -> int:
    return feeds.index(feed) if feed in feeds else len(feeds)


def _cords(subject: Subject, name: str) -> Iterator[Cord]:
    place, units = subject.book.places_of(Supplies)[name], subject.contents[name].units
    fixed = [str(feed) for feed, n in place.feeds.items() for _ in range(n.value or 0)]
    site = list(subject.build.site.feeds) if subject.build is not None else []
    for i, unit in enumerate(units):
        feed = fixed[i] if i < len(fixed) else ""
        if not place.feeds and site:
            feed = str(site[i % len(site)])
        yield Cord(feed, unit.id, name)


def _fitted(subject: Subject, cord: Cord) -> bool:
    units = subject.contents[cord.place].units
    return any(u.id == cord.unit and u.state is not State.EMPTY for u in units)


def _feed(subject: Subject, name: str, rect: Rect) -> Group:
    stated = subject.build.site.feeds.get(name) if subject.build is not None else None
    known = stated is not None and stated.current is not None
    says = stated.current.text if stated is not None and known else "not stated"
    return other_box(_box(name), f"feed {name}".strip(), says, rect, known=known)


def _supply(subject: Subject, cord: Cord, rect: Rect) -> Group:
    book = subject.book
    unit = next(u for u in subject.contents[cord.place].units if u.id == cord.unit)
    held = naming.part_name(book, unit.part) if unit.part else naming.WORDS[unit.state]
    title = f"supply {unit.label}" if unit.label else naming.place_name(book, cord.place)
    letters = ((title, held), (title, unit.part or held), (title,), (unit.label or cord.place,))
    shape = Shape(unit.id, rect, unit.state, unit.part, f"{title}: {held}", letters)
    inlet = getattr(book.parts.get(unit.part), "inlet", "")
    says = f"{held}, inlet {inlet}" if inlet else held
    return Group(unit.id, title, says, (rect,), (shape,))


def _remarks(subject: Subject, cords: list[Cord]) -> Iterator[str]:
    if not cords:
        yield "The book has no supplies."
    elif not any(cord.feed for cord in cords):
        yield "Neither the machine nor the site says which feeds there are."
    elif not any(place.feeds for place in subject.book.places_of(Supplies).values()):
        yield "Supplies are dealt out over the feeds of the site in turn."

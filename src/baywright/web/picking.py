"""Drawings of a build on which places and positions are picked."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence

from markupsafe import Markup

from baywright.desk.bench.picture import FACES
from baywright.desk.drawing import Wanted, draw
from baywright.problems import problem, suggestion
from baywright.service.losing.standing import place_of
from baywright.web.chosen import Chosen
from baywright.web.drawings import on_page

WIDTH = 1100.0
"""Width of a drawing [px]."""

_DRAWN = re.compile(r'data-at="([^"]+)"')

Link = Callable[[str], tuple[str, str] | None]
"""Takes what is drawn, and returns its address and what it is called, or ``None``."""


Marks = Callable[[Sequence[str]], Iterable[str]]
"""Takes everything that is drawn, and returns the marks on it."""


def picking(chosen: Chosen, view: str, marks: Marks, link: Link) -> Markup:
    """Return a view of a build with what is drawn in it as links.

    Args:
        chosen: the build.
        view: one of the views in which places are picked.
        marks: what is said of what is drawn.
        link: the link of what is drawn.

    Raises:
        Problems: kind ``no-view``.
    """
    if view not in FACES:
        raise problem("no-view", f"There is no view {view!r}.", None, suggestion(view, FACES))
    plain = draw(chosen.opened, chosen.build, view, Wanted(WIDTH, "needed"))
    drawn = tuple(dict.fromkeys(_DRAWN.findall(plain)))
    wanted = tuple(marks(drawn))
    if not wanted:
        return on_page(plain, "pick", link)
    marked = Wanted(WIDTH, "needed", marks=wanted)
    return on_page(draw(chosen.opened, chosen.build, view, marked), "pick", link)


def view_for(chosen: Chosen, picked: Iterable[str]) -> str:
    """Return the view in which the first of some things is seen, the inside for all else."""
    places = chosen.opened.book.places
    for thing in picked:
        place = places.get(place_of(thing.partition(":")[0]))
        seen = {outline.view for outline in place.at} if place is not None else set()
        for view in FACES:
            if view in seen:
                return view
    return FACES[-1]


def place_drawn(at: str, drawn: Sequence[str], places: Iterable[str]) -> str:
    """Return the place that is meant by something drawn: itself, or the place it is a position of.

    A position of a place that is drawn itself means nothing of its own.
    """
    place = place_of(at)
    if place not in set(places) or (at != place and place in drawn):
        return ""
    return place

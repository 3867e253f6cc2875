"""Pictures of what is on the bench, and how their lines look on a page."""

from __future__ import annotations

import re

from baywright.desk.bench.bench import Bench
from baywright.desk.bench.standing import Standing, build_so_far
from baywright.desk.drawing import Wanted, draw
from baywright.drawing import pen
from baywright.drawing.registry import VIEWS
from baywright.problems import problem, suggestion

FACES = ("front", "rear", "inside")
"""Views in which places are picked; the others show what follows from them."""

_RULE = re.compile(r"([^{}]+)\{")


def picture_of(
    bench: Bench,
    standing: Standing | None,
    view: str,
    width: float,
    picked: str = "",
    *,
    numbered: bool = True,
) -> str:
    """Return a view as an SVG document; without a standing, nothing is decided.

    Args:
        bench: the bench.
        standing: where the steps have led.
        view: name of the view.
        width: width of the sheet [px].
        picked: id of the place that is picked, or empty.
        numbered: whether places get numbers with a key below, where letters do not fit.

    Raises:
        Problems: for a view that there is not, or a width that cannot be.
    """
    if view not in VIEWS:
        raise problem("no-view", f"There is no view {view!r}.", None, suggestion(view, VIEWS))
    chosen = () if standing is None else tuple(sorted(standing.chosen.items()))
    key = (view, width, picked, numbered, standing is None, *chosen)
    return bench.pictures.get(
        key, lambda: _drawn(bench, standing, view, width, picked, numbered=numbered)
    )


def _drawn(
    bench: Bench,
    standing: Standing | None,
    view: str,
    width: float,
    picked: str,
    *,
    numbered: bool,
) -> str:
    build = build_so_far(bench, standing, "so far") if standing is not None else None
    shown = picked in views_of_place(bench, view)
    marks = (f"{picked}=picked",) if shown else ()
    numbering = "needed" if numbered else "none"
    return draw(bench.opened, build, view, Wanted(width, numbering, "", marks))


def views_of_place(bench: Bench, view: str) -> frozenset[str]:
    """Return the places that have an outline in a view."""
    return frozenset(
        name
        for name, place in bench.machine.book.places.items()
        if any(outline.view == view for outline in place.at)
    )


def view_of(bench: Bench, place: str) -> str:
    """Return the view in which a place is picked, the front for what has no outline."""
    for view in FACES:
        if place in views_of_place(bench, view):
            return view
    return FACES[0]


def drawing_css(scope: str = ".drawn") -> str:
    """Return the style of drawings, for pages that hold them; colours are the page's own.

    >>> drawing_css().startswith(".drawn text {")
    True
    """
    scoped = _RULE.sub(lambda match: f"{scope} {match[1].strip()} {{", pen.CLASSES)
    return re.sub(r"\s*\n\s*|(?<=\})\s+", "\n", scoped).strip() + "\n"

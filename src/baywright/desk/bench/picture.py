"""Pictures of what is on the bench, and how their lines look on a page."""

from __future__ import annotations

import re
from collections.abc import Iterator

from baywright.desk.bench.bench import Bench
from baywright.desk.bench.ghosts import Ghost, filled_alone
from baywright.desk.bench.placing import place_of
from baywright.desk.bench.standing import Standing, build_so_far
from baywright.desk.drawing import Wanted, draw
from baywright.drawing import pen, svg
from baywright.drawing.closeup import alone, closeup
from baywright.drawing.registry import VIEWS
from baywright.facts.places import AnyPlace, Bank, Zone
from baywright.problems import problem, suggestion

FACES = ("front", "rear", "inside")
"""Views in which places are picked; the others show what follows from them."""

SMALL = (132.0, 64.0)
"""Most width and height of a small drawing beside an option [px]."""

_RULE = re.compile(r"([^{}]+)\{")


def picture_of(
    bench: Bench,
    standing: Standing | None,
    view: str,
    width: float,
    picked: str = "",
    *,
    numbered: bool = True,
    ghost: Ghost | None = None,
) -> str:
    """Return a view as an SVG document; without a standing, nothing is decided.

    Args:
        bench: the bench.
        standing: where the steps have led.
        view: name of the view.
        width: width of the sheet [px].
        picked: id of the place that is picked, or empty.
        numbered: whether places get numbers with a key below, where letters do not fit.
        ghost: what is shown as if it were fitted.

    Raises:
        Problems: for a view that there is not, or a width that cannot be.
    """
    if view not in VIEWS:
        raise problem("no-view", f"There is no view {view!r}.", None, suggestion(view, VIEWS))
    chosen = () if standing is None else tuple(sorted(standing.chosen.items()))
    key = (view, width, picked, numbered, standing is None, ghost, *chosen)

    def drawn() -> str:
        build = build_so_far(bench, standing, "so far") if standing is not None else None
        if ghost is not None and build is not None:
            build = ghost.on(build)
        marks = tuple(_marks(bench, view, picked, ghost))
        numbering = "needed" if numbered else "none"
        return draw(bench.opened, build, view, Wanted(width, numbering, "", marks))

    return bench.pictures.get(key, drawn)


def _marks(bench: Bench, view: str, picked: str, ghost: Ghost | None) -> Iterator[str]:
    """Yield what is said of the places of a view; a ghost goes before the corners of a pick."""
    there = views_of_place(bench, view)
    shown = ghost.marks if ghost is not None else ()
    if picked in there and picked not in {place for place, _ in shown}:
        yield f"{picked}=picked"
    for place, words in shown:
        if place in there:
            yield f"{place}=preview: {words}"


def small_picture(bench: Bench, choice: str, value: int) -> str | None:
    """Return a small drawing of a place as a value fills it, or ``None`` where nothing is drawn.

    Args:
        bench: the bench.
        choice: a choice of the place.
        value: the value.
    """
    place = place_of(bench.machine, choice)
    view = view_of(bench, place)
    if choice not in _told_apart(bench) or place not in views_of_place(bench, view):
        return None

    def drawn() -> str:
        build = filled_alone(bench, choice, value)
        return closeup(view, bench.machine.book, build, place, SMALL) or ""

    return bench.pictures.get(("small", choice, value), drawn) or None


def machine_alone(bench: Bench, view: str, scale: float) -> str:
    """Return a machine with nothing decided, without letters, at a scale [px/mm]."""
    key = ("machine alone", view, scale)
    return bench.pictures.get(key, lambda: alone(view, bench.machine.book, None, scale))


def _told_apart(bench: Bench) -> frozenset[str]:
    """Return the choices whose values look different: zones and banks, bay by bay."""
    frame = bench.machine.frame
    row = {name for name, place in bench.machine.book.places.items() if _has_positions(place)}
    return frozenset(
        name
        for name, fitting in frame.fittings.items()
        if place_of(bench.machine, name) in row and any(each.parts for each in fitting.options)
    )


def _has_positions(place: AnyPlace) -> bool:
    return isinstance(place, Zone | Bank) or getattr(place, "positions", None) is not None


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


def drawing_css() -> str:
    """Return the style of drawings and charts, for pages that hold them; colours are the page's.

    >>> drawing_css().startswith(".drawn text {")
    True
    """
    return _scoped(".drawn", pen.CLASSES) + _scoped(".chart", svg.CLASSES)


def _scoped(scope: str, classes: str) -> str:
    scoped = _RULE.sub(lambda match: f"{scope} {match[1].strip()} {{", classes)
    return re.sub(r"\s*\n\s*|(?<=\})\s+", "\n", scoped).strip() + "\n"

"""Drawing a machine: a view of a book, with a build or with nothing decided."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import get_args

from baywright.desk.opening import Opened
from baywright.drawing.contents import contents
from baywright.drawing.draw import drawn
from baywright.drawing.framing import LEAST_WIDTH
from baywright.drawing.lettered import Numbering
from baywright.drawing.marks import Highlight, Said
from baywright.drawing.orientation import Stance, stances
from baywright.drawing.reading import Shown, lines_shown, shown
from baywright.drawing.registry import VIEWS
from baywright.drawing.sheet import Layout
from baywright.facts.book import Book
from baywright.facts.build import Build, Fitted, Item
from baywright.facts.fact import Fact
from baywright.facts.references import check_build
from baywright.facts.site import Site
from baywright.laws.machine import Machine
from baywright.papers.printing import pdf, png
from baywright.problems import Problems, problem, suggestion
from baywright.space import Assignment

VIEW_NAMES = tuple(VIEWS)
"""The views there are."""

WIDEST = 6000.0
"""Widest sheet [px]."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """How a drawing is wanted, as typed.

    Args:
        width: width of the sheet [px].
        numbering: which places get a number: ``all``, ``needed`` or ``none``.
        orientation: how the machine stands, by id; as the build says unless given.
        marks: highlights such as ``B=picked``, or with words ``B=if: without O2``.
    """

    width: float = 1100.0
    numbering: str = "all"
    orientation: str = ""
    marks: tuple[str, ...] = ()


def draw(opened: Opened, build: Build | None, view: str, wanted: Wanted | None = None) -> str:
    """Return a view as an SVG document.

    Where facts are unknown, the machine is drawn in the first way they could be.

    Args:
        opened: the book.
        build: the build, or ``None`` for the machine with nothing decided.
        view: one of the views in ``VIEWS``.
        wanted: how it is wanted.

    Raises:
        Problems: for a view, an orientation or a mark that makes no sense, and for what the build
            names and the book does not have.
    """
    asked = wanted or Wanted()
    if view not in VIEWS:
        message = f"There is no view {view!r}."
        raise problem("no-view", message, None, suggestion(view, VIEWS))
    found = check_build(build, opened.book) if build is not None else []
    if found:
        raise Problems(found)
    book = opened.machine.book
    layout = Layout(
        _width(asked.width), _numbering(asked.numbering), _highlights(book, build, asked)
    )
    stance = _stance(book, asked.orientation)
    return drawn(view, book, build, opened.as_of.isoformat(), layout, stance)


def picture(svg: str, form: str) -> str | bytes:
    """Return a drawing as ``svg``, ``png``, ``dark.png`` or ``pdf``."""
    match form:
        case "png":
            return png(svg)
        case "dark.png":
            return png(svg, dark=True)
        case "pdf":
            return pdf(svg)
        case _:
            return svg


def drawing_json(view: str, svg: str) -> dict[str, object]:
    """Return what a drawing shows, read back from it, as plain JSON values."""
    return {
        "view": view,
        "places": {name: _shown_json(each) for name, each in shown(svg).items()},
        "lines": list(lines_shown(svg)),
    }


def _shown_json(each: Shown) -> dict[str, object]:
    return {"state": each.state, "parts": list(each.parts)}


def as_build(
    machine: Machine, assignment: Assignment, name: str, site: Site | None = None
) -> Build:
    """Return a complete build as people write it, so that it can be drawn.

    Args:
        machine: the machine.
        assignment: value index by name of the choice.
        name: what the build is called.
        site: where it stands.
    """
    places = {place: _fitted(machine, place, assignment) for place in machine.book.places}
    settings = {
        each: str(machine.frame.options(each)[assignment[each]].value)
        for each in machine.book.settings
    }
    return Build(
        book=str(machine.book.book.id),
        name=Fact(name, name),
        site=site or Site(),
        places=places,
        settings=settings,
    )


def _fitted(machine: Machine, place: str, assignment: Assignment) -> Fitted:
    chosen = [machine.frame.options(each)[assignment[each]] for each in machine.frame.at(place)]
    items = tuple(Item(part, count) for option in chosen for part, count in option.parts)
    cables = machine.frame.at(f"{place} controller")
    leads = [machine.frame.options(each)[assignment[each]].value for each in cables]
    controllers = [str(lead) for lead in leads if lead is not None]
    return Fitted(items, controllers[0] if controllers else None)


def _width(width: float) -> float:
    if not LEAST_WIDTH <= width <= WIDEST:
        message = f"A sheet cannot be {width:g} pixels wide."
        raise problem("width", message, None, f"Give {LEAST_WIDTH:g} to {WIDEST:g}.")
    return width


def _numbering(text: str) -> Numbering:
    known: tuple[Numbering, ...] = get_args(Numbering)
    for each in known:
        if each == text:
            return each
    message = f"Numbers cannot be {text!r}."
    raise problem("numbering", message, None, suggestion(text, known))


def _stance(book: Book, name: str) -> Stance | None:
    if not name:
        return None
    known = stances(book)
    if name not in known:
        message = f"{book.book.name} does not stand {name!r}."
        hint = suggestion(name, known) or "The book states no orientations; leave it out."
        raise problem("no-orientation", message, None, hint)
    return known[name]


def _highlights(book: Book, build: Build | None, wanted: Wanted) -> Mapping[str, Highlight]:
    known = _known(book, build)
    return dict(_mark(text, known) for text in wanted.marks)


def _known(book: Book, build: Build | None) -> Sequence[str]:
    held = contents(book, build)
    return [*held, *(unit.id for each in held.values() for unit in each.units)]


def _mark(text: str, known: Sequence[str]) -> tuple[str, Highlight]:
    place, _, said = text.partition("=")
    kind, _, words = (part.strip() for part in said.partition(":"))
    if place not in known:
        raise problem("no-place", f"There is no place {place!r}.", None, suggestion(place, known))
    for each in Said:
        if each.value == kind:
            return place, Highlight(each, words)
    hint = suggestion(kind, [each.value for each in Said])
    raise problem("no-mark", f"{text!r}: a place cannot be marked {kind!r}.", None, hint)

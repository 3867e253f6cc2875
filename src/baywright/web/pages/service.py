"""Service: places picked in the drawing or the list, and the plan to reach and change them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar, get_args

from fastapi import APIRouter, Request, Response
from markupsafe import Markup

from baywright.answers.inquiry import StoppedError
from baywright.desk.bench.picture import FACES
from baywright.desk.service.access import AccessRequest, service_plan
from baywright.desk.service.access_telling import ServiceSheet, service_sheet
from baywright.facts.build import Fitted
from baywright.problems import Problem, Problems, problem
from baywright.service.access.circumstances import Doing, Lock
from baywright.service.access.moves import Least
from baywright.web.access import reader
from baywright.web.addresses import Address
from baywright.web.care import care_page
from baywright.web.chosen import Chosen, chosen
from baywright.web.picking import picking, place_drawn, view_for
from baywright.web.texts import text

router = APIRouter(include_in_schema=False)

AT = "at"
"""Field of an address that says what is changed."""

WordT = TypeVar("WordT", bound=str)


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """A place that can be picked.

    Args:
        id: its id.
        name: its name.
        holds: what is in it, in words.
        picked: whether it is picked.
    """

    id: str
    name: str
    holds: str
    picked: bool


@router.get("/service/{book}")
def service_page(request: Request, book: str) -> Response:
    """Show the plan for what is picked."""
    reader(request)
    address = Address.of(request)
    held = chosen(request, book, address)
    if held is None:
        return care_page(request, "service", book, address, None)
    rows = tuple(_rows(held, address))
    sheet, wrong = _planned(held, address) if address.all(AT) else (None, ())
    view = address.one("view", view_for(held, address.all(AT)))
    known = {row.id for row in rows}
    return care_page(
        request,
        "service",
        book,
        address,
        held,
        problems=wrong,
        sheet=sheet,
        rows=rows,
        other=[each for each in address.all(AT) if each not in known],
        view=view,
        faces=FACES,
        drawing=_drawing(held, address, view, rows),
        jobs=get_args(Doing),
        locks=get_args(Lock),
        leasts=get_args(Least),
    )


def _rows(held: Chosen, address: Address) -> Iterator[PlaceRow]:
    """Yield the places that something is in; another may be typed."""
    book, picked = held.opened.book, address.all(AT)
    for name, place in book.places.items():
        always = getattr(place, "always", None)
        fitted = held.build.places.get(name)
        words = _words(held, fitted) or (str(book.parts[always].name) if always else "")
        if words or name in picked:
            yield PlaceRow(name, str(place.name), words or text("empty"), name in picked)


def _words(held: Chosen, fitted: Fitted | None) -> str:
    parts = held.opened.book.parts
    items = fitted.items if fitted else ()
    return ", ".join(
        f"{each.count} \N{MULTIPLICATION SIGN} {parts[each.part].name}"
        if each.count > 1
        else str(parts[each.part].name)
        for each in items
    )


def _planned(held: Chosen, address: Address) -> tuple[ServiceSheet | None, tuple[Problem, ...]]:
    try:
        return service_sheet(service_plan(held.opened, held.build, _asked(address))), ()
    except Problems as found:
        return None, found.problems
    except StoppedError as much:
        message = f"It was not decided: {much.tried}."
        return None, (Problem("stopped", message, None, text("fewer_at_once")),)


def _asked(address: Address) -> AccessRequest:
    people = address.one("people")
    if people and not (people.isdigit() and len(people) < 4):
        raise problem("people", f"{people!r} is no number of people.", None, "Give 1 or more.")
    return AccessRequest(
        address.all(AT),
        _one_of(get_args(Doing), address.one("doing")),
        _one_of(get_args(Lock), address.one("lock")),
        int(people) if people else None,
        address.one("running") == "1",
        _one_of(get_args(Least), address.one("least")),
    )


def _one_of(known: Sequence[WordT], said: str) -> WordT:
    """Return a word as one of those there are, the first where it is none of them."""
    return next((each for each in known if each == said), known[0])


def _drawing(held: Chosen, address: Address, view: str, rows: Sequence[PlaceRow]) -> Markup:
    by_id = {row.id: row for row in rows}
    drawn_now: list[str] = []

    def marks(drawn: Sequence[str]) -> Iterator[str]:
        drawn_now[:] = drawn
        for at in drawn:
            if place_drawn(at, drawn, by_id) in address.all(AT):
                yield f"{at}=picked"

    def link(at: str) -> tuple[str, str] | None:
        place = place_drawn(at, drawn_now, by_id)
        if not place:
            return None
        row = by_id[place]
        said = f"{row.name}, {row.holds}{', ' + text('picked') if row.picked else ''}"
        return str(address.toggled(AT, place)), said

    return picking(held, view, marks, link)

"""Losses: things picked in the drawing or the list, and what is lost with them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from markupsafe import Markup

from baywright.desk.bench.picture import FACES
from baywright.desk.service.losing import Loss, lose
from baywright.desk.service.losing_drawing import loss_marks
from baywright.desk.service.losing_telling import loss_sheet
from baywright.problems import Problem, Problems
from baywright.service.losing.standing import place_of
from baywright.web.access import reader
from baywright.web.addresses import Address
from baywright.web.care import care_page
from baywright.web.chosen import Chosen, chosen
from baywright.web.picking import picking, view_for
from baywright.web.texts import text

router = APIRouter(include_in_schema=False)

LOST = "lost"
"""Field of an address that says what is lost."""


@dataclass(frozen=True, slots=True)
class Things:
    """Things of one kind that can be lost.

    Args:
        kind: the kind.
        rows: id, name and whether it is picked, of each.
    """

    kind: str
    rows: tuple[tuple[str, str, bool], ...]

    @property
    def picked(self) -> int:
        """How many of them are picked."""
        return sum(each[2] for each in self.rows)


@router.get("/losses/{book}")
def losses_page(request: Request, book: str) -> Response:
    """Show what is lost with what is picked, or what stands on one thing or on two."""
    reader(request)
    address = Address.of(request)
    held = chosen(request, book, address)
    if held is None:
        return care_page(request, "losses", book, address, None)
    loss, wrong = _lost(held, address.all(LOST))
    view = address.one("view", view_for(held, address.all(LOST)))
    known = set(loss.graph.ids)
    return care_page(
        request,
        "losses",
        book,
        address,
        held,
        problems=wrong,
        sheet=loss_sheet(loss),
        things=tuple(_things(loss, address)),
        other=[each for each in address.all(LOST) if each not in known],
        view=view,
        faces=FACES,
        drawing=_drawing(held, loss, address, view),
    )


def _lost(held: Chosen, things: Sequence[str]) -> tuple[Loss, tuple[Problem, ...]]:
    """Return what is lost, of nothing where a thing is not in the build; then with the problems."""
    try:
        return lose(held.opened, held.build, things, held.site), ()
    except Problems as found:
        if not things:
            raise
        return lose(held.opened, held.build, (), held.site), found.problems


def _things(loss: Loss, address: Address) -> Iterator[Things]:
    for kind in dict.fromkeys(thing.kind for thing in loss.graph.things):
        alike = [thing for thing in loss.graph.things if thing.kind == kind]
        yield Things(kind, tuple((t.id, t.name, t.id in address.all(LOST)) for t in alike))


def _drawing(held: Chosen, loss: Loss, address: Address, view: str) -> Markup:
    wanted = loss_marks(loss)
    gone = {mark.partition("=")[0] for mark in wanted}

    def marks(drawn: Sequence[str]) -> Iterator[str]:
        yield from (mark for mark in wanted if mark.partition("=")[0] in drawn)

    def link(at: str) -> tuple[str, str] | None:
        thing = _thing_at(loss, at)
        if not thing:
            return None
        named = loss.graph.by_id.get(thing)
        said = named.name if named else str(held.opened.book.places[thing].name)
        lost = text("lost") if thing in address.all(LOST) else text("out_of_reach")
        return str(address.toggled(LOST, thing)), f"{said}, {lost}" if at in gone else said

    return picking(held, view, marks, link)


def _thing_at(loss: Loss, at: str) -> str:
    """Return the thing that is drawn somewhere, or empty."""
    if at in loss.graph.by_id:
        return at
    inside = any(place_of(thing.place) == at for thing in loss.graph.things)
    return at if inside and at in loss.opened.book.places else ""

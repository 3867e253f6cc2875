"""Spares: a form for how many machines there are and how they are looked after, and the stock."""

from __future__ import annotations

from dataclasses import fields

from fastapi import APIRouter, Request, Response

from baywright.desk.request import Request as Given
from baywright.desk.service.fleet import Asked, interval, machines_of
from baywright.desk.service.spares import spares_of
from baywright.desk.service.spares_telling import SparesSheet, spares_sheet
from baywright.problems import Problem, Problems
from baywright.web.access import reader
from baywright.web.addresses import Address
from baywright.web.care import care_page
from baywright.web.chosen import Chosen, chosen
from baywright.web.scratch import folder

router = APIRouter(include_in_schema=False)

FIELDS = tuple(each.name for each in fields(Asked) if each.name != "fleet")
"""Fields of the form; a table of several builds is for the command."""

EXAMPLES = {
    "machines": "140",
    "level": "99 %",
    "lead": "14 d",
    "unit_lead": "30 d",
    "unit_rate": "0.5 %",
    "sites": "140",
    "visits": "30 d",
}


@router.get("/spares/{book}")
def spares_page(request: Request, book: str) -> Response:
    """Show the stock of a depot, the kits of sites, failures and visits."""
    reader(request)
    address = Address.of(request)
    held = chosen(request, book, address)
    if held is None:
        return care_page(request, "spares", book, address, None)
    asked = _asked(address)
    sheet, wrong = _counted(held, asked) if asked != Asked() else (None, ())
    return care_page(
        request,
        "spares",
        book,
        address,
        held,
        problems=wrong,
        sheet=sheet,
        fields=tuple((name, address.one(name), EXAMPLES[name]) for name in FIELDS),
    )


def _asked(address: Address) -> Asked:
    machines, level, lead, unit_lead, unit_rate, sites, visits = map(address.one, FIELDS)
    return Asked(machines, level, lead, unit_lead, unit_rate, sites, visits)


def _counted(held: Chosen, asked: Asked) -> tuple[SparesSheet | None, tuple[Problem, ...]]:
    try:
        with folder() as made:
            file = made / "build.yaml"
            file.write_text(held.written.text, encoding="utf-8")
            machines = machines_of(str(held.opened.folder), file, Given(), asked)
            return spares_sheet(spares_of(machines, interval(asked))), ()
    except Problems as found:
        return None, found.problems

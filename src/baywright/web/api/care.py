"""Care of machines: service planned, losses told, spares counted."""

from __future__ import annotations

from dataclasses import fields

from fastapi import APIRouter, Request

from baywright.answers.as_json import Json
from baywright.desk.opening import Opened
from baywright.desk.request import Request as Asked
from baywright.desk.service.access import AccessRequest, service_plan
from baywright.desk.service.access_json import service_json
from baywright.desk.service.fleet import Asked as Fleet
from baywright.desk.service.fleet import interval, machines_of
from baywright.desk.service.losing import lose
from baywright.desk.service.losing_json import loss_json
from baywright.desk.service.spares import spares_of
from baywright.desk.service.spares_json import spares_json
from baywright.desk.size.request import SiteRequest, build_at_site
from baywright.facts.build import Build
from baywright.facts.site import Site
from baywright.files.books import build_from
from baywright.web.api.bodies import Loss, Service, Stock, opened_for
from baywright.web.scratch import folder

router = APIRouter(prefix="/api/books", tags=["care"])


@router.post("/{book}/service")
def plan_service(request: Request, book: str, body: Service) -> Json:
    """Plan the shortest safe way to reach parts, change them, and put everything back."""
    opened, standing, _ = _standing(request, book, body.text)
    asked = AccessRequest(
        tuple(body.places), body.doing, body.lock, body.people, body.keep_running, body.least
    )
    return service_json(service_plan(opened, standing, asked))


@router.post("/{book}/lose")
def tell_loss(request: Request, book: str, body: Loss) -> Json:
    """Say what is lost with some things, and what stands on one thing or on two."""
    opened, standing, site = _standing(request, book, body.text, body.volts)
    return loss_json(lose(opened, standing, body.things, site))


@router.post("/{book}/spares")
def count_spares(request: Request, book: str, body: Stock) -> Json:
    """Count the spares of machines alike: the stock of a depot, kits, failures and visits."""
    opened = opened_for(request, book)
    said = {each.name: getattr(body, each.name) for each in fields(body) if each.name != "text"}
    asked = Fleet(**said)
    with folder() as made:
        file = made / "build.yaml"
        file.write_text(body.text, encoding="utf-8")
        machines = machines_of(str(opened.folder), file, Asked(), asked)
        return spares_json(spares_of(machines, interval(asked)))


def _standing(
    request: Request, book: str, text: str, volts: str = ""
) -> tuple[Opened, Build, Site]:
    """Return a book for a build where it stands."""
    held = opened_for(request, book)
    build = build_from(text.encode("utf-8"), "build")
    return build_at_site(str(held.folder), build, Asked(), SiteRequest(volts=volts))

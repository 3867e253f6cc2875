"""The command service: reach parts, change them, and put everything back."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from rich.console import Group, RenderableType
from rich.padding import Padding
from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import caution, heading
from baywright.desk.request import Request
from baywright.desk.service.access import AccessRequest, service_plan
from baywright.desk.service.access_json import service_json
from baywright.desk.service.access_telling import (
    PlanSheet,
    ServiceSheet,
    StepSheet,
    refusal_lines,
    service_sheet,
)
from baywright.desk.size.request import SiteRequest, at_site
from baywright.facts.cautions import Caution

__all__ = ["AccessRequest", "Request", "SiteRequest", "service"]


@guarded
def service(
    book: str,
    build: Path,
    asked: AccessRequest,
    request: Request,
    site: SiteRequest,
    *,
    as_json: bool,
) -> int:
    """Plan the service of a build."""
    with progress(f"Planning service of {build}", as_json=as_json):
        opened, standing, _ = at_site(book, build, request, site)
        found = service_plan(opened, standing, asked)
    if as_json:
        show_json(service_json(found))
    else:
        show(_sheet(service_sheet(found)))
    return ANSWERED


def _sheet(told: ServiceSheet) -> Iterator[RenderableType]:
    yield Text(told.title, style="bold")
    for each in told.cautions:
        yield from caution(each)
    for plan in told.plans:
        yield from _plan(plan)
    yield ""
    yield Text(told.standing, style="dim")
    yield Text(told.aid)


def _plan(plan: PlanSheet) -> Iterator[RenderableType]:
    if plan.title:
        yield from heading(plan.title)
    for sentence in plan.sentences:
        yield Text(sentence)
    if plan.refused:
        yield from heading("Not as asked")
        yield from map(Text, refusal_lines(plan.refused))
        return
    if plan.why_off:
        yield from heading("Why the machine is stopped")
        yield from map(Text, refusal_lines(plan.why_off))
    for step in plan.steps:
        yield from _step(step)
    yield from _foot(plan)


def _step(step: StepSheet) -> Iterator[RenderableType]:
    yield from heading(f"Step {step.number} ({step.power})")
    for first in step.first:
        yield _indented(Text(first))
    for shown in step.told(_caution, _again, Text):
        yield _indented(shown)
    yield _indented(Text(step.takes, style="dim"))
    for after in step.after:
        yield _indented(Text(after))


def _indented(part: RenderableType) -> RenderableType:
    return Padding(part, (0, 0, 0, 2))


def _caution(said: Caution) -> RenderableType:
    return Group(*caution(said))


def _again(name: str) -> RenderableType:
    return Text(f"\N{WHITE UP-POINTING TRIANGLE} As before: {name}.")


def _foot(plan: PlanSheet) -> Iterator[RenderableType]:
    if plan.refit:
        yield from heading("Put back, in this order")
        yield Text(", ".join(plan.refit))
    if plan.notes:
        yield from heading("The parts")
        yield from map(Text, plan.notes)
    if plan.facts:
        yield from heading("What stands behind it")
        yield from (Text(fact, style="dim") for fact in plan.facts)

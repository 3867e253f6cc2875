"""The command faults: what can be behind what is seen, and how to find out."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from rich.console import RenderableType
from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.losses import form_of
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import caution, heading, table
from baywright.desk.drawing import picture
from baywright.desk.request import Request
from baywright.desk.service.faults import FaultRequest, diagnose
from baywright.desk.service.faults_drawing import draw_tree
from baywright.desk.service.faults_json import diagnosis_json
from baywright.desk.service.faults_telling import FaultSheet, Part, fault_sheet, sign_rows
from baywright.desk.size.request import SiteRequest, at_site
from baywright.files.folders import write_files

__all__ = ["FaultRequest", "Request", "SiteRequest", "faults"]


@guarded
def faults(
    book: str,
    build: Path,
    asked: FaultRequest,
    request: Request,
    site: SiteRequest,
    *,
    list_signs: bool,
    out: Path | None,
    as_json: bool,
) -> int:
    """Say what can be behind what is seen of a build."""
    form = form_of(out)
    with progress(f"Going through the faults of {build}", as_json=as_json):
        opened, standing, _ = at_site(book, build, request, site)
        found = diagnose(opened, standing, asked)
    if out is not None:
        write_files({out.name: picture(draw_tree(found), form)}, out.parent)
    if as_json:
        show_json(diagnosis_json(found))
    elif list_signs:
        show([table(sign_rows(found.worlds[0][1], opened.book))])
    else:
        show(_sheet(fault_sheet(found)))
    return ANSWERED


def _sheet(told: FaultSheet) -> Iterator[RenderableType]:
    yield Text(told.title, style="bold")
    yield Text(told.seen)
    yield Text(told.word, style="bold")
    for each in told.cautions:
        yield from caution(each)
    for part in told.parts:
        yield from _part(part)
    yield ""
    yield Text(told.standing, style="dim")
    yield Text(told.aid)


def _part(part: Part) -> Iterator[RenderableType]:
    yield from heading(part.title)
    for each in part.cautions:
        yield from caution(each)
    if part.again:
        yield Text(f"\N{WHITE UP-POINTING TRIANGLE} As before: {', '.join(part.again)}.")
    yield from map(Text, part.sentences)
    if part.table is not None and part.table.rows:
        yield table(part.table)
    yield from map(Text, part.after)

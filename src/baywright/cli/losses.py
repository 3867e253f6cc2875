"""The command lose: what is gone with a thing, why, and what stands on one thing or on two."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from rich.console import RenderableType
from rich.padding import Padding
from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import caution, heading, table
from baywright.desk.drawing import picture
from baywright.desk.request import Request
from baywright.desk.service.losing import lose as lose_
from baywright.desk.service.losing_drawing import draw_loss
from baywright.desk.service.losing_json import loss_json
from baywright.desk.service.losing_telling import LossSheet, Part, loss_sheet
from baywright.desk.service.things import thing_rows
from baywright.desk.size.request import SiteRequest, at_site
from baywright.facts.cautions import Caution
from baywright.files.folders import write_files
from baywright.problems import problem

__all__ = ["Output", "Request", "SiteRequest", "lose"]

FORMS = ("dark.png", "svg", "png", "pdf")
"""Endings of the files that a drawing is written to."""


@dataclass(frozen=True, slots=True)
class Output:
    """What is shown of a loss.

    Args:
        things: whether everything that can be lost is listed instead.
        view: view of the drawing.
        out: file to write the drawing to, or ``None``.
    """

    things: bool = False
    view: str = "inside"
    out: Path | None = None


@guarded
def lose(
    book: str,
    build: Path,
    things: Sequence[str],
    request: Request,
    site: SiteRequest,
    output: Output,
    *,
    as_json: bool,
) -> int:
    """Say what is lost with some things."""
    form = form_of(output.out)
    with progress(f"Taking things out of {build}", as_json=as_json):
        opened, read, there = at_site(book, build, request, site)
        found = lose_(opened, read, things, there)
    if output.out is not None:
        svg = draw_loss(found, output.view)
        write_files({output.out.name: picture(svg, form)}, output.out.parent)
    if as_json:
        show_json(loss_json(found))
    elif output.things:
        show([table(thing_rows(found.graph))])
    else:
        show(_sheet(loss_sheet(found)))
    return ANSWERED


def form_of(out: Path | None) -> str:
    """Return the form of a drawing from the name of its file."""
    if out is None:
        return ""
    for form in FORMS:
        if out.name.endswith(f".{form}"):
            return form
    message = f"{out}: drawings are not written in that form."
    raise problem("no-form", message, None, f"Let the name end in {', '.join(FORMS)}.")


def _sheet(told: LossSheet) -> Iterator[RenderableType]:
    yield Text(told.title, style="bold")
    yield Text(told.lost)
    yield Text(told.word, style="bold")
    yield from _cautions(told.cautions)
    said: set[str] = set()
    for part in told.parts:
        yield from _part(part, said)
    yield ""
    yield Text(told.aid)


def _cautions(cautions: Iterable[Caution]) -> Iterator[RenderableType]:
    for each in cautions:
        yield ""
        yield from caution(each)


def _part(part: Part, said: set[str]) -> Iterator[RenderableType]:
    """Yield a part; a ground that was shown with its facts before is shown without them."""
    yield from heading(part.title)
    yield from _cautions(part.cautions)
    for line in part.lines:
        yield Text(line.says)
        for ground in line.grounds:
            stands = ground.stands if ground.stands and ground.says not in said else ""
            said.add(ground.says)
            yield Padding(Text(f"{ground.says}{stands}", style="dim"), (0, 0, 0, 2))
    if part.table is not None and part.table.rows:
        yield table(part.table)
    for sentence in part.sentences:
        yield Text(sentence)

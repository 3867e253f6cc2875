"""The command size: a build with its limits, what breaks first, its figures and its charts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from rich.console import RenderableType
from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import caution, columns, heading, table
from baywright.desk.request import Request
from baywright.desk.size.as_json import sized_json
from baywright.desk.size.plots import plots
from baywright.desk.size.request import SiteRequest, sized
from baywright.desk.size.telling import Entry, Section, SizeSheet, size_sheet, why
from baywright.facts.cautions import Caution
from baywright.files.folders import write_files

__all__ = ["Request", "SiteRequest", "Wanted", "size"]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of a sized build.

    Args:
        key: key of one figure to explain, or empty.
        subjects: names of the subjects whose figures and tables are wanted.
        charts: folder to write charts to, or ``None``.
    """

    key: str = ""
    subjects: tuple[str, ...] = ()
    charts: Path | None = None


@guarded
def size(
    book: str, build: Path, request: Request, site: SiteRequest, wanted: Wanted, *, as_json: bool
) -> int:
    """Size a build."""
    with progress(f"Sizing {build}", as_json=as_json):
        _, found = sized(book, build, request, site)
    if wanted.charts is not None:
        write_files({f"{plot.name}.svg": plot.svg for plot in plots(found)}, wanted.charts)
    if as_json:
        show_json(sized_json(found))
    elif wanted.key:
        show(_section(why(found, wanted.key)))
    else:
        show(_sheet(size_sheet(found, wanted.subjects)))
    return ANSWERED


def _sheet(told: SizeSheet) -> Iterator[RenderableType]:
    yield Text(told.title, style="bold")
    yield Text(told.verdict)
    yield from _cautions(told.cautions)
    for section in told.sections:
        yield from _section(section)
    yield ""
    yield Text(told.aid)


def _cautions(cautions: Iterable[Caution]) -> Iterator[RenderableType]:
    for each in cautions:
        yield ""
        yield from caution(each)


def _section(section: Section) -> Iterator[RenderableType]:
    yield from heading(section.title)
    yield from _cautions(section.cautions)
    if section.entries:
        yield columns((Text(each.lead), _entry(each)) for each in section.entries)
    if section.table is not None and any(section.table.heads):
        yield table(section.table)
    elif section.table is not None:
        yield columns([Text(cell) for cell in row] for row in section.table.rows)
    for sentence in section.sentences:
        yield Text(sentence)


def _entry(entry: Entry) -> Text:
    said = Text(entry.says)
    return said.append(f"\n{entry.beside}", style="dim") if entry.beside else said
